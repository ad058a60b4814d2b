//go:build !linux && !darwin && !windows

package disk

import (
	"errors"
	"os"
)

// exchange would let two files of a folder change places.
func exchange(*os.File, string, string) (string, error) { return "", errors.ErrUnsupported }

// hasWriter would report whether a program has a file open for writing.
func hasWriter(*os.File) bool { return false }
