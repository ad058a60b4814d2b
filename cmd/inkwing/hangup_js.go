package main

import "os"

// hangups are none, since a browser has no terminal.
var hangups []os.Signal

// isIgnored is no: there is nobody who could have asked for that, and the standard
// library has no room for signals there, so that asking it panics.
func isIgnored(os.Signal) bool { return false }
