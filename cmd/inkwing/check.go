package main

import (
	"context"

	"github.com/spf13/cobra"
)

func (t *tool) checkCommand() *cobra.Command {
	p, rev := &paths{}, ""
	c := &cobra.Command{
		Use:   "check [path…]",
		Short: "Say what is stale, broken or in error; write nothing",
		Long: `Check works the worksheets named as run does and writes nothing. It says which
are stale, which limits do not hold and which lines fail, and then ends with the
exit code 1: made for a build server and for a hook before a commit.

With --against it also reads the worksheet, and all that it uses, as they are in
git at a revision, works both, and says what changed and through which inputs:
plain values, cells of tables, files of data, and formulas. The share of each is
found by working the worksheet with only some of the changes made: for up to
5 changed inputs it is the average over all orders of making them one by one, for
more the average of making it first and making it last, scaled to the whole. The
shares of a quantity sum to 100 %. Where changes work against each other, so that
one had less than nothing, their amounts are told instead, in the quantity's unit.`,
		Example: "  inkwing check .\n  inkwing check --json notes.md\n  inkwing check --against HEAD~1 notes.md",
		RunE: func(c *cobra.Command, args []string) error {
			if c.Flags().Changed("against") {
				return t.against(c.Context(), p, rev, args)
			}
			return t.sheets(c.Context(), p, args, verb{work: checkOne, show: t.showCheck, after: nil})
		},
	}
	p.flags(c)
	p.jsonFlag(c)
	c.Flags().StringVar(&rev, "against", "", "compare a worksheet with what it is in git at this revision")
	return c
}

func checkOne(ctx context.Context, g *target) outcome {
	r, err := g.work(ctx)
	return outcome{target: g, result: r, err: err, checked: true}
}

// showCheck prints to standard output: what is found is what check makes.
func (t *tool) showCheck(_ *paths, o outcome) {
	if o.err != nil {
		t.complain(o.failure())
		return
	}
	state := "fresh"
	if o.result.Changed() {
		state = "stale"
	}
	t.showSummary(t.out, o, state)
	t.showCharts(o)
	t.showChanges(t.out, o.result)
	t.showFindings(t.out, o)
}
