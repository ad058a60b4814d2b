package main

import (
	"syscall"
	"time"
)

// processorTime is how long processors have worked for this program.
func processorTime() time.Duration {
	p, err := syscall.GetCurrentProcess()
	if err != nil {
		return 0
	}
	var begun, ended, kernel, user syscall.Filetime
	if syscall.GetProcessTimes(p, &begun, &ended, &kernel, &user) != nil {
		return 0
	}
	return ticks(kernel) + ticks(user)
}

// ticks is a span that the system counts in tenths of a microsecond.
func ticks(t syscall.Filetime) time.Duration {
	return time.Duration(int64(t.HighDateTime)<<32+int64(t.LowDateTime)) * 100
}
