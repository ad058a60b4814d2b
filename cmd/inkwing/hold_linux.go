package main

import "golang.org/x/sys/unix"

// hold bounds the memory of a process that was started.
func hold(pid int) {
	_ = unix.Prlimit(pid, unix.RLIMIT_DATA, &unix.Rlimit{Cur: gitMemory, Max: gitMemory}, nil)
}
