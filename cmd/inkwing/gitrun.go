package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"slices"
	"strings"
	"time"
)

// What git may take. It is told, and on Linux held to it by the system.
const (
	gitMemory = 512 << 20       // in all
	gitPiece  = "64m"           // at a time
	gitAnswer = 4 << 20         // bytes of an answer that is no file
	hintTime  = 2 * time.Second // for what is only a hint
	gitLinger = time.Second     // until it is given up once it was told to end
)

var errAnswer = errors.New("git says more than it should")

// elsewhere are variables that would point git at another repository, as they do
// inside a hook (git rev-parse --local-env-vars lists them). Those by which the
// builder configures git stay.
var elsewhere = []string{"GIT_DIR=", "GIT_WORK_TREE=", "GIT_IMPLICIT_WORK_TREE=", "GIT_INDEX_FILE=", "GIT_PREFIX=",
	"GIT_OBJECT_DIRECTORY=", "GIT_ALTERNATE_OBJECT_DIRECTORIES=", "GIT_COMMON_DIR=", "GIT_NAMESPACE=", "GIT_CONFIG=",
	"GIT_SHALLOW_FILE=", "GIT_GRAFT_FILE=", "GIT_REPLACE_REF_BASE=", "GIT_NO_REPLACE_OBJECTS="}

// guards are variables that keep git from running what a stranger's repository
// configures. The one way that its own documents leave open to a command that only
// reads is the fetching of objects that a partial clone left behind: by a program,
// for such an address as ext::sh -c …. GIT_ALLOW_PROTOCOL overrides what the
// repository allows (git(1)), in every version; GIT_NO_LAZY_FETCH ends the matter
// before, from 2.45 and its like on. GIT_ALLOC_LIMIT is what git's own tests set.
var guards = []string{"GIT_ALLOW_PROTOCOL=none", "GIT_NO_LAZY_FETCH=1", "GIT_PROTOCOL_FROM_USER=0", "GIT_TERMINAL_PROMPT=0",
	"GIT_OPTIONAL_LOCKS=0", "GIT_ALLOC_LIMIT=" + gitPiece, "LC_ALL=C"}

// settings outweigh those of the repository. That a folder which looks like a bare
// repository is taken for one is what safe.bareRepository prevents (git-config(1)).
var settings = []string{"core.fsmonitor=false", "core.hooksPath=/dev/null", "core.alternateRefsCommand=false", "core.sshCommand=false",
	"core.gitProxy=", "core.askPass=", "credential.helper=", "protocol.allow=never", "safe.bareRepository=explicit",
	"core.deltaBaseCacheLimit=16m", "core.bigFileThreshold=16m"}

func environment() []string {
	kept := slices.DeleteFunc(os.Environ(), func(v string) bool {
		return slices.ContainsFunc(elsewhere, func(name string) bool { return strings.HasPrefix(v, name) })
	})
	return append(kept, guards...)
}

// command is git, about to do what only reads.
func (r *revision) command(args ...string) *exec.Cmd {
	safe := []string{"--no-pager", "--literal-pathspecs"}
	for _, s := range settings {
		safe = append(safe, "-c", s)
	}
	c := exec.CommandContext(r.ctx, "git", append(safe, args...)...)
	c.Dir, c.Env, c.WaitDelay = r.dir, environment(), gitLinger
	return c
}

// git gives the answer to a command that only reads.
func (r *revision) git(args ...string) ([]byte, error) {
	c := r.command(args...)
	var out, says bounded
	c.Stdout, c.Stderr = &out, &says
	if err := start(c); err != nil {
		return nil, err
	}
	err := c.Wait()
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		exit.Stderr = says.Bytes()
	}
	return out.Bytes(), err
}

// start starts git, within bounds.
func start(c *exec.Cmd) error {
	if err := c.Start(); err != nil {
		return err
	}
	hold(c.Process.Pid)
	return nil
}

// A bounded takes an answer as long as it is of a decent length.
type bounded struct{ bytes.Buffer }

func (b *bounded) Write(text []byte) (int, error) {
	if b.Len()+len(text) > gitAnswer {
		return 0, errAnswer
	}
	return b.Buffer.Write(text)
}
