// Package disk is the only code of inkwing that touches files.
//
// A [Folder] is a rooted folder: [Folder.Read] and [Folder.Replace] reach what
// lies in it and nothing else, whatever links or dots a path holds. It cannot
// stop a mount point inside the folder from leading elsewhere.
package disk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
)

// MaxSize is the largest file that is read.
const MaxSize = 16 << 20

// maxLinks bounds the symbolic links that are followed to one file.
const maxLinks = 40

// A Folder is a folder out of which no path leads. It is safe for use by
// several goroutines at once.
type Folder struct {
	root *os.Root
	// write is how bytes get into a temporary file; tests let it fail.
	write func(w io.Writer, text []byte) error
	// moment is called at the last moment before a file is replaced; tests let
	// another program save it then.
	moment func()
}

// Open opens the folder at a path of the operating system.
func Open(dir string) (*Folder, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, reason(err)
	}
	return &Folder{root: root, write: writeAll, moment: func() {}}, nil
}

// Close gives the folder back to the system.
func (f *Folder) Close() error { return f.root.Close() }

// Read returns what a regular file holds. The name is a path from the folder,
// with slashes. The error is a sentence to be shown behind the name.
func (f *Folder) Read(name string) ([]byte, error) {
	local, err := inside(name)
	if err != nil {
		return nil, err
	}
	if err := f.regular(local); err != nil {
		return nil, err
	}
	// A pipe put in the file's place since would block an ordinary open.
	file, err := f.root.OpenFile(local, os.O_RDONLY|nonblock, 0)
	if err != nil {
		return nil, reason(err)
	}
	defer file.Close()
	return readAll(file)
}

func readAll(file *os.File) ([]byte, error) {
	info, err := file.Stat()
	if err != nil {
		return nil, reason(err)
	}
	if err := isRegular(info); err != nil {
		return nil, err
	}
	text, err := Bounded(file)
	if err != nil {
		return nil, reason(err)
	}
	return text, nil
}

// Bounded reads all of r, and fails where that is more than [MaxSize].
func Bounded(r io.Reader) ([]byte, error) {
	text, err := io.ReadAll(io.LimitReader(r, MaxSize+1))
	if err == nil && len(text) > MaxSize {
		return nil, errTooLarge
	}
	return text, err
}

func (f *Folder) regular(local string) error {
	info, err := f.root.Stat(local)
	if err != nil {
		return reason(err)
	}
	return isRegular(info)
}

func isRegular(info fs.FileInfo) error {
	switch {
	case info.IsDir():
		return errors.New("is a folder, not a file")
	case !info.Mode().IsRegular():
		return errors.New("is no regular file")
	case info.Size() > MaxSize:
		return errTooLarge
	}
	return nil
}

var (
	errTooLarge = fmt.Errorf("is larger than %d MiB", MaxSize>>20)
	errOutside  = errors.New("lies outside the folder that this run may read")
)

// inside turns a path of a worksheet into one of the operating system. What one
// system would refuse is refused on all, so that a shared worksheet works, or
// fails, alike everywhere.
func inside(name string) (string, error) {
	switch {
	case name == "":
		return "", errors.New("is an empty path")
	case strings.ContainsRune(name, 0):
		return "", errors.New("holds a NUL")
	case strings.Contains(name, `\`):
		return "", errors.New("holds a backslash: folders are written with /")
	case len(name) > 1 && name[1] == ':', path.IsAbs(name):
		return "", errOutside
	}
	local := filepath.FromSlash(path.Clean(name))
	if !filepath.IsLocal(local) {
		return "", errOutside
	}
	return local, nil
}

// follow finds the file that a last symbolic link leads to, so that the file is
// replaced and the link stays.
func (f *Folder) follow(local string) (string, fs.FileInfo, error) {
	for range maxLinks {
		info, err := f.root.Lstat(local)
		if err != nil {
			return "", nil, reason(err)
		}
		if info.Mode()&fs.ModeSymlink == 0 {
			return local, info, isRegular(info)
		}
		to, err := f.root.Readlink(local)
		if err != nil {
			return "", nil, reason(err)
		}
		local = filepath.Join(filepath.Dir(local), to)
		if filepath.IsAbs(to) || !filepath.IsLocal(local) {
			return "", nil, errOutside
		}
	}
	return "", nil, errors.New("is a circle of symbolic links")
}

// reason says what went wrong without the operation and path, which whoever
// prints it knows better.
func reason(err error) error {
	var of *fs.PathError
	var link *os.LinkError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return plain{"does not exist", err}
	case errors.As(err, &of) && strings.Contains(of.Err.Error(), "escapes"):
		return plain{errOutside.Error(), err}
	case errors.As(err, &of):
		return plain{of.Err.Error(), err}
	case errors.As(err, &link):
		return plain{link.Err.Error(), err}
	}
	return err
}

// A plain is an error with a text of our own.
type plain struct {
	text string
	err  error
}

func (p plain) Error() string { return p.text }
func (p plain) Unwrap() error { return p.err }
