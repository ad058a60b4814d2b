package main

import (
	"context"

	"github.com/spf13/cobra"
)

func (t *tool) checkCommand() *cobra.Command {
	p := &paths{}
	c := &cobra.Command{
		Use:   "check [path…]",
		Short: "Say what is stale, broken or in error; write nothing",
		Long: `Check works the worksheets named as run does and writes nothing. It says which
are stale, which limits do not hold and which lines fail, and then ends with the
exit code 1: made for a build server and for a hook before a commit.`,
		Example: "  inkwing check .\n  inkwing check --json notes.md",
		RunE: func(c *cobra.Command, args []string) error {
			return t.sheets(c.Context(), p, args, verb{work: checkOne, show: t.showCheck, after: nil})
		},
	}
	p.flags(c)
	p.jsonFlag(c)
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
	t.showChanges(t.out, o.result)
	t.showFindings(t.out, o)
}
