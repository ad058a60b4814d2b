package disk

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// exchange lets two files of a folder change places in one step (renameat2(2)),
// so that what was displaced goes by the name a.
func exchange(dir *os.File, a, b string) (displaced string, err error) {
	err = unix.Renameat2(int(dir.Fd()), a, int(dir.Fd()), b, unix.RENAME_EXCHANGE)
	if errors.Is(err, unix.EINVAL) || errors.Is(err, unix.ENOSYS) {
		return "", errors.ErrUnsupported // an old kernel, or a file system that cannot
	}
	return a, err
}

// hasWriter reports whether a program has a file open for writing: a read lease
// is then refused (fcntl(2)). Where leases are not to be had, none is known.
func hasWriter(file *os.File) bool {
	_, err := unix.FcntlInt(file.Fd(), unix.F_SETLEASE, unix.F_RDLCK)
	if err == nil {
		_, _ = unix.FcntlInt(file.Fd(), unix.F_SETLEASE, unix.F_UNLCK)
	}
	return errors.Is(err, unix.EAGAIN)
}
