package disk

import "testing"

// pipe is for systems whose pipes are files of a folder.
func pipe(t *testing.T, path string) {
	t.Helper()
	t.Fatalf("%s: no pipes are files here", path)
}
