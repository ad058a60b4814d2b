//go:build unix

package samples_test

import (
	"syscall"
	"testing"
	"time"
)

// cpu is the time on processors that the process has taken so far: what a run costs on
// a machine that has other things to do.
func cpu(b *testing.B) time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
