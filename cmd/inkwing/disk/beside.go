package disk

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// besideEnding ends the names of folders that a run makes and takes away.
const besideEnding = ".charts"

// newMode is the mode of a file that a run makes, less what the builder's umask
// takes away.
const newMode = 0o666

// List names what lies in a folder, sorted; nothing if there is no such folder.
// A link to a folder is refused: what a run writes stays where it is looked for.
func (f *Folder) List(name string) ([]string, error) {
	local, err := inside(name)
	if err != nil {
		return nil, err
	}
	if err := f.realFolder(local); err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return nil, nil
		}
		return nil, err
	}
	dir, err := f.root.Open(local)
	if err != nil {
		return nil, reason(err)
	}
	defer dir.Close()
	names, err := dir.Readdirnames(-1)
	if err != nil {
		return nil, reason(err)
	}
	slices.Sort(names)
	return names, nil
}

func (f *Folder) realFolder(local string) error {
	info, err := f.root.Lstat(local)
	switch {
	case err != nil:
		return reason(err)
	case info.Mode()&fs.ModeSymlink != 0:
		return errors.New("is a symbolic link, and charts are kept in a folder of their own")
	case !info.IsDir():
		return errors.New("is a file, and should be a folder")
	}
	return nil
}

// Put writes a file that a run owns, in a folder of its own, which is made where
// there is none. Old is what it holds, nil for one that is not there; if that is
// so no longer, it stays and the error is [ErrChanged].
func (f *Folder) Put(ctx context.Context, name string, old, text []byte) error {
	local, err := inside(name)
	if err != nil {
		return err
	}
	if err := f.makeFolder(filepath.Dir(local)); err != nil {
		return err
	}
	info, err := f.root.Lstat(local)
	switch {
	case errors.Is(err, fs.ErrNotExist) && old == nil:
		return f.create(ctx, local, text)
	case errors.Is(err, fs.ErrNotExist) || err == nil && old == nil:
		return ErrChanged
	case err != nil:
		return reason(err)
	case !info.Mode().IsRegular():
		return errors.New("is no regular file")
	}
	return f.Replace(ctx, name, old, text)
}

func (f *Folder) makeFolder(local string) error {
	if err := f.root.Mkdir(local, 0o777); err != nil && !errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("cannot be written: its folder %w", reason(err))
	}
	if err := f.realFolder(local); err != nil {
		return fmt.Errorf("cannot be written: its folder %w", err)
	}
	return nil
}

func (f *Folder) create(ctx context.Context, local string, text []byte) error {
	temp, err := f.beside(local, newMode, text, func(*os.File) error { return nil })
	if err != nil {
		return err
	}
	if err := ctx.Err(); err != nil {
		f.root.Remove(temp)
		return err
	}
	if err := f.rename(temp, local); err != nil {
		f.root.Remove(temp)
		return fmt.Errorf("cannot be written: %w", reason(err))
	}
	f.syncFolder(filepath.Dir(local))
	return nil
}

// Remove takes away a file that a run owns and that still holds old, and its
// folder once that is empty.
func (f *Folder) Remove(ctx context.Context, name string, old []byte) error {
	local, err := inside(name)
	if err != nil {
		return err
	}
	info, err := f.root.Lstat(local)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return reason(err)
	case !info.Mode().IsRegular():
		return errors.New("is no regular file")
	}
	if err := f.still(ctx, local, old); err != nil {
		return err
	}
	if err := f.root.Remove(local); err != nil {
		return fmt.Errorf("cannot be removed: %w", reason(err))
	}
	if dir := filepath.Dir(local); strings.HasSuffix(dir, besideEnding) {
		f.removeEmpty(dir)
	}
	return nil
}

// removeEmpty takes a folder away if nothing lies in it.
func (f *Folder) removeEmpty(local string) {
	if f.realFolder(local) == nil {
		f.root.Remove(local) // which keeps a folder that holds something
	}
}
