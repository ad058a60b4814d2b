//go:build unix

package main

import (
	"syscall"
	"time"
)

// processorTime is how long processors have worked for this program.
func processorTime() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
