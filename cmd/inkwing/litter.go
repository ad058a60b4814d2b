package main

import (
	"context"
	"path"

	"inkwing/worksheet"
)

// clearLitter takes away the temporary files that killed runs left in the folders
// of this one. What such a file holds beyond its worksheet stays, and is told: an
// editor may have saved it while that run was killed.
func (t *tool) clearLitter(ctx context.Context, all []outcome) {
	looked := map[string]bool{}
	for _, o := range all {
		if o.err != nil || o.isStdin() || ctx.Err() != nil {
			continue
		}
		if charts := worksheet.ChartFolder(o.name); !looked[o.pathOf(charts)] {
			looked[o.pathOf(charts)] = true
			o.clear(ctx, charts, worksheet.SpareChart)
		}
		dir := path.Dir(o.name)
		if looked[o.pathOf(dir)] {
			continue
		}
		looked[o.pathOf(dir)] = true
		for _, name := range o.clear(ctx, dir, func(text []byte) bool { return isSpare(text, all) }) {
			t.err.printf("%s %s was left behind by a run that was killed, and holds another text than the worksheets here: look into it, then delete it\n",
				t.err.dim("inkwing: note:"), visible(o.display(name)))
		}
	}
}

// clear removes what was left behind in a folder and can go, and gives the rest.
func (g *target) clear(ctx context.Context, folder string, spare func(text []byte) bool) (rest []string) {
	for _, name := range g.folder.Leftovers(folder) {
		text, err := g.folder.Read(name)
		if err != nil || !spare(text) || g.folder.Remove(ctx, name, text) != nil {
			rest = append(rest, name)
		}
	}
	return rest
}

// isSpare reports whether a text holds nothing beyond one of the worksheets, as they
// stand now.
func isSpare(text []byte, all []outcome) bool {
	for _, o := range all {
		if o.err != nil || o.isStdin() {
			continue
		}
		if now, err := o.read(); err == nil && worksheet.Spare(text, now) {
			return true
		}
	}
	return false
}
