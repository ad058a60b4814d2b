package main

import (
	"bytes"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// committed is a folder with a repository that holds a.md.
func committed(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	gitIn(t, dir, "init", "-q")
	write(t, dir+"/a.md", "one\n")
	gitIn(t, dir, "add", ".")
	gitIn(t, dir, "commit", "-q", "-m", "one")
	return dir
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o777); err != nil {
		t.Fatal(err)
	}
}

// says is what git answers in a folder.
func says(t *testing.T, dir, stdin string, args ...string) string {
	t.Helper()
	c := exec.Command("git", append([]string{"-C", dir}, args...)...)
	c.Stdin = strings.NewReader(stdin)
	out, err := c.Output()
	if err != nil {
		t.Fatalf("git %v: %v", args, err)
	}
	return strings.TrimSpace(string(out))
}

// readFrom reads a.md at HEAD.
func readFrom(t *testing.T, dir string) (string, error) {
	t.Helper()
	r, err := openRevision(t.Context(), dir, "HEAD")
	if err != nil {
		return "", err
	}
	defer r.close()
	text, err := r.Read("a.md")
	return string(text), err
}

// asOld takes away what git heeds only from 2.45 and its like on.
func asOld(t *testing.T) {
	kept := guards
	t.Cleanup(func() { guards = kept })
	guards = slices.DeleteFunc(slices.Clone(guards), func(v string) bool { return strings.HasPrefix(v, "GIT_NO_LAZY_FETCH=") })
}

// TestHostileRepository has a repository that configures a program in every place
// that git's documents name, and misses the object that is asked for, as a partial
// clone does: what old versions of git then fetch would run it.
func TestHostileRepository(t *testing.T) {
	dir := committed(t)
	mark := filepath.Join(t.TempDir(), "ran")
	program := filepath.Join(t.TempDir(), "program")
	write(t, program, "#!/bin/sh\ntouch "+mark+"\n")
	id := says(t, dir, "", "rev-parse", "HEAD:a.md")
	if err := os.Remove(filepath.Join(dir, ".git/objects", id[:2], id[2:])); err != nil {
		t.Fatal(err)
	}
	for _, hook := range []string{"post-checkout", "reference-transaction", "fsmonitor-watchman", "pre-auto-gc", "post-index-change"} {
		write(t, filepath.Join(dir, ".git/hooks", hook), "#!/bin/sh\ntouch "+mark+"\n")
	}
	write(t, dir+"/.git/config", strings.ReplaceAll(`[core]
	repositoryformatversion = 1
	fsmonitor = @
	pager = @
	editor = @
	sshCommand = @
	gitProxy = @
	askPass = @
	alternateRefsCommand = @
[extensions]
	partialClone = origin
[remote "origin"]
	url = ext::@
	promisor = true
	uploadpack = @
[protocol]
	allow = always
[protocol "ext"]
	allow = always
[credential]
	helper = @
[diff]
	external = @
[diff "x"]
	textconv = @
	command = @
[filter "x"]
	smudge = @
	clean = @
	process = @
[alias]
	cat-file = !@
	rev-parse = !@
`, "@", program))
	write(t, dir+"/.git/info/attributes", "* diff=x filter=x\n")
	asOld(t)
	if text, err := readFrom(t, dir); err == nil {
		t.Errorf("read %q of an object that is not there", text)
	}
	if _, err := os.Stat(mark); err == nil {
		t.Fatal("a program of the repository ran")
	}
	// The same without the guards, so that this test can fail.
	c := exec.Command("git", "-C", dir, "-c", "protocol.allow=never", "cat-file", "blob", id)
	c.Env = append(os.Environ(), "GIT_NO_LAZY_FETCH=0")
	_ = c.Run() // which fails, once the program ran
	if _, err := os.Stat(mark); err != nil {
		t.Error("the repository is not hostile: no program ran without the guards")
	}
}

