package disk

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestPutAndRemove(t *testing.T) {
	f, dir := tree(t)
	names := func() string {
		t.Helper()
		list, err := f.List("notes.charts")
		if err != nil {
			t.Fatal(err)
		}
		return strings.Join(list, " ")
	}
	ok := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	if got := names(); got != "" {
		t.Fatal(got)
	}
	ok(f.Put(background, "notes.charts/b.svg", nil, []byte("b")))
	ok(f.Put(background, "notes.charts/a.svg", nil, []byte("a")))
	ok(f.Put(background, "notes.charts/a.svg", []byte("a"), []byte("A")))
	if got := names(); got != "a.svg b.svg" || content(t, filepath.Join(dir, "notes.charts/a.svg")) != "A" {
		t.Error(got)
	}
	noTemp(t, dir)
	ok(f.Remove(background, "notes.charts/a.svg", []byte("A")))
	ok(f.Remove(background, "notes.charts/a.svg", []byte("A"))) // gone already
	if got := names(); got != "b.svg" {
		t.Error(got)
	}
	ok(f.Remove(background, "notes.charts/b.svg", []byte("b")))
	if _, err := os.Lstat(filepath.Join(dir, "notes.charts")); !errors.Is(err, os.ErrNotExist) {
		t.Error("the empty folder stays", err)
	}
}

// TestPutChanged wants what somebody else wrote meanwhile to stay.
func TestPutChanged(t *testing.T) {
	f, dir := tree(t)
	if err := f.Put(background, "notes.charts/a.svg", []byte("old"), []byte("new")); err != ErrChanged {
		t.Error("a file that went:", err)
	}
	path := filepath.Join(dir, "notes.charts/a.svg")
	if err := os.WriteFile(path, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, old := range [][]byte{nil, []byte("old"), {}} {
		if err := f.Put(background, "notes.charts/a.svg", old, []byte("new")); err != ErrChanged {
			t.Errorf("put over %q: %v", old, err)
		}
	}
	if err := f.Remove(background, "notes.charts/a.svg", []byte("old")); err != ErrChanged {
		t.Error("remove:", err)
	}
	if got := content(t, path); got != "mine" {
		t.Error(got)
	}
	noTemp(t, dir)
}

// TestPutStaysInside wants no link followed and nothing written outside.
func TestPutStaysInside(t *testing.T) {
	f, dir := tree(t)
	outside := t.TempDir()
	link(t, outside, filepath.Join(dir, "out.charts"))
	link(t, "sub", filepath.Join(dir, "in.charts"))
	if err := os.Mkdir(filepath.Join(dir, "own.charts"), 0o755); err != nil {
		t.Fatal(err)
	}
	link(t, "../notes.md", filepath.Join(dir, "own.charts/a.svg"))
	if err := os.WriteFile(filepath.Join(dir, "file.charts"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"out.charts/a.svg", "in.charts/a.svg", "own.charts/a.svg", "file.charts/a.svg", "../x.charts/a.svg", "none/notes.charts/a.svg"} {
		for _, old := range [][]byte{nil, []byte("notes")} {
			if err := f.Put(background, name, old, []byte("new")); err == nil {
				t.Errorf("%s was written", name)
			}
		}
	}
	for _, name := range []string{"own.charts/a.svg", "../x.charts/a.svg", "own.charts"} {
		if err := f.Remove(background, name, []byte("notes")); err == nil {
			t.Errorf("%s was removed", name)
		}
	}
	for _, name := range []string{"out.charts", "in.charts", "file.charts", ".."} {
		if _, err := f.List(name); err == nil {
			t.Errorf("%s was listed", name)
		}
	}
	if left, err := os.ReadDir(outside); err != nil || len(left) > 0 {
		t.Error("written outside", left, err)
	}
	if got := content(t, filepath.Join(dir, "notes.md")); got != "notes" {
		t.Error(got)
	}
	noTemp(t, dir)
}

func TestPutStops(t *testing.T) {
	f, dir := tree(t)
	ctx, cancel := context.WithCancel(background)
	cancel()
	if err := f.Put(ctx, "notes.charts/a.svg", nil, []byte("new")); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
	f.write = func(_ io.Writer, _ []byte) error { return errors.New("no space") }
	if err := f.Put(background, "notes.charts/a.svg", nil, []byte("new")); err == nil {
		t.Error("written on a full disk")
	}
	noTemp(t, dir)
	if list, err := f.List("notes.charts"); err != nil || len(list) > 0 {
		t.Error(list, err)
	}
}
