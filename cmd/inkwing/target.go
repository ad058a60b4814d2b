package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"inkwing/cmd/inkwing/disk"
	"inkwing/evaluate/message"
	"inkwing/worksheet"
)

// A folder is what a target lies in: a [disk.Folder] outside of tests.
type folder interface {
	Read(name string) ([]byte, error)
	List(folder string) ([]string, error)
	Update(ctx context.Context, page disk.File, beside []disk.File) error
	HasOtherNames(name string) bool
	Leftovers(folder string) []string
	Remove(ctx context.Context, name string, old []byte) error
}

// A target is one file to be worked.
type target struct {
	shown  string // what the builder calls it
	folder folder // the run's root
	base   string // the root's path
	name   string // path from the root, with slashes
	walked bool   // found in a folder: counts only with a working block
	stdin  []byte // its text, when it is the standard input
	err    error  // why there is nothing to work
}

func (g *target) isStdin() bool { return g.stdin != nil }

// read returns the target's text.
func (g *target) read() ([]byte, error) {
	if g.err != nil {
		return nil, g.err
	}
	if g.isStdin() {
		return g.stdin, nil
	}
	return g.folder.Read(g.name)
}

// work works the target as it stands now; nil for a file of a folder that holds
// no working block.
func (g *target) work(ctx context.Context, options ...worksheet.Option) (*worksheet.Result, error) {
	r, err := g.inBounds(ctx, func(ctx context.Context, text []byte) *worksheet.Result {
		return worksheet.WorkText(ctx, g.folder, g.name, text, options...)
	})
	if err == nil && g.walked && r.Blocks == 0 && (len(r.Notes) == 0 || r.Changed()) {
		return nil, nil
	}
	return r, err
}

// inBounds does something with the target's text, by itself where it was too much beside
// others.
func (g *target) inBounds(ctx context.Context, do func(context.Context, []byte) *worksheet.Result) (*worksheet.Result, error) {
	r, err := g.within(ctx, boundedWork, do)
	if errors.Is(err, errCrowded) || errors.Is(err, errCrowdedEffort) {
		return g.within(ctx, boundedLoneWork, do)
	}
	return r, err
}

func (g *target) within(ctx context.Context, bounded func(context.Context) (context.Context, func()), do func(context.Context, []byte) *worksheet.Result) (*worksheet.Result, error) {
	ctx, done := bounded(ctx)
	defer done()
	text, err := g.read()
	if err != nil {
		return nil, err
	}
	r := do(ctx, text)
	if ctx.Err() != nil {
		return nil, context.Cause(ctx)
	}
	return r, nil
}

// display is what the builder calls a file that messages name by its path from
// the root.
func (g *target) display(file string) string {
	if file == g.name || file == "" {
		return g.shown
	}
	return fromHere(filepath.Join(g.base, filepath.FromSlash(file)))
}

// fromHere is a path as seen from the current folder, with slashes.
func fromHere(path string) string {
	if here, err := os.Getwd(); err == nil {
		if real, err := filepath.EvalSymlinks(here); err == nil {
			here = real
		}
		if rel, err := filepath.Rel(here, path); err == nil {
			path = rel
		}
	}
	return filepath.ToSlash(path)
}

// A finder turns the paths of the command line into targets.
type finder struct {
	root    string                  // --root, made absolute; empty without
	folders map[string]*disk.Folder // by their path
	tops    map[string]string       // the root for the files of a folder
	seen    map[string]bool         // real paths that are targets already
	found   []*target
}

func newFinder(root string) (*finder, error) {
	f := &finder{folders: map[string]*disk.Folder{}, tops: map[string]string{}, seen: map[string]bool{}}
	if root == "" {
		return f, nil
	}
	real, err := realPath(root)
	if err != nil {
		return nil, trouble{fmt.Errorf("%s %w", root, err), "--root names an existing folder"}
	}
	f.root = real
	if _, err := f.open(real); err != nil {
		return nil, trouble{fmt.Errorf("%s cannot be used as root: %w", root, err), "--root names an existing folder"}
	}
	return f, nil
}

func (f *finder) close() {
	for _, folder := range f.folders {
		folder.Close()
	}
}

