package disk

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

var background = context.Background()

func content(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// noTemp fails if a temporary file was left anywhere under dir.
func noTemp(t *testing.T, dir string) {
	t.Helper()
	filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if strings.HasPrefix(d.Name(), tempPrefix) {
			t.Errorf("%s is left behind", path)
		}
		return err
	})
}

func TestReplaceKeepsMode(t *testing.T) {
	for _, mode := range []fs.FileMode{0o600, 0o640, 0o644, 0o666, 0o755} {
		f, dir := tree(t)
		path := filepath.Join(dir, "notes.md")
		if err := os.Chmod(path, mode); err != nil {
			t.Fatal(err)
		}
		if err := f.Replace(background, "notes.md", []byte("notes"), []byte("new")); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(path)
		if err != nil || info.Mode() != mode || content(t, path) != "new" {
			t.Errorf("mode %v became %v, %v", mode, info.Mode(), err)
		}
		noTemp(t, dir)
	}
}

func TestReplaceKeepsLinks(t *testing.T) {
	f, dir := tree(t)
	link(t, "sub/parts.md", filepath.Join(dir, "one.md"))
	link(t, "one.md", filepath.Join(dir, "two.md"))
	link(t, "sub", filepath.Join(dir, "way"))
	old := "parts"
	for _, name := range []string{"one.md", "two.md", "way/parts.md"} {
		if err := f.Replace(background, name, []byte(old), []byte(name)); err != nil {
			t.Fatal(err)
		}
		if got := content(t, filepath.Join(dir, "sub/parts.md")); got != name {
			t.Errorf("%s: its target holds %q", name, got)
		}
		old = name
	}
	for _, name := range []string{"one.md", "two.md", "way"} {
		if info, err := os.Lstat(filepath.Join(dir, name)); err != nil || info.Mode()&fs.ModeSymlink == 0 {
			t.Errorf("%s is no link any more: %v", name, err)
		}
	}
	noTemp(t, dir)
}

// TestReplaceRefuses holds that after each failing Replace the old file is
// whole and nothing lies beside it.
func TestReplaceRefuses(t *testing.T) {
	done, cancel := context.WithCancel(background)
	cancel()
	full := func(io.Writer, []byte) error {
		return &fs.PathError{Op: "write", Err: errors.New("no space left on device")}
	}
	half := func(w io.Writer, text []byte) error {
		w.Write(text[:len(text)/2])
		return io.ErrShortWrite
	}
	tests := map[string]struct {
		name  string
		old   string
		ctx   context.Context
		write func(io.Writer, []byte) error
		want  string
	}{
		"changed":   {"notes.md", "other", background, writeAll, "changed"},
		"full disk": {"notes.md", "notes", background, full, "no space left"},
		"half":      {"notes.md", "notes", background, half, "short write"},
		"stopped":   {"notes.md", "notes", done, writeAll, "canceled"},
		"outside":   {"../secret.md", "secret", background, writeAll, "outside"},
		"link out":  {"out.md", "secret", background, writeAll, "outside"},
		"circle":    {"self.md", "", background, writeAll, "circle"},
		"folder":    {"sub", "", background, writeAll, "folder"},
		"none":      {"none.md", "", background, writeAll, "does not exist"},
		"read-only": {"locked.md", "locked", background, writeAll, "read-only"},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			f, dir := tree(t)
			link(t, "../secret.md", filepath.Join(dir, "out.md"))
			link(t, "self.md", filepath.Join(dir, "self.md"))
			put(t, filepath.Join(dir, "locked.md"), "locked")
			os.Chmod(filepath.Join(dir, "locked.md"), 0o444)
			f.write = test.write
			err := f.Replace(test.ctx, test.name, []byte(test.old), []byte("new text"))
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Fatalf("%v; want an error with %q", err, test.want)
			}
			for path, want := range map[string]string{"notes.md": "notes", "../secret.md": "secret", "sub/parts.md": "parts", "locked.md": "locked"} {
				if got := content(t, filepath.Join(dir, path)); got != want {
					t.Errorf("%s holds %q", path, got)
				}
			}
			noTemp(t, dir)
		})
	}
}

// TestReadOnlyFolder uses the one folder in which even the superuser can
// create nothing.
func TestReadOnlyFolder(t *testing.T) {
	const dir = "/proc/self"
	if _, err := os.Stat(dir); err != nil {
		t.Logf("no %s here", dir)
		return
	}
	f, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	before := content(t, "/proc/self/comm")
	err = f.Replace(background, "comm", []byte(before), []byte("new"))
	if err == nil || !strings.Contains(err.Error(), "cannot be written: its folder takes no new file") {
		t.Errorf("%v", err)
	}
	if after := content(t, "/proc/self/comm"); after != before {
		t.Errorf("%q became %q", before, after)
	}
}

// TestReplaceSideBySide lets many writers race: each adds a line to what it
// read, tries anew when it lost, and no line may be missing or halved.
func TestReplaceSideBySide(t *testing.T) {
	f, dir := tree(t)
	put(t, filepath.Join(dir, "log.md"), "")
	var gate sync.Mutex // our promise excludes the moment between look and renaming
	var all sync.WaitGroup
	for i := range 20 {
		all.Go(func() {
			for {
				old, err := f.Read("log.md")
				if err != nil {
					t.Error(err)
					return
				}
				gate.Lock()
				err = f.Replace(background, "log.md", old, fmt.Appendf(old[:len(old):len(old)], "%02d\n", i))
				gate.Unlock()
				if !errors.Is(err, ErrChanged) {
					if err != nil {
						t.Error(err)
					}
					return
				}
			}
		})
	}
	all.Wait()
	if got := content(t, filepath.Join(dir, "log.md")); len(got) != 60 {
		t.Errorf("%d bytes of 60: %q", len(got), got)
	}
	noTemp(t, dir)
}
