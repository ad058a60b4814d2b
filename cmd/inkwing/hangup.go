//go:build !js

package main

import (
	"os"
	"syscall"
)

// hangups are the signals of a terminal that is closed.
var hangups = []os.Signal{syscall.SIGHUP}
