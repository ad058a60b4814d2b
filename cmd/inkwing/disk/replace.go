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
// text is written beside the file, synced and put in its place; the file's mode,
// owner and attributes and symbolic links to it stay, as far as the system lets
// them. Nothing is written once ctx is done.
//
// On Linux, macOS and Windows what was displaced is looked at: what another program
// saved at the last moment goes back. Elsewhere, and on drives that cannot do that, lies
// between the last look at the file and the renaming a moment in which it would be lost.
func (f *Folder) Replace(ctx context.Context, name string, old, text []byte) error {
	r, err := f.ready(name, old, text)
	if err != nil {
		return err
	}
	defer r.discard()
	return r.commit(ctx)
}

// A replacement is a text that stands ready beside the file that it is for.
type replacement struct {
	*Folder
	local     string // the file, links followed
	temp      string // what stands ready; empty once it is in place
	old, text []byte
}

// ready writes a text beside the file that it is for.
func (f *Folder) ready(name string, old, text []byte) (*replacement, error) {
	local, err := inside(name)
	if err != nil {
		return nil, err
	}
	local, info, err := f.follow(local)
	if err != nil {
		return nil, err
	}
	if info.Mode().Perm()&0o200 == 0 {
		return nil, errors.New("is read-only")
	}
	temp, err := f.beside(local, 0o600, text, func(file *os.File) error { return f.likeness(file, local, info) })
	if err != nil {
		return nil, err
	}
	return &replacement{f, local, temp, old, text}, nil
}

func (r *replacement) discard() {
	if r.temp != "" {
		r.root.Remove(r.temp)
	}
}

// likeness gives a new file the mode, owner and attributes of another. Only that
// it is readable for the same people is a must.
func (f *Folder) likeness(file *os.File, local string, info fs.FileInfo) error {
	if from, err := f.root.Open(local); err == nil {
		keepAttributes(file, from, info)
		from.Close()
	}
	return file.Chmod(info.Mode().Perm())
}

// beside writes text to a new file in the folder of local.
func (f *Folder) beside(local string, mode fs.FileMode, text []byte, finish func(*os.File) error) (string, error) {
	temp := filepath.Join(filepath.Dir(local), tempPrefix+rand.Text())
	file, err := f.root.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return "", fmt.Errorf("cannot be written: its folder takes no new file: %w", reason(err))
	}
	err = errors.Join(f.write(file, text), finish(file), file.Sync(), file.Close())
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

// commit puts the text into the file's place.
func (r *replacement) commit(ctx context.Context) error {
	if err := r.still(ctx, r.local, r.old); err != nil {
		return err
	}
	r.moment()
	err := r.exchange()
	if errors.Is(err, errors.ErrUnsupported) {
		if err = r.rename(r.temp, r.local); err == nil {
			r.temp = ""
		}
	} else if err == nil {
		err = r.settle()
	}
	switch {
	case err == nil:
		r.syncFolder(filepath.Dir(r.local))
	case !errors.Is(err, ErrChanged):
		err = fmt.Errorf("cannot be replaced: %w", reason(err))
	}
	return err
}

// exchange lets the file and what stands ready for it change places.
func (r *replacement) exchange() error {
	dir, err := r.root.Open(filepath.Dir(r.local))
	if err != nil {
		return err
	}
	defer dir.Close()
	displaced, err := exchange(dir, filepath.Base(r.temp), filepath.Base(r.local))
	if err == nil {
		r.temp = filepath.Join(filepath.Dir(r.temp), displaced)
	}
	return err
}

// maxTurns bounds how often a text is put back that was saved at the last moment.
const maxTurns = 8

// settle looks at what the exchange displaced. If that is not what was read, it was
// saved at the last moment: it goes back, and so on, as long as each exchange
// displaces something newer than what it brought.
func (r *replacement) settle() error {
	wanted, placed := r.old, r.text
	ours := true
	for range maxTurns {
		displaced, err := r.quiet()
		if err == nil && bytes.Equal(displaced, wanted) {
			if ours {
				return nil // what lies aside now is what was read
			}
			return ErrChanged
		}
		if err := r.exchange(); err != nil {
			return r.aside(err)
		}
		wanted, placed, ours = placed, displaced, false
	}
	return r.aside(errors.New("it is saved again and again"))
}

// aside leaves what was displaced where it is.
func (r *replacement) aside(err error) error {
	err = fmt.Errorf("what was saved meanwhile lies in %s: %w", filepath.Base(r.temp), err)
	r.temp = ""
	return err
}

// quietTime is how long a program may go on writing to a file that was displaced
// under its hands.
const quietTime = 500 * time.Millisecond

var errWriting = errors.New("is being written")

// quiet reads what was displaced, once no program has it open for writing any more.
func (r *replacement) quiet() ([]byte, error) {
	for until := time.Now().Add(quietTime); ; time.Sleep(5 * time.Millisecond) {
		file, err := r.root.Open(r.temp)
		if err != nil {
			return nil, err
		}
		writing := hasWriter(file)
		file.Close()
		switch {
		case !writing:
			return r.Read(filepath.ToSlash(r.temp))
		case time.Now().After(until):
			return nil, errWriting
		}
	}
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
