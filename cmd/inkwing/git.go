package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os/exec"
	"path"
	"strings"
)

// A revision is the files of a folder as they were in git. It reads what git
// holds and nothing else: no hook, filter, textconv or external diff runs, nothing
// is fetched, and nothing is written.
type revision struct {
	ctx     context.Context
	dir     string // a folder of the working tree
	name    string // as the builder says it: HEAD~1
	commit  string
	tree    string // of the commit
	prefix  string // of dir from the top of the working tree
	objects *objects
}

// openRevision finds a revision of the repository that a folder lies in.
func openRevision(ctx context.Context, dir, name string) (*revision, error) {
	if _, err := exec.LookPath("git"); err != nil {
		return nil, trouble{errors.New("git is not installed"), "--against reads the older worksheet from git"}
	}
	r := &revision{ctx: ctx, dir: dir, name: name}
	prefix, err := r.git("rev-parse", "--show-prefix")
	if err != nil {
		return nil, noRepository(dir, err)
	}
	if err := r.ownRepository(); err != nil {
		return nil, err
	}
	r.prefix = strings.TrimSuffix(string(prefix), "\n")
	commit, err := r.git("rev-parse", "--verify", "--quiet", "--end-of-options", name+"^{commit}")
	if err != nil {
		return nil, trouble{fmt.Errorf("%s is no revision of this repository", name), "git log lists them; HEAD is the last commit"}
	}
	r.commit = strings.TrimSpace(string(commit))
	if r.objects, err = r.openObjects(); err != nil {
		return nil, errUnread
	}
	if r.tree, err = r.objects.treeOf(r.commit); err != nil {
		r.close()
		return nil, trouble{fmt.Errorf("%s %w", name, err), "see whether git fsck finds anything"}
	}
	return r, nil
}

// close ends what was started to read it.
func (r *revision) close() { r.objects.close() }

// noRepository says why git cannot be asked in a folder.
func noRepository(dir string, err error) error {
	var exit *exec.ExitError
	if errors.As(err, &exit) && !bytes.Contains(exit.Stderr, []byte("not a git repository")) {
		says, _, _ := strings.Cut(strings.TrimPrefix(string(exit.Stderr), "fatal: "), "\n")
		return trouble{fmt.Errorf("git cannot be asked in %s: %s", fromHere(dir), says), "see whether git status works there"}
	}
	return trouble{fmt.Errorf("%s is in no git repository", fromHere(dir)), "--against compares with a revision in git"}
}

// Read returns what a file held at that revision. The name is a path from the
// folder, with slashes.
func (r *revision) Read(name string) ([]byte, error) {
	at := path.Join(r.prefix, name)
	if strings.ContainsAny(at, "\n\x00") || strings.HasPrefix(at, "../") {
		return nil, errUnread
	}
	text, err := r.objects.file(r.tree, at)
	switch {
	case r.ctx.Err() != nil:
		return nil, r.ctx.Err()
	case errors.Is(err, errNoFile):
		return nil, r.gone(at)
	case err != nil:
		return nil, fmt.Errorf("%w in %s", err, r.name)
	}
	return text, nil
}

// List names nothing: what the charts of another revision were is not asked.
func (r *revision) List(string) ([]string, error) { return nil, nil }

// gone says that there was no such file, and what it was called then.
func (r *revision) gone(at string) error {
	if old := r.oldName(at); old != "" {
		return trouble{fmt.Errorf("is not in %s: there it is called %s", r.name, old), "compare with a revision in which it has its name"}
	}
	return trouble{fmt.Errorf("is not in %s", r.name), "compare with a revision that holds it"}
}

// oldName is what a file was called that has been renamed since; empty for none,
// or where that takes long to find.
func (r *revision) oldName(at string) string {
	ctx, cancel := context.WithTimeout(r.ctx, hintTime)
	defer cancel()
	quick := *r
	quick.ctx = ctx
	out, err := quick.git("diff-tree", "-r", "-z", "-M", "-l200", "--name-status", "--no-ext-diff", "--no-textconv", r.commit, "HEAD")
	if err != nil {
		return ""
	}
	fields := strings.Split(string(out), "\x00")
	for i := 0; i+2 < len(fields); i += 2 {
		if !strings.HasPrefix(fields[i], "R") {
			continue
		}
		if fields[i+2] == at {
			return fields[i+1]
		}
		i++
	}
	return ""
}
