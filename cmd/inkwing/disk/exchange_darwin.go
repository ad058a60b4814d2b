package disk

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// exchange lets two files of a folder change places in one step, so that what
// was displaced goes by the name a.
func exchange(dir *os.File, a, b string) (displaced string, err error) {
	err = unix.RenameatxNp(int(dir.Fd()), a, int(dir.Fd()), b, unix.RENAME_SWAP)
	if errors.Is(err, unix.ENOTSUP) || errors.Is(err, unix.EINVAL) {
		return "", errors.ErrUnsupported
	}
	return a, err
}

// hasWriter would report whether a program has a file open for writing, which this
// system does not tell.
func hasWriter(*os.File) bool { return false }
