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
	if err := openAddress(abs); err != nil {
		return trouble{fmt.Errorf("%s is written, but %w", name, err), "open it by hand"}
	}
	return nil
}

// openAddress shows a file in the browser, by its whole path.
func openAddress(at string) error {
	words := openers[runtime.GOOS]
	if words == nil {
		words = []string{"xdg-open"}
	}
	c := exec.Command(words[0], append(words[1:], at)...)
	if err := c.Start(); err != nil {
		return trouble{fmt.Errorf("could not be opened: %s is not to be had", words[0]), "open it by hand"}
	}
	return c.Process.Release()
}
