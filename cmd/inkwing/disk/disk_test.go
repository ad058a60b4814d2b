package disk

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// tree makes a folder with a secret beside it, and opens it.
func tree(t *testing.T) (*Folder, string) {
	t.Helper()
	above := t.TempDir()
	dir := filepath.Join(above, "notes")
	if err := os.MkdirAll(filepath.Join(dir, "sub"), 0o755); err != nil {
		t.Fatal(err)
	}
	put(t, filepath.Join(above, "secret.md"), "secret")
	put(t, filepath.Join(dir, "notes.md"), "notes")
	put(t, filepath.Join(dir, "sub", "parts.md"), "parts")
	f, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f, dir
}

func put(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func link(t *testing.T, to, at string) {
	t.Helper()
	if err := os.Symlink(to, at); err != nil {
		t.Fatal(err)
	}
}

func TestReadInside(t *testing.T) {
	f, dir := tree(t)
	link(t, "sub/parts.md", filepath.Join(dir, "link.md"))
	link(t, "sub", filepath.Join(dir, "way"))
	for name, want := range map[string]string{
		"notes.md":          "notes",
		"sub/parts.md":      "parts",
		"sub/../notes.md":   "notes",
		"./notes.md":        "notes",
		"link.md":           "parts",
		"way/parts.md":      "parts",
		"sub//parts.md":     "parts",
		"way/../notes.md":   "notes",
		"sub/./../notes.md": "notes",
	} {
		got, err := f.Read(name)
		if err != nil || string(got) != want {
			t.Errorf("Read(%q) = %q, %v; want %q", name, got, err, want)
		}
	}
}

func TestReadRefuses(t *testing.T) {
	f, dir := tree(t)
	link(t, "../secret.md", filepath.Join(dir, "out.md"))
	link(t, filepath.Join(dir, "notes.md"), filepath.Join(dir, "absolute.md"))
	link(t, "..", filepath.Join(dir, "up"))
	link(t, "self.md", filepath.Join(dir, "self.md"))
	link(t, "/dev/zero", filepath.Join(dir, "zero.md"))
	pipe(t, filepath.Join(dir, "pipe.md"))
	for name, want := range map[string]string{
		"":                    "empty",
		"none.md":             "does not exist",
		"../secret.md":        "outside",
		"sub/../../secret.md": "outside",
		"/etc/hostname":       "outside",
		"/dev/zero":           "outside",
		"C:/notes.md":         "outside",
		"c:notes.md":          "outside",
		`sub\parts.md`:        "backslash",
		`\\host\share\x.md`:   "backslash",
		"notes\x00.md":        "NUL",
		"out.md":              "outside",
		"absolute.md":         "outside",
		"up/secret.md":        "outside",
		"zero.md":             "outside",
		"self.md":             "symbolic links",
		"sub":                 "folder",
		".":                   "folder",
		"pipe.md":             "no regular file",
		"notes.md/x":          "not a directory",
	} {
		got, err := f.Read(name)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Read(%q) = %q, %v; want an error with %q", name, got, err, want)
		}
		if err != nil && strings.Contains(err.Error(), dir) {
			t.Errorf("Read(%q): %v names a path of the machine", name, err)
		}
	}
}

func TestReadBound(t *testing.T) {
	f, dir := tree(t)
	for size, ok := range map[int64]bool{MaxSize: true, MaxSize + 1: false} {
		path := filepath.Join(dir, "large.md")
		put(t, path, "")
		if err := os.Truncate(path, size); err != nil {
			t.Fatal(err)
		}
		if _, err := f.Read("large.md"); (err == nil) != ok {
			t.Errorf("%d bytes: %v", size, err)
		}
		_, err := Bounded(bytes.NewReader(make([]byte, size)))
		if (err == nil) != ok {
			t.Errorf("Bounded, %d bytes: %v", size, err)
		}
	}
}

func TestOpenRefuses(t *testing.T) {
	_, dir := tree(t)
	for _, path := range []string{filepath.Join(dir, "none"), filepath.Join(dir, "notes.md")} {
		if f, err := Open(path); err == nil {
			f.Close()
			t.Errorf("Open(%q) succeeds", path)
		}
	}
}
