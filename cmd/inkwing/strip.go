package main

import (
	"context"

	"github.com/spf13/cobra"

	"inkwing/worksheet"
)

func (t *tool) stripCommand() *cobra.Command {
	p := &paths{}
	c := &cobra.Command{
		Use:   "strip [path…]",
		Short: "Take the results out of worksheets",
		Long: `Strip takes the regions that run wrote out of the worksheets named, to the byte,
removes the charts that it drew, and leaves everything else: blocks, prose, and
the values inside it, files of your own among the charts. With - the worksheet
is read from the standard input and written to the standard output.`,
		Example: "  inkwing strip notes.md\n  inkwing strip - < notes.md",
		RunE: func(c *cobra.Command, args []string) error {
			return t.sheets(c.Context(), p, args, verb{work: p.stripOne, show: t.showStrip, writes: true})
		},
	}
	p.flags(c)
	p.diffFlag(c)
	p.forceFlag(c)
	return c
}

func (p *paths) stripOne(ctx context.Context, g *target) outcome {
	return p.rewrite(ctx, g, func(ctx context.Context) (*worksheet.Result, error) { return g.strip(ctx, p.options()...) }).orNothing()
}

// strip is the target without its results.
func (g *target) strip(ctx context.Context, options ...worksheet.Option) (*worksheet.Result, error) {
	return g.inBounds(ctx, func(ctx context.Context, text []byte) *worksheet.Result {
		r := &worksheet.Result{Path: g.name, Source: text}
		r.Output, r.Refused = worksheet.Strip(ctx, g.name, text, options...)
		if len(r.Refused) == 0 && !g.isStdin() {
			r.Charts = worksheet.StripCharts(g.folder, g.name)
		}
		return r
	})
}

// orNothing passes over the files of a folder that have nothing to take out.
func (o outcome) orNothing() outcome {
	if o.result != nil && o.walked && !o.result.Changed() && len(o.result.Refused) == 0 {
		o.result = nil
	}
	return o
}

func (t *tool) showStrip(p *paths, o outcome) {
	switch {
	case o.err != nil:
		t.complain(o.failure())
		return
	case p.diff:
		t.showDiff(o.shown, o.result.Source, o.result.Output)
		t.noteCharts(o)
	case o.isStdin():
		t.out.Write(o.result.Output)
	default:
		state := changedOrNot(o.written)
		if len(o.result.Refused) > 0 {
			state = t.out.red(leftAsItIs)
		}
		t.out.printf("%s: %s\n", t.out.bold(visible(o.shown)), state)
		t.showCharts(o)
	}
	t.noteWriting(o)
	t.showFindings(t.err, o)
}
