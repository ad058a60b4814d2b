//go:build !unix

package disk

import (
	"context"
	"io/fs"
	"os"
)

// nonblock has no use here.
const nonblock = 0

// keepAttributes would keep what the mode does not say.
func keepAttributes(*os.File, *os.File, fs.FileInfo) {}

// hasOtherNames would report whether a file has hard links beside this one.
func hasOtherNames(fs.FileInfo) bool { return false }

// isOwn would report whether something is the user's own.
func isOwn(fs.FileInfo) bool { return true }

// lock would keep other runs from a folder.
func lock(context.Context, *os.File) (unlock func()) { return func() {} }
