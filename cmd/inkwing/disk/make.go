package disk

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Make makes a folder, and those above it, and opens it. One that holds anything
// is refused.
func Make(dir string) (*Folder, error) {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, reason(err)
	}
	f, err := Open(dir)
	if err != nil {
		return nil, err
	}
	names, err := f.List(".")
	if err == nil && len(names) > 0 {
		err = errors.New("holds something already")
	}
	if err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}

// MakeAny makes a folder, and those above it, where there is none, and opens it.
func MakeAny(dir string) (*Folder, error) {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, reason(err)
	}
	return Open(dir)
}

// OpenOwn makes a folder that only its owner may look into, and those above it, and opens
// it. It is refused where it is, or would lie in, somebody else's: a run as another user,
// who has kept the builder's home, leaves nothing there.
func OpenOwn(dir string) (*Folder, error) {
	at := dir
	info, err := os.Stat(at)
	for errors.Is(err, fs.ErrNotExist) && filepath.Dir(at) != at {
		at = filepath.Dir(at)
		info, err = os.Stat(at)
	}
	if err != nil {
		return nil, reason(err)
	}
	if !isOwn(info) {
		return nil, errors.New("is somebody else's")
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, reason(err)
	}
	return Open(dir)
}

// Exists reports whether anything at all has that name, a link that leads nowhere
// included.
func (f *Folder) Exists(name string) bool {
	local, err := inside(name)
	if err != nil {
		return false
	}
	_, err = f.root.Lstat(local)
	return !errors.Is(err, fs.ErrNotExist)
}

// Lay writes a new file, and the folders that it lies in. What has its name already
// stays, and is the error.
func (f *Folder) Lay(ctx context.Context, name string, text []byte) error {
	local, err := inside(name)
	if err != nil {
		return err
	}
	if err := f.root.MkdirAll(filepath.Dir(local), 0o777); err != nil {
		return reason(err)
	}
	file, err := f.root.OpenFile(local, os.O_WRONLY|os.O_CREATE|os.O_EXCL, newMode)
	if errors.Is(err, fs.ErrExist) {
		return errors.New("stands there already")
	}
	if err != nil {
		return fmt.Errorf("cannot be written: %w", reason(err))
	}
	if err := errors.Join(ctx.Err(), f.write(file, text), file.Sync(), file.Close()); err != nil {
		f.root.Remove(local)
		return fmt.Errorf("cannot be written: %w", first(err))
	}
	return nil
}
