package disk

import (
	"bytes"
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"time"
)

// ErrChanged says that a file no longer holds what was read from it.
var ErrChanged = errors.New("changed while it was worked")

// tempPrefix begins the names of temporary files: hidden, and no Markdown, so
// that no walk through the folder takes one for a worksheet.
const tempPrefix = ".inkwing-"

// Replace puts text in the place of a file that still holds old, or fails and
// leaves the file whole: [ErrChanged] if it holds something else by now. The
// text is written beside the file, synced and renamed; the file's mode and
// symbolic links to it stay. Nothing is written once ctx is done.
//
// Between the last look at the file and the renaming lies a moment in which
// another program's change would be lost; no common system offers less.
func (f *Folder) Replace(ctx context.Context, name string, old, text []byte) error {
	local, err := inside(name)
	if err != nil {
		return err
	}
	local, info, err := f.follow(local)
	if err != nil {
		return err
	}
	if info.Mode().Perm()&0o200 == 0 {
		return errors.New("is read-only")
	}
	temp, err := f.beside(local, info.Mode().Perm(), text)
	if err != nil {
		return err
	}
	if err := f.swap(ctx, temp, local, old); err != nil {
		f.root.Remove(temp)
		return err
	}
	f.syncFolder(filepath.Dir(local))
	return nil
}

// beside writes text to a new file in the folder of local.
func (f *Folder) beside(local string, mode fs.FileMode, text []byte) (string, error) {
	temp := filepath.Join(filepath.Dir(local), tempPrefix+rand.Text())
	file, err := f.root.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return "", fmt.Errorf("cannot be written: its folder takes no new file: %w", reason(err))
	}
	err = errors.Join(f.write(file, text), file.Sync(), file.Close())
	if err == nil {
		err = f.root.Chmod(temp, mode)
	}
	if err != nil {
		f.root.Remove(temp)
		return "", fmt.Errorf("cannot be written: %w", first(err))
	}
	return temp, nil
}

// first is the cause of a joined error: what follows a failed write is noise.
func first(err error) error {
	if all, ok := err.(interface{ Unwrap() []error }); ok {
		err = all.Unwrap()[0]
	}
	return reason(err)
}

// still reports whether a file holds old, and the run goes on: what is no longer so
// is the error.
func (f *Folder) still(ctx context.Context, local string, old []byte) error {
	now, err := f.Read(filepath.ToSlash(local))
	if err != nil {
		return err
	}
	if !bytes.Equal(now, old) {
		return ErrChanged
	}
	return ctx.Err()
}

func (f *Folder) swap(ctx context.Context, temp, local string, old []byte) error {
	if err := f.still(ctx, local, old); err != nil {
		return err
	}
	if err := f.rename(temp, local); err != nil {
		return fmt.Errorf("cannot be replaced: %w", reason(err))
	}
	return nil
}

// rename tries for a while on Windows, where a virus scanner or an indexer may
// hold a new file open for some milliseconds.
func (f *Folder) rename(temp, local string) error {
	err := f.root.Rename(temp, local)
	for try := 0; err != nil && runtime.GOOS == "windows" && try < 10; try++ {
		time.Sleep(10 * time.Millisecond)
		err = f.root.Rename(temp, local)
	}
	return err
}

// syncFolder makes the renaming itself last through a power cut, where the
// system can do that; the file is whole in any case.
func (f *Folder) syncFolder(dir string) {
	if d, err := f.root.Open(dir); err == nil {
		d.Sync()
		d.Close()
	}
}

func writeAll(w io.Writer, text []byte) error {
	_, err := w.Write(text)
	return err
}
