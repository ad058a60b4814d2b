package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"strconv"
	"strings"
	"sync"

	"inkwing/cmd/inkwing/disk"
)

var (
	errUnread = errors.New("cannot be read from git")
	errNoFile = errors.New("is not in git")
	errFolder = errors.New("is a folder")
)

const (
	maxDeltas = 10_000 // stages in which an object may be stored; git packs 50, 4095 at most
	maxLinks  = 40     // symbolic links on the way to one file
)

// Objects reads what git holds, each object only once git has told that neither it
// nor what it is stored as a difference from is larger than a worksheet may be.
// That is why paths are followed here and not by git.
type objects struct {
	sync.Mutex
	about, whole *asked
}

// An asked is a git that answers one object's name after another.
type asked struct {
	c   *exec.Cmd
	in  io.WriteCloser
	out *bufio.Reader
}

func (r *revision) openObjects() (*objects, error) {
	about, err := r.ask("--batch-check=%(objectname) %(objecttype) %(objectsize) %(deltabase)")
	if err != nil {
		return nil, err
	}
	whole, err := r.ask("--batch")
	if err != nil {
		about.close()
		return nil, err
	}
	return &objects{about: about, whole: whole}, nil
}

func (r *revision) ask(how string) (*asked, error) {
	c := r.command("cat-file", how)
	in, err := c.StdinPipe()
	if err != nil {
		return nil, err
	}
	out, err := c.StdoutPipe()
	if err != nil {
		return nil, err
	}
	return &asked{c, in, bufio.NewReader(out)}, start(c)
}

func (o *objects) close() {
	o.about.close()
	o.whole.close()
}

func (a *asked) close() {
	a.in.Close()
	_ = a.c.Wait() // it has nothing more to say
}

// line asks for an object and gives the fields of the first line.
func (a *asked) line(id string) ([]string, error) {
	if _, err := io.WriteString(a.in, id+"\n"); err != nil {
		return nil, errUnread
	}
	line, err := a.out.ReadSlice('\n')
	if err != nil {
		return nil, errUnread
	}
	return strings.Fields(string(line)), nil
}

// fits fails for an object that is larger than a worksheet, or made of one.
func (o *objects) fits(id string) error {
	for range maxDeltas {
		about, err := o.about.line(id)
		if err != nil || len(about) != 4 {
			return errUnread
		}
		if size, err := strconv.ParseUint(about[2], 10, 64); err != nil || size > disk.MaxSize {
			return fmt.Errorf("is larger than %d MiB", disk.MaxSize>>20)
		}
		if id = about[3]; strings.Trim(id, "0") == "" {
			return nil
		}
	}
	return errUnread
}

// read gives an object of a kind: commit, tree or blob.
func (o *objects) read(id, kind string) ([]byte, error) {
	if err := o.fits(id); err != nil {
		return nil, err
	}
	about, err := o.whole.line(id)
	if err != nil || len(about) != 3 || about[1] != kind {
		return nil, errUnread
	}
	size, err := strconv.Atoi(about[2])
	if err != nil || size > disk.MaxSize {
		return nil, errUnread
	}
	text := make([]byte, size+1) // a line end follows
	if _, err := io.ReadFull(o.whole.out, text); err != nil {
		return nil, errUnread
	}
	return text[:size], nil
}

// treeOf is the tree of a commit.
func (o *objects) treeOf(commit string) (string, error) {
	text, err := o.read(commit, "commit")
	if err != nil {
		return "", err
	}
	first, _, _ := bytes.Cut(text, []byte("\n"))
	id, ok := strings.CutPrefix(string(first), "tree ")
	if !ok || len(id) != len(commit) {
		return "", errUnread
	}
	return id, nil
}

// file reads the file at a path of a tree. Links are followed as long as they stay
// in the tree.
func (o *objects) file(tree, at string) ([]byte, error) {
	o.Lock()
	defer o.Unlock()
	above, todo, links := []string{tree}, strings.Split(at, "/"), 0
	for len(todo) > 0 {
		name := todo[0]
		todo = todo[1:]
		switch {
		case name == "" || name == ".":
			continue
		case name == "..":
			if above = above[:len(above)-1]; len(above) == 0 {
				return nil, errNoFile
			}
			continue
		}
		mode, id, err := o.entry(above[len(above)-1], name)
		switch {
		case err != nil:
			return nil, err
		case mode == "40000":
			above = append(above, id)
		case mode == "120000" && links < maxLinks:
			links++
			to, err := o.read(id, "blob")
			if err != nil || bytes.HasPrefix(to, []byte("/")) {
				return nil, errNoFile
			}
			todo = append(strings.Split(string(to), "/"), todo...)
		case strings.HasPrefix(mode, "100") && len(todo) == 0:
			return o.read(id, "blob")
		default:
			return nil, errNoFile
		}
	}
	return nil, errFolder
}

// entry finds a name in a tree, which is a list of "mode name", a NUL, and the
// object's name in binary (gitformat: tree objects).
func (o *objects) entry(tree, name string) (mode, id string, err error) {
	text, err := o.read(tree, "tree")
	if err != nil {
		return "", "", err
	}
	for size := len(tree) / 2; len(text) > 0; {
		head, rest, ok := bytes.Cut(text, []byte{0})
		if !ok || len(rest) < size {
			return "", "", errUnread
		}
		if mode, found, _ := strings.Cut(string(head), " "); found == name {
			return mode, fmt.Sprintf("%x", rest[:size]), nil
		}
		text = rest[size:]
	}
	return "", "", errNoFile
}
