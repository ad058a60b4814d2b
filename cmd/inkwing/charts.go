package main

import (
	"context"
	"fmt"

	"inkwing/worksheet"
)

// write brings a target and the charts beside it up to date: the charts that
// the text shows before the text, those that it no longer shows after it.
func (g *target) write(ctx context.Context, r *worksheet.Result) error {
	for _, c := range r.Charts {
		if c.New != nil {
			if err := g.folder.Put(ctx, c.Path, c.Old, c.New); err != nil {
				return fmt.Errorf("%s %w", g.display(c.Path), err)
			}
		}
	}
	if r.TextChanged() {
		if err := g.folder.Replace(ctx, g.name, r.Source, r.Output); err != nil {
			return err
		}
	}
	for _, c := range r.Charts {
		if c.New == nil {
			if err := g.folder.Remove(ctx, c.Path, c.Old); err != nil {
				return fmt.Errorf("%s %w", g.display(c.Path), err)
			}
		}
	}
	return nil
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
		t.err.printf("%s %s %s\n", t.err.dim("inkwing: note:"), visible(o.display(c.Path)), says)
	}
}
