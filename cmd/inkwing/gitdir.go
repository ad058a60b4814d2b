package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"inkwing/cmd/inkwing/disk"
)

// ownRepository refuses a repository that lies elsewhere and does not know of this
// folder: a file or a link .git that came with a stranger's folder may lead to any
// other repository on the machine. Work trees and submodules, which git itself
// keeps elsewhere, are led back from there.
func (r *revision) ownRepository() error {
	out, err := r.git("rev-parse", "--show-toplevel", "--absolute-git-dir", "--git-common-dir")
	lines := strings.Split(strings.TrimSuffix(string(out), "\n"), "\n")
	if err != nil || len(lines) != 3 {
		return noRepository(r.dir, err)
	}
	top, dir, common := lines[0], lines[1], lines[2]
	if !filepath.IsAbs(common) {
		common = filepath.Join(r.dir, common)
	}
	if within(top, dir) && within(top, common) || leadsBack(top, dir) || r.worksAt(top, dir) {
		return nil
	}
	return trouble{fmt.Errorf("the repository of %s lies in %s, which knows nothing of it", fromHere(top), fromHere(dir)),
		"compare in a clone of its own, or in a work tree made by git worktree add"}
}

// within reports whether a path lies in a folder, links followed.
func within(folder, path string) bool {
	folder, err := filepath.EvalSymlinks(folder)
	real, err2 := filepath.EvalSymlinks(path)
	if errors.Join(err, err2) != nil {
		return false
	}
	rel, err := filepath.Rel(folder, real)
	return err == nil && filepath.IsLocal(rel)
}

// leadsBack reports whether a repository keeps this work tree (gitrepository-layout:
// worktrees/<id>/gitdir).
func leadsBack(top, dir string) bool {
	folder, err := disk.Open(dir)
	if err != nil {
		return false
	}
	defer folder.Close()
	text, err := folder.Read("gitdir")
	return err == nil && samePlace(strings.TrimSpace(string(text)), filepath.Join(top, ".git"), dir)
}

// worksAt reports whether a repository is that of this submodule.
func (r *revision) worksAt(top, dir string) bool {
	out, err := r.git("config", "--no-includes", "--file", filepath.Join(dir, "config"), "core.worktree")
	return err == nil && samePlace(strings.TrimSuffix(string(out), "\n"), top, dir)
}

// samePlace reports whether two paths lead to the same, the first of them perhaps
// seen from a folder.
func samePlace(a, b, from string) bool {
	if !filepath.IsAbs(a) {
		a = filepath.Join(from, a)
	}
	first, err := os.Stat(a)
	second, err2 := os.Stat(b)
	return errors.Join(err, err2) == nil && os.SameFile(first, second)
}
