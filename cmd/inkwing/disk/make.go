package disk

import (
	"errors"
	"os"
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