// realPath is the absolute path behind all symbolic links.
func realPath(path string) (string, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	real, err := filepath.EvalSymlinks(abs)
	if errors.Is(err, fs.ErrNotExist) {
		return "", errors.New("does not exist")
	}
	var of *fs.PathError
	if errors.As(err, &of) {
		return "", of.Err
	}
	return real, err
}

// nearFile names the worksheet beside a path that was probably meant.
func nearFile(path string, err error) error {
	entries, unread := os.ReadDir(filepath.Dir(path))
	if unread != nil {
		return err
	}
	var names []string
	for _, e := range entries {
		if e.IsDir() || strings.EqualFold(filepath.Ext(e.Name()), ".md") {
			names = append(names, e.Name())
		}
	}
	near := message.Nearest(filepath.Base(path), names)
	if near == "" {
		return err
	}
	return trouble{err, "did you mean " + filepath.ToSlash(filepath.Join(filepath.Dir(path), near)) + "?"}
}

// add finds the targets of one path.
func (f *finder) add(path string) {
	real, err := realPath(path)
	if err != nil {
		f.found = append(f.found, &target{shown: path, err: nearFile(path, err)})
		return
	}
	if info, err := os.Stat(real); err == nil && info.IsDir() {
		f.walk(path, real)
		return
	}
	f.file(path, real, false)
}

// walk finds the Markdown files below a folder. It follows no links: what they
// lead to inside the folder is found anyway, and nobody asked for the rest.
func (f *finder) walk(shown, real string) {
	filepath.WalkDir(real, func(path string, d fs.DirEntry, err error) error {
		rel, _ := filepath.Rel(real, path)
		name := filepath.Join(shown, rel)
		switch {
		case err != nil:
			f.found = append(f.found, &target{shown: name, err: errors.New("cannot be looked through")})
			return fs.SkipDir
		case d.IsDir() && path != real && strings.HasPrefix(d.Name(), "."):
			return fs.SkipDir
		case d.Type().IsRegular() && strings.EqualFold(filepath.Ext(path), ".md"):
			f.file(name, path, true)
		}
		return nil
	})
}

// file adds the file at a real path, once however often it is named.
func (f *finder) file(shown, real string, walked bool) {
	if f.seen[real] {
		return
	}
	f.seen[real] = true
	g := &target{shown: filepath.ToSlash(shown), walked: walked}
	if g.err = f.place(g, real); g.err == nil {
		g.err = isMarkdown(real)
	}
	f.found = append(f.found, g)
}

// isMarkdown refuses a file that is no worksheet by its name: folders, the hooks and
// whoever shows it go by that.
func isMarkdown(path string) error {
	ext := filepath.Ext(path)
	info, err := os.Stat(path)
	if ext == "" || strings.EqualFold(ext, ".md") || err != nil || !info.Mode().IsRegular() {
		return nil
	}
	base := filepath.Base(path)
	return trouble{errors.New("is no Markdown file by its name"), "rename it to " + strings.TrimSuffix(base, ext) + ".md, or send its text to `inkwing run -`"}
}

// place finds the root of a target and its name from there.
func (f *finder) place(g *target, real string) error {
	g.base = f.top(filepath.Dir(real))
	rel, err := filepath.Rel(g.base, real)
	if err != nil || !filepath.IsLocal(rel) {
		return trouble{errors.New("lies outside the root"), "name a --root above the file, or none"}
	}
	g.name = filepath.ToSlash(rel)
	g.folder, err = f.open(g.base)
	return err
}

// top is the root for the files of a folder: --root, else the nearest folder
// above that holds .git, else the folder itself.
func (f *finder) top(dir string) string {
	if f.root != "" {
		return f.root
	}
	if top, ok := f.tops[dir]; ok {
		return top
	}
	f.tops[dir] = nearestRepository(dir)
	return f.tops[dir]
}

func nearestRepository(dir string) string {
	for up := dir; ; up = filepath.Dir(up) {
		if _, err := os.Lstat(filepath.Join(up, ".git")); err == nil {
			return up
		}
		if up == filepath.Dir(up) {
			return dir
		}
	}
}

func (f *finder) open(dir string) (*disk.Folder, error) {
	if folder, ok := f.folders[dir]; ok {
		return folder, nil
	}
	folder, err := disk.Open(dir)
	if err == nil {
		f.folders[dir] = folder
	}
	return folder, err
}
