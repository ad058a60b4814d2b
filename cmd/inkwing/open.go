package main

import (
	"fmt"
	"os/exec"
	"path/filepath"
	"runtime"
)

// openers are what opens a file with the program that its kind is read with.
var openers = map[string][]string{
	"darwin":  {"open"},
	"windows": {"rundll32", "url.dll,FileProtocolHandler"},
}

// openFile shows a page in the reader's browser. It does not wait for it.
func openFile(name string) error {
	abs, err := filepath.Abs(name)
	if err != nil {
		return err
	}
	words := openers[runtime.GOOS]
	if words == nil {
		words = []string{"xdg-open"}
	}
	c := exec.Command(words[0], append(words[1:], abs)...)
	if err := c.Start(); err != nil {
		return trouble{fmt.Errorf("%s is written, but could not be opened: %s is not to be had", name, words[0]), "open it by hand"}
	}
	return c.Process.Release()
}
