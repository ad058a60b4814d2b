//go:build unix

package disk

import (
	"context"
	"io/fs"
	"os"
	"syscall"
	"time"
)

// nonblock keeps the opening of a pipe from waiting for who writes to it.
const nonblock = syscall.O_NONBLOCK

// keepAttributes gives a file the owner, group and extended attributes of another,
// access lists among them, as far as the system lets it.
func keepAttributes(file, from *os.File, info fs.FileInfo) {
	if is, ok := info.Sys().(*syscall.Stat_t); ok {
		if file.Chown(int(is.Uid), int(is.Gid)) != nil {
			_ = file.Chown(-1, int(is.Gid)) // a group that one is in can be given away
		}
	}
	copyAttributes(int(file.Fd()), int(from.Fd()))
}

// hasOtherNames reports whether a file has hard links beside this one.
func hasOtherNames(info fs.FileInfo) bool {
	is, ok := info.Sys().(*syscall.Stat_t)
	return ok && is.Nlink > 1
}

// isOwn reports whether something is the user's own.
func isOwn(info fs.FileInfo) bool {
	is, ok := info.Sys().(*syscall.Stat_t)
	return ok && int(is.Uid) == os.Geteuid()
}

// lockTime is how long another run may take over its files of a folder.
const lockTime = 10 * time.Second

// lock keeps other runs from a folder until unlock. A system that cannot lock a
// folder is done without: what is written is looked at before in any case.
func lock(ctx context.Context, dir *os.File) (unlock func()) {
	fd := int(dir.Fd())
	for until := time.Now().Add(lockTime); ctx.Err() == nil && time.Now().Before(until); time.Sleep(time.Millisecond) {
		switch syscall.Flock(fd, syscall.LOCK_EX|syscall.LOCK_NB) {
		case nil:
			return func() { _ = syscall.Flock(fd, syscall.LOCK_UN) }
		case syscall.EWOULDBLOCK, syscall.EINTR:
			continue
		}
		break
	}
	return func() {}
}
