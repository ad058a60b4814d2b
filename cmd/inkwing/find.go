package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"inkwing/cmd/inkwing/disk"
)

// workTime bounds the working of one file, so that no worksheet can hold up a
// run for ever. A test that compares what processes say on a machine under load sets
// another.
var workTime = time.Minute

var errTooLong = fmt.Errorf("was not worked within %v", workTime)

// find turns the arguments into targets. What cannot be found becomes a target
// with an error, so that the others are worked all the same.
func (t *tool) find(ctx context.Context, p *paths, args []string) (*finder, error) {
	stdin := len(args) == 1 && args[0] == "-"
	if err := p.fits(args, stdin); err != nil {
		return nil, err
	}
	f, err := newFinder(p.root)
	if err != nil {
		return nil, err
	}
	if stdin {
		return f, t.findStdin(ctx, f, p.name)
	}
	if len(args) == 0 {
		args = []string{"."}
	}
	for _, path := range args {
		f.add(path)
	}
	return f, nil
}

func (p *paths) fits(args []string, stdin bool) error {
	if err := p.fitsFormat(); err != nil {
		return err
	}
	if p.name != "" && !stdin {
		return trouble{errors.New("--name is for the standard input"), "give - as the only path"}
	}
	for _, path := range args {
		switch {
		case path == "-" && !stdin:
			return trouble{errors.New("- does not go together with other paths"), "give - as the only path"}
		case path == "":
			return trouble{errors.New("a path is empty"), "name a file or a folder, or - for the standard input"}
		}
	}
	return nil
}

// findStdin makes the standard input a target that lies where its name says.
func (t *tool) findStdin(ctx context.Context, f *finder, name string) error {
	text, err := t.readStdin(ctx)
	if err != nil {
		return fmt.Errorf("the standard input %w", err)
	}
	if name == "" {
		name = "standard-input.md"
	}
	dir, err := realPath(filepath.Dir(name))
	if err != nil {
		return trouble{fmt.Errorf("%s: its folder %w", name, err), "--name is a path in an existing folder"}
	}
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return trouble{fmt.Errorf("%s lies in no folder", name), "--name is a path in an existing folder"}
	}
	g := &target{shown: filepath.ToSlash(name), stdin: append([]byte{}, text...)}
	f.found = append(f.found, g)
	return f.place(g, filepath.Join(dir, filepath.Base(name)))
}

// readStdin gives up waiting when ctx is done: somebody may have begun this by
// mistake, with nothing to type.
func (t *tool) readStdin(ctx context.Context) ([]byte, error) {
	type read struct {
		text []byte
		err  error
	}
	done := make(chan read, 1)
	go func() {
		text, err := disk.Bounded(t.stdin)
		done <- read{text, err}
	}()
	select {
	case r := <-done:
		return r.text, r.err
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}
