package main

import (
	"context"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"inkwing/worksheet"
)

// showStale names the worksheets beside those that this run changed which use
// them and whose results are no longer right.
func (t *tool) showStale(ctx context.Context, all []outcome) {
	known := map[string]bool{} // of this run, or named already
	for _, o := range all {
		known[o.path()] = true
	}
	for _, o := range all {
		if !o.written {
			continue
		}
		for _, g := range o.beside() {
			if !known[g.path()] && g.isStale(ctx, o.name) {
				known[g.path()] = true
				t.out.printf("%s %s\n", t.out.yellow("now stale:"), visible(g.shown))
			}
		}
	}
}

func (g *target) path() string { return filepath.Join(g.base, filepath.FromSlash(g.name)) }

// beside lists the other Markdown files of the target's folder.
func (g *target) beside() []*target {
	found, _ := filepath.Glob(filepath.Join(globQuoted(filepath.Dir(g.path())), "*.md"))
	var out []*target
	for _, at := range found {
		name := path.Join(path.Dir(g.name), filepath.Base(at))
		if name != g.name {
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

// useLine is a cheap sign that a text may use another worksheet.
var useLine = regexp.MustCompile(`(?m)^[ \t>*+.0-9-]*use[ \t]+"`)

// isStale works a file in memory to see whether it uses the one named and shows
// something that is no longer right. A file in trouble is not called stale.
func (g *target) isStale(ctx context.Context, used string) bool {
	text, err := g.read()
	if err != nil || !useLine.Match(text) || !worksheet.HasWorking(text) {
		return false
	}
	r, err := g.work(ctx)
	return err == nil && r != nil && r.Report != nil && r.Changed() && slices.Contains(r.Report.Uses, used)
}
