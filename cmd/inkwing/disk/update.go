package disk

import (
	"bytes"
	"context"
	"path/filepath"
)

// A File is a file of the folder: what it held when it was read, nil for one that
// was not there, and what it should hold, nil for one that should go. If both are
// alike it only has to be so still.
type File struct {
	Name     string
	Old, New []byte
}

func (f File) stays() bool { return f.New != nil && f.Old != nil && bytes.Equal(f.Old, f.New) }

// A BesideError is what went wrong with a file beside another.
type BesideError struct {
	Name string
	Err  error
}

func (e *BesideError) Error() string { return e.Err.Error() }
func (e *BesideError) Unwrap() error { return e.Err }

// Update brings a file up to date together with those that a run keeps beside it.
// Nothing is touched unless the file itself can be written and all that should stay
// is as it was read; what it shows is there before it, and goes after it. Two runs
// in one folder take turns, so that neither takes away what the other shows.
func (f *Folder) Update(ctx context.Context, page File, beside []File) error {
	var text *replacement
	if !page.stays() {
		var err error
		if text, err = f.ready(page.Name, page.Old, page.New); err != nil {
			return err
		}
		defer text.discard()
	}
	defer f.alone(ctx, page.Name)()
	if err := f.allStill(ctx, page, beside); err != nil {
		return err
	}
	if err := each(beside, func(b File) bool { return b.New != nil && !b.stays() }, func(b File) error { return f.Put(ctx, b.Name, b.Old, b.New) }); err != nil {
		return err
	}
	if text != nil {
		if err := text.commit(ctx); err != nil {
			return err
		}
	}
	return each(beside, func(b File) bool { return b.New == nil }, func(b File) error { return f.Remove(ctx, b.Name, b.Old) })
}

// each does something with some of the files beside another.
func each(list []File, which func(File) bool, do func(File) error) error {
	for _, b := range list {
		if !which(b) {
			continue
		}
		if err := do(b); err != nil {
			return &BesideError{b.Name, err}
		}
	}
	return nil
}

// allStill fails where something is not as it was read, and should be.
func (f *Folder) allStill(ctx context.Context, page File, beside []File) error {
	if err := f.still(ctx, page.Name, page.Old); err != nil {
		return err
	}
	for _, b := range beside {
		if b.stays() && f.still(ctx, b.Name, b.Old) != nil {
			return ErrChanged
		}
	}
	return ctx.Err()
}

// alone keeps other runs from the folder of a file, until what it returns is called.
func (f *Folder) alone(ctx context.Context, name string) func() {
	local, err := inside(name)
	if err != nil {
		return func() {}
	}
	dir, err := f.root.Open(filepath.Dir(local))
	if err != nil {
		return func() {}
	}
	unlock := lock(ctx, dir)
	return func() {
		unlock()
		dir.Close()
	}
}

// HasOtherNames reports whether a file has further names on this disk (hard links),
// which keep what it held when it is replaced.
func (f *Folder) HasOtherNames(name string) bool {
	local, err := inside(name)
	if err != nil {
		return false
	}
	_, info, err := f.follow(local)
	return err == nil && hasOtherNames(info)
}