// TestRepositoryElsewhere follows .git to another repository only if that one
// keeps this folder, as work trees and submodules are kept.
func TestRepositoryElsewhere(t *testing.T) {
	other, parent := committed(t), committed(t)
	asFile, asLink, common, tree := t.TempDir(), t.TempDir(), t.TempDir(), filepath.Join(t.TempDir(), "tree")
	write(t, asFile+"/.git", "gitdir: "+other+"/.git\n")
	if err := os.Symlink(other+"/.git", asLink+"/.git"); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(common+"/.git", 0o777); err != nil {
		t.Fatal(err)
	}
	write(t, common+"/.git/HEAD", "ref: refs/heads/"+says(t, other, "", "branch", "--show-current")+"\n")
	write(t, common+"/.git/commondir", other+"/.git\n")
	gitIn(t, other, "worktree", "add", "-q", "--detach", tree)
	gitIn(t, parent, "-c", "protocol.file.allow=always", "submodule", "--quiet", "add", other, "part")
	for dir, ok := range map[string]bool{other: true, tree: true, parent + "/part": true, asFile: false, asLink: false, common: false} {
		text, err := readFrom(t, dir)
		if ok && (err != nil || text != "one\n") || !ok && (err == nil || !strings.Contains(err.Error(), "knows nothing of it")) {
			t.Errorf("%s: %q, %v", dir, text, err)
		}
	}
}

// TestBareLookalike does not take a folder that only looks like a repository for
// one.
func TestBareLookalike(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("GIT_CEILING_DIRECTORIES", filepath.Dir(dir))
	gitIn(t, dir, "clone", "-q", "--bare", committed(t), "bare")
	if text, err := readFrom(t, dir+"/bare"); err == nil {
		t.Errorf("read %q", text)
	}
}

// TestLargeObjects refuses what is larger than a worksheet before it is read: a
// file, a folder with too many names, and a small file that is stored as what it
// has in common with a large one.
func TestLargeObjects(t *testing.T) {
	large := strings.Repeat("0123456789abcdef", 17<<16)
	blob := func(dir, text string) string { return says(t, dir, text, "hash-object", "-w", "--stdin") }
	commit := func(dir, tree string) {
		gitIn(t, dir, "update-ref", "HEAD", says(t, dir, "", "-c", "user.name=wren", "-c", "user.email=wren@example.org", "commit-tree", "-m", "x", tree))
	}
	for name, into := range map[string]func(dir string){
		"file": func(dir string) {
			commit(dir, says(t, dir, "100644 blob "+blob(dir, large)+"\ta.md\n", "mktree"))
		},
		"folder": func(dir string) {
			var tree bytes.Buffer
			for i := range 3000 {
				tree.WriteString("100644 " + strings.Repeat("b", 6000) + string(rune('a'+i%26)) + strings.Repeat("c", i) + "\x00" + strings.Repeat("\x01", 20))
			}
			commit(dir, says(t, dir, tree.String(), "hash-object", "-w", "-t", "tree", "--literally", "--stdin"))
		},
		"difference": func(dir string) {
			commit(dir, says(t, dir, "100644 blob "+blob(dir, large)+"\tb.md\n100644 blob "+blob(dir, large[:12<<20])+"\ta.md\n", "mktree"))
			gitIn(t, dir, "-c", "core.bigFileThreshold=1g", "repack", "-q", "-a", "-d", "-f")
			if says(t, dir, says(t, dir, "", "rev-parse", "HEAD:a.md"), "cat-file", "--batch-check=%(deltabase)") == strings.Repeat("0", 40) {
				t.Fatal("the small file is stored as a whole")
			}
		},
	} {
		dir := committed(t)
		into(dir)
		if _, err := readFrom(t, dir); err == nil || err.Error() != "is larger than 16 MiB in HEAD" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestEnvironmentOfHooks reads the folder's own repository, whatever repository a
// hook has git look at.
func TestEnvironmentOfHooks(t *testing.T) {
	dir, other := committed(t), t.TempDir()
	gitIn(t, other, "init", "-q")
	for _, v := range []string{"GIT_DIR", "GIT_COMMON_DIR", "GIT_OBJECT_DIRECTORY"} {
		t.Setenv(v, other+"/.git"+map[string]string{"GIT_OBJECT_DIRECTORY": "/objects"}[v])
	}
	if text, err := readFrom(t, dir); text != "one\n" {
		t.Errorf("%q, %v", text, err)
	}
	if err := filepath.WalkDir(other+"/.git/objects", func(path string, d fs.DirEntry, err error) error {
		if err == nil && d.Type().IsRegular() {
			t.Errorf("%s was written", path)
		}
		return err
	}); err != nil {
		t.Fatal(err)
	}
}
