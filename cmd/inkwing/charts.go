package main

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"inkwing/cmd/inkwing/disk"
	"inkwing/worksheet"
)

// write brings a target and the charts beside it up to date.
func (g *target) write(ctx context.Context, r *worksheet.Result) error {
	var beside []disk.File
	for _, c := range slices.Concat(r.Charts, r.Kept) {
		beside = append(beside, disk.File{Name: c.Path, Old: c.Old, New: c.New})
	}
	err := g.folder.Update(ctx, disk.File{Name: g.name, Old: r.Source, New: r.Output}, beside)
	var of *disk.BesideError
	if errors.As(err, &of) {
		return fmt.Errorf("%s %w", g.display(of.Name), err)
	}
	if err == nil {
		g.removeRest(ctx, r)
	}
	return err
}

// removeRest removes the charts that were left over and are more than go at a time, so
// that the next run finds nothing to do. One that cannot be removed is left to that.
func (g *target) removeRest(ctx context.Context, r *worksheet.Result) {
	for removed := true; removed && len(r.Charts) > 0 && ctx.Err() == nil; {
		removed = false
		for _, c := range r.LeftOver(g.folder) {
			if g.folder.Remove(ctx, c.Path, c.Old) == nil {
				r.Charts = append(r.Charts, worksheet.ChartFile{Path: c.Path})
				removed = true
			}
		}
	}
}

// showCharts prints a line for each chart file that was, or should be, written
// or removed.
func (t *tool) showCharts(o outcome) {
	for _, c := range o.result.Charts {
		state, done := c.States()
		if o.written {
			state = done
		}
		t.out.printf("  %s  %s\n", visible(o.display(c.Path)), state)
	}
}

// noteCharts says what becomes of the chart files where only a text is printed.
func (t *tool) noteCharts(o outcome) {
	for _, c := range o.result.Charts {
		_, done := c.States()
		says := "would be " + done
		if o.isStdin() {
			says = "is not " + done + " from the standard input"
		}
		t.err.line(t.err.dim("inkwing: note:") + " " + visible(o.display(c.Path)) + " " + says)
	}
}
