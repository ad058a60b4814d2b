//go:build unix

package disk

import (
	"syscall"
	"testing"
)

// pipe makes a named pipe, at which a careless reader waits for ever.
func pipe(t *testing.T, path string) {
	t.Helper()
	if err := syscall.Mkfifo(path, 0o644); err != nil {
		t.Fatal(err)
	}
}
