package main

import (
	"context"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"inkwing/worksheet"
)

// showStale names the worksheets beside those of this run which use them and
// whose results are no longer right. It asks that of every file named: what a
// builder changed in a parts list shows in no region of its own.
func (t *tool) showStale(ctx context.Context, all []outcome) {
	k := openKnown(os.Getenv)
	run := map[string]bool{} // the paths of this run
	for _, o := range all {
		run[o.path()] = true
		k.learn(o.name, o.basis)
	}
	looked := map[string]bool{} // folders
	for _, o := range all {
		dir := filepath.Dir(o.path())
		if o.err != nil || o.isStdin() || looked[dir] {
			continue
		}
		looked[dir] = true
		for _, g := range o.beside(run) {
			if g.isStale(ctx, run, k) {
				t.out.printf("%s %s\n", t.out.yellow("now stale:"), visible(g.shown))
			}
		}
	}
	k.save(ctx)
}

func (g *target) path() string { return g.pathOf(g.name) }

func (g *target) pathOf(name string) string { return filepath.Join(g.base, filepath.FromSlash(name)) }

// beside lists the Markdown files of the target's folder that are not of this
// run.
func (g *target) beside(run map[string]bool) []*target {
	found, _ := filepath.Glob(filepath.Join(globQuoted(filepath.Dir(g.path())), "*.md"))
	var out []*target
	for _, at := range found {
		if !run[at] {
			name := path.Join(path.Dir(g.name), filepath.Base(at))
			out = append(out, &target{shown: fromHere(at), folder: g.folder, base: g.base, name: name, walked: true})
		}
	}
	return out
}

func globQuoted(dir string) string {
	if filepath.Separator == '\\' {
		return dir // no quoting there, nor the need: * and ? are in no path
	}
	return strings.NewReplacer(`\`, `\\`, "*", `\*`, "?", `\?`, "[", `\[`).Replace(dir)
}

// isStale reports whether a file uses one of this run and shows something that is no
// longer right. It works the file in memory, unless what is known says that it is right.
// A file in trouble is not called stale.
func (g *target) isStale(ctx context.Context, run map[string]bool, k *known) bool {
	ofRun := func(name string) bool { return run[g.pathOf(name)] }
	if !worksheet.MayUse(g.folder, g.name, ofRun) || g.isKnownFresh(ctx, k) {
		return false
	}
	r, err := g.work(ctx, worksheet.Based)
	if err != nil || r == nil || r.Report == nil {
		return false
	}
	if !r.Changed() {
		k.learn(g.name, r.Basis)
	}
	return r.Changed() && slices.ContainsFunc(r.Report.Uses, ofRun)
}

// isKnownFresh reports whether the file is known to be right as it stands now.
func (g *target) isKnownFresh(ctx context.Context, k *known) bool {
	if k.folder == nil {
		return false
	}
	ctx, done := boundedWork(ctx)
	defer done()
	text, err := g.read()
	return err == nil && k.isFresh(worksheet.BasisOf(ctx, g.folder, g.name, text)) && ctx.Err() == nil
}
