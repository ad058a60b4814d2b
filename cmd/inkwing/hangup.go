//go:build !js

package main

import (
	"os"
	"os/signal"
	"syscall"
)

// hangups are the signals of a terminal that is closed.
var hangups = []os.Signal{syscall.SIGHUP}

// isIgnored reports whether a signal was ignored when the program began.
func isIgnored(s os.Signal) bool { return signal.Ignored(s) }
