package main

import "os"

// hangups are none, since a browser has no terminal.
var hangups []os.Signal
