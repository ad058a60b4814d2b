//go:build linux

package disk

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// TestReplaceKeepsAttributes replaces a file with an owner, a mode, an access list
// and attributes of its own.
func TestReplaceKeepsAttributes(t *testing.T) {
	f, dir := tree(t)
	path := filepath.Join(dir, "notes.md")
	acl := "\x02\x00\x00\x00\x01\x00\x06\x00\xff\xff\xff\xff\x02\x00\x04\x00\x2a\x00\x00\x00\x04\x00\x04\x00\xff\xff\xff\xff\x10\x00\x06\x00\xff\xff\xff\xff\x20\x00\x00\x00\xff\xff\xff\xff"
	want := map[string]string{"user.colour": "blue"}
	if unix.Setxattr(path, "user.colour", []byte("blue"), 0) != nil {
		delete(want, "user.colour") // this file system has none
	}
	if unix.Setxattr(path, "system.posix_acl_access", []byte(acl), 0) == nil {
		want["system.posix_acl_access"] = acl
	}
	if os.Getuid() == 0 {
		if err := os.Chown(path, 1234, 2345); err != nil {
			t.Fatal(err)
		}
	}
	before, _ := os.Stat(path)
	if err := f.Replace(background, "notes.md", []byte("notes"), []byte("new")); err != nil {
		t.Fatal(err)
	}
	after, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	was, is := before.Sys().(*syscall.Stat_t), after.Sys().(*syscall.Stat_t)
	if was.Uid != is.Uid || was.Gid != is.Gid || before.Mode() != after.Mode() {
		t.Errorf("%d:%d %v became %d:%d %v", was.Uid, was.Gid, before.Mode(), is.Uid, is.Gid, after.Mode())
	}
	t.Logf("attributes tried: %d", len(want))
	for name, value := range want {
		got := make([]byte, 100)
		if n, err := unix.Getxattr(path, name, got); err != nil || string(got[:n]) != value {
			t.Errorf("%s became %q, %v", name, got[:max(n, 0)], err)
		}
	}
}

// TestHasOtherNames knows hard links.
func TestHasOtherNames(t *testing.T) {
	f, dir := tree(t)
	if f.HasOtherNames("notes.md") || f.HasOtherNames("none.md") {
		t.Error("another name is reported where there is none")
	}
	if err := os.Link(filepath.Join(dir, "notes.md"), filepath.Join(dir, "other.md")); err != nil {
		t.Fatal(err)
	}
	if !f.HasOtherNames("notes.md") {
		t.Error("the other name is not seen")
	}
}

// TestUmask makes a chart in a shell with a umask of its own, since it is one of
// the whole process.
func TestUmask(t *testing.T) {
	if dir := os.Getenv("UMASK_TEST"); dir != "" {
		f, err := Open(dir)
		if err != nil {
			t.Fatal(err)
		}
		if err := f.Put(background, "notes.charts/a.svg", nil, []byte("a")); err != nil {
			t.Fatal(err)
		}
		return
	}
	for mask, want := range map[string]os.FileMode{"077": 0o600, "027": 0o640, "002": 0o664} {
		dir := t.TempDir()
		c := exec.Command("sh", "-c", "umask "+mask+` && exec "$0" -test.run '^TestUmask$'`, os.Args[0])
		c.Env = append(os.Environ(), "UMASK_TEST="+dir)
		if out, err := c.CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		info, err := os.Stat(filepath.Join(dir, "notes.charts/a.svg"))
		if err != nil || info.Mode() != want {
			t.Errorf("umask %s: %v, %v", mask, info.Mode(), err)
		}
	}
}

// TestUpdate touches nothing beside a file that cannot be written, and nothing at
// all where one of them is not as it was read.
func TestUpdate(t *testing.T) {
	f, dir := tree(t)
	chart := File{"notes.charts/a.svg", nil, []byte("a")}
	absent := func() {
		t.Helper()
		if _, err := os.Lstat(filepath.Join(dir, "notes.charts")); err == nil {
			t.Error("a chart was written")
		}
		if got := content(t, filepath.Join(dir, "notes.md")); got != "notes" {
			t.Errorf("the file holds %q", got)
		}
		noTemp(t, dir)
	}
	page := File{"notes.md", []byte("notes"), []byte("new")}
	if err := os.Chmod(filepath.Join(dir, "notes.md"), 0o444); err != nil {
		t.Fatal(err)
	}
	if err := f.Update(background, page, []File{chart}); err == nil || err.Error() != "is read-only" {
		t.Error(err)
	}
	absent()
	if err := os.Chmod(filepath.Join(dir, "notes.md"), 0o644); err != nil {
		t.Fatal(err)
	}
	for name, beside := range map[string][]File{
		"page":  {chart, {"notes.charts/b.svg", []byte("b"), []byte("b")}},
		"chart": {chart, {"sub/parts.md", []byte("other"), []byte("other")}},
	} {
		old := page
		if name == "page" {
			old.Old = []byte("older")
		}
		if err := f.Update(background, old, beside); !errors.Is(err, ErrChanged) {
			t.Errorf("%s: %v", name, err)
		}
		absent()
	}
	if err := f.Update(background, page, []File{chart, {"sub/parts.md", []byte("parts"), []byte("parts")}}); err != nil {
		t.Fatal(err)
	}
	if err := f.Update(background, File{"notes.md", []byte("new"), []byte("new")}, []File{{"notes.charts/a.svg", []byte("a"), nil}}); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Lstat(filepath.Join(dir, "notes.charts")); err == nil {
		t.Error("the empty folder stays")
	}
}

// TestLeftovers names what a killed run left, and nothing else that looks like it.
func TestLeftovers(t *testing.T) {
	f, dir := tree(t)
	name := tempPrefix + strings.Repeat("A2", 13)
	for _, n := range []string{name, tempPrefix + strings.Repeat("B", 26), tempPrefix + "A", name + "x", "inkwing-" + strings.Repeat("A", 26)} {
		put(t, filepath.Join(dir, n), "half")
		old := time.Now().Add(-2 * oldTemp)
		if n[len(n)-1] == 'B' {
			old = time.Now()
		}
		if err := os.Chtimes(filepath.Join(dir, n), old, old); err != nil {
			t.Fatal(err)
		}
	}
	link(t, "notes.md", filepath.Join(dir, tempPrefix+strings.Repeat("C", 26)))
	if got := f.Leftovers("."); len(got) != 1 || got[0] != name {
		t.Errorf("got %q", got)
	}
}
