package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// gitIn runs git in a folder of the test.
func gitIn(t *testing.T, dir string, args ...string) {
	t.Helper()
	c := exec.Command("git", append([]string{"-C", dir, "-c", "user.email=wren@example.org", "-c", "user.name=wren"}, args...)...)
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("git %v: %s", args, out)
	}
}

func TestNoGit(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	if _, err := openRevision(t.Context(), t.TempDir(), "HEAD"); err == nil || err.Error() != "git is not installed" {
		t.Error(err)
	}
}

func TestNoRepository(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("GIT_CEILING_DIRECTORIES", dir)
	if _, err := openRevision(t.Context(), dir, "HEAD"); err == nil || !strings.HasSuffix(err.Error(), "is in no git repository") {
		t.Error(err)
	}
}

// TestRevision reads what git holds, by way of links and from below the top,
// and neither what stands outside nor a folder.
func TestRevision(t *testing.T) {
	dir := t.TempDir()
	ok := func(err error) {
		if err != nil {
			t.Fatal(err)
		}
	}
	gitIn(t, dir, "init", "-q")
	ok(os.Mkdir(dir+"/sub", 0o777))
	ok(os.WriteFile(dir+"/sub/a.md", []byte("one\n"), 0o666))
	ok(os.WriteFile(dir+"/odd \"näme\".md", []byte("odd"), 0o666))
	ok(os.Symlink("a.md", dir+"/sub/link.md"))
	ok(os.Symlink("../../b.md", dir+"/sub/out.md"))
	gitIn(t, dir, "add", ".")
	gitIn(t, dir, "commit", "-q", "-m", "one")
	ok(os.WriteFile(dir+"/sub/a.md", []byte("two\n"), 0o666))
	r, err := openRevision(t.Context(), dir+"/sub", "HEAD")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, text, problem string }{
		{"a.md", "one\n", ""}, {"link.md", "one\n", ""}, {"./a.md", "one\n", ""},
		{"../odd \"näme\".md", "odd", ""}, {"out.md", "", "is not in HEAD"}, {"none.md", "", "is not in HEAD"}, {"../sub", "", "is a folder in HEAD"},
		{"../../x.md", "", "cannot be read from git"}, {"a\nb", "", "cannot be read from git"},
	} {
		text, err := r.Read(c.name)
		if string(text) != c.text || (err == nil) != (c.problem == "") || err != nil && err.Error() != c.problem {
			t.Errorf("%q: %q, %v", c.name, text, err)
		}
	}
}
