package main

import (
	"context"
	"errors"
	"slices"

	"github.com/spf13/cobra"
)

func (t *tool) checkCommand() *cobra.Command {
	p, rev := &paths{}, ""
	var pages []string
	c := &cobra.Command{
		Use:   "check [path… | page.html…]",
		Short: "Say what is stale, broken or in error; write nothing",
		Long: `Check works the worksheets named as run does and writes nothing. It says which
are stale, which limits do not hold and which lines fail, and then ends with the
exit code 1: made for a build server and for a hook before a commit.

A page that inkwing page wrote is worked again from the sources that it carries:
check says whether it shows what comes out, and if not, where it differs first.

With --keeping it also holds each worksheet against the rules on a page: blocks of
the kind keeping, with a rule a line, such as

    every limit: headroom >= 5 %
      "Leave some room."
    some limit where text contains "worst_cell_voltage"
    no caution where level == "danger" and kind == "model"

and says which worksheet breaks which rule, at its line. What can be asked of a
quantity, a given, a limit, a caution, a table, an error or a chart is listed by
inkwing explain rules. The page itself is checked for sense whenever it is worked.

With --against it also reads the worksheet, and all that it uses, as they are in
git at a revision, works both, and says what changed and through which inputs:
plain values, cells of tables, files of data, and formulas. The share of each is
found by working the worksheet with only some of the changes made: for up to
5 changed inputs it is the average over all orders of making them one by one, for
more the average of making it first and making it last, scaled to the whole. The
shares of a quantity sum to 100 %. Where changes work against each other, so that
one had less than nothing, their amounts are told instead, in the quantity's unit.`,
		Example: "  inkwing check .\n  inkwing check --json notes.md\n  inkwing check journal.html\n  inkwing check --keeping club.md journals\n  inkwing check --against HEAD~1 notes.md",
		RunE: func(c *cobra.Command, args []string) error {
			if c.Flags().Changed("against") {
				return t.against(c.Context(), p, rev, args)
			}
			if len(p.show) > 0 {
				return trouble{errors.New("--show wants a revision to compare with"), "for example: inkwing check --against HEAD --show E_full notes.md"}
			}
			if slices.ContainsFunc(args, isPage) && len(pages) == 0 {
				return t.checkPages(c.Context(), p, args)
			}
			h, err := t.keeping(pages)
			if err != nil {
				return err
			}
			return t.sheets(c.Context(), p, args, verb{work: h.checkOne, show: t.showCheck, after: nil})
		},
	}
	p.flags(c)
	p.jsonFlag(c)
	p.formatFlag(c)
	p.allFlag(c)
	p.showFlag(c)
	p.changedFlag(c)
	c.Flags().StringArrayVar(&pages, "keeping", nil, "hold the worksheets against the rules of this page; may be given again")
	c.MarkFlagFilename("keeping", "md")
	c.ValidArgsFunction = func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return []string{"md", "html"}, cobra.ShellCompDirectiveFilterFileExt
	}
	c.Flags().StringVar(&rev, "against", "", "compare a worksheet with what it is in git at this revision")
	return c
}

func checkOne(ctx context.Context, g *target) outcome {
	r, err := g.work(ctx)
	return outcome{target: g, result: r, err: err, checked: true}
}

// showCheck prints to standard output: what is found is what check makes.
func (t *tool) showCheck(p *paths, o outcome) {
	if o.err != nil {
		t.complain(o.failure())
		return
	}
	state := "fresh"
	if o.result.Changed() {
		state = "stale"
	}
	t.showSummary(t.out, o, state)
	t.showFindings(t.out, o)
	t.showCharts(o)
	t.showChanges(p, o.result)
}
