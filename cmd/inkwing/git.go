package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path"
	"slices"
	"strconv"
	"strings"

	"inkwing/cmd/inkwing/disk"
)

// A revision is the files of a folder as they were in git. It reads what git
// holds and nothing else: no hook, filter, textconv or external diff runs, nothing
// is fetched, and nothing is written.
type revision struct {
	ctx    context.Context
	dir    string // a folder of the working tree
	name   string // as the builder says it: HEAD~1
	commit string
	prefix string // of dir from the top of the working tree
}

// openRevision finds a revision of the repository that a folder lies in.
func openRevision(ctx context.Context, dir, name string) (*revision, error) {
	if _, err := exec.LookPath("git"); err != nil {
		return nil, trouble{errors.New("git is not installed"), "--against reads the older worksheet from git"}
	}
	r := &revision{ctx: ctx, dir: dir, name: name}
	prefix, err := r.git(nil, "rev-parse", "--show-prefix")
	if err != nil {
		return nil, noRepository(dir, err)
	}
	r.prefix = strings.TrimSuffix(string(prefix), "\n")
	commit, err := r.git(nil, "rev-parse", "--verify", "--quiet", "--end-of-options", name+"^{commit}")
	if err != nil {
		return nil, trouble{fmt.Errorf("%s is no revision of this repository", name), "git log lists them; HEAD is the last commit"}
	}
	r.commit = strings.TrimSpace(string(commit))
	return r, nil
}

// noRepository says why git cannot be asked in a folder.
func noRepository(dir string, err error) error {
	var exit *exec.ExitError
	if errors.As(err, &exit) && !bytes.Contains(exit.Stderr, []byte("not a git repository")) {
		says, _, _ := strings.Cut(strings.TrimPrefix(string(exit.Stderr), "fatal: "), "\n")
		return trouble{fmt.Errorf("git cannot be asked in %s: %s", fromHere(dir), says), "see whether git status works there"}
	}
	return trouble{fmt.Errorf("%s is in no git repository", fromHere(dir)), "--against compares with a revision in git"}
}

// elsewhere are variables that would point git at another repository, as they do
// inside a hook.
var elsewhere = []string{"GIT_DIR=", "GIT_WORK_TREE=", "GIT_INDEX_FILE=", "GIT_PREFIX=", "GIT_OBJECT_DIRECTORY=", "GIT_COMMON_DIR=", "GIT_NAMESPACE="}

func environment() []string {
	kept := slices.DeleteFunc(os.Environ(), func(v string) bool {
		return slices.ContainsFunc(elsewhere, func(name string) bool { return strings.HasPrefix(v, name) })
	})
	return append(kept, "GIT_OPTIONAL_LOCKS=0", "GIT_NO_LAZY_FETCH=1", "GIT_TERMINAL_PROMPT=0", "LC_ALL=C")
}

// git runs a command that only reads.
func (r *revision) git(stdin []byte, args ...string) ([]byte, error) {
	safe := []string{"--no-pager", "--literal-pathspecs", "-c", "core.fsmonitor=false", "-c", "core.hooksPath=/dev/null", "-c", "protocol.allow=never"}
	c := exec.CommandContext(r.ctx, "git", append(safe, args...)...)
	c.Dir = r.dir
	c.Env = environment()
	c.Stdin = bytes.NewReader(stdin)
	return c.Output()
}

// Read returns what a file held at that revision. The name is a path from the
// folder, with slashes.
func (r *revision) Read(name string) ([]byte, error) {
	at := path.Join(r.prefix, name)
	if strings.ContainsAny(at, "\n\x00") || strings.HasPrefix(at, "../") {
		return nil, errors.New("cannot be read from git")
	}
	out, err := r.git([]byte(r.commit+":"+at+"\n"), "cat-file", "--batch", "--follow-symlinks")
	if err != nil {
		if r.ctx.Err() != nil {
			return nil, r.ctx.Err()
		}
		return nil, errors.New("cannot be read from git")
	}
	return r.blob(out, at)
}

// List names nothing: what the charts of another revision were is not asked.
func (r *revision) List(string) ([]string, error) { return nil, nil }

// blob takes a file out of what git answers: "<id> blob <size>", a line end, and
// the bytes; any other first line says that there is no such file.
func (r *revision) blob(out []byte, at string) ([]byte, error) {
	head, rest, _ := bytes.Cut(out, []byte("\n"))
	fields := strings.Fields(string(head))
	size := -1
	if len(fields) == 3 && fields[1] == "blob" {
		size, _ = strconv.Atoi(fields[2])
	}
	switch {
	case size > disk.MaxSize:
		return nil, fmt.Errorf("is larger than %d MiB in %s", disk.MaxSize>>20, r.name)
	case size >= 0 && size <= len(rest):
		return rest[:size], nil
	case len(fields) == 3 && fields[1] == "tree":
		return nil, fmt.Errorf("is a folder in %s", r.name)
	}
	if old := r.oldName(at); old != "" {
		return nil, trouble{fmt.Errorf("is not in %s: there it is called %s", r.name, old), "compare with a revision in which it has its name"}
	}
	return nil, trouble{fmt.Errorf("is not in %s", r.name), "compare with a revision that holds it"}
}

// oldName is what a file was called that has been renamed since; empty for none.
func (r *revision) oldName(at string) string {
	out, err := r.git(nil, "diff-tree", "-r", "-z", "-M", "--name-status", "--no-ext-diff", "--no-textconv", r.commit, "HEAD")
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
