package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"inkwing/cmd/inkwing/wire"
	"inkwing/evaluate"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
)

// A trial is one call of try.
type trial struct {
	paths
	changes []evaluate.Change
}

func (t *tool) tryCommand() *cobra.Command {
	x := &trial{}
	c := &cobra.Command{
		Use:   "try file name=value…",
		Short: "Work a worksheet with other inputs and say what changes; write nothing",
		Long: `Try works a worksheet with some of its plain values replaced, writes nothing, and
prints what comes out otherwise: first the limits that are broken or kept now and
the readings that agree or disagree now, then the lines that fail or can be worked
now, then the quantities that the worksheet names in a sentence, a bracket or a
limit, old → new, the largest change first, how many others there are, and how many
rows of the tables of vary and budget differ.

A value is written as in the worksheet, with its unit, and with ± where it has
one; a bare number is in the unit of the definition's bracket. For a part that is
picked from a table by its key, the key is enough: cell=B60. A plain value of a
worksheet that this one uses stands behind its name: parts.n_series=4. A number
inside a call is named by the quantity and the argument, "store(series)=5", and
where several calls of the quantity have one, with its function,
"store(pack.series)=5"; where a name stands there, it is another in that call
only. A cell of a table is named by row and column, 'cells["B50"].mass=12'.
"inkwing explain FILE" lists all that can be changed.

The exit code is 1 when with these values a line fails or a limit does not hold,
one of a worksheet that this one uses as well.`,
		Example: "  inkwing try notes.md n_series=5\n  inkwing try notes.md cell=B60 \"V_full=10.5 V ± 0.2 V\" --show E_full,t_fly\n  inkwing try notes.md \"store(series)=5\" \"ride(drag)=0.3 N·m\"",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) < 2 {
				return usage(c, fmt.Errorf("try wants a file and what to change in it: try notes.md n_series=5"))
			}
			return fileFirst(c, args)
		},
		RunE: func(c *cobra.Command, args []string) error { return t.try(c.Context(), x, args) },
	}
	x.flags(c)
	x.jsonFlag(c)
	x.showFlag(c)
	x.allFlag(c)
	c.ValidArgsFunction = t.completeTry
	return c
}

// fileFirst tells who writes a value before the worksheet how it goes.
func fileFirst(c *cobra.Command, args []string) error {
	if !strings.Contains(args[0], "=") {
		return nil
	}
	for i, arg := range args {
		if strings.HasSuffix(strings.ToLower(arg), ".md") && !strings.Contains(arg, "=") {
			rest := slices.Delete(slices.Clone(args), i, i+1)
			return usage(c, fmt.Errorf("the worksheet comes first: try %s %s", arg, strings.Join(rest, " ")))
		}
	}
	return nil
}

func (t *tool) try(ctx context.Context, x *trial, args []string) error {
	for _, text := range args[1:] {
		x.changes = append(x.changes, evaluate.Change{Text: text})
	}
	f, err := t.find(ctx, &x.paths, args[:1])
	if err != nil {
		return err
	}
	defer f.close()
	g, err := f.only(args[0])
	if err != nil {
		return err
	}
	ctx, done := boundedWork(ctx)
	defer done()
	was, err := t.openSheet(ctx, g)
	if err != nil || was == nil {
		return err
	}
	return t.workTrial(ctx, x, was)
}

func (t *tool) workTrial(ctx context.Context, x *trial, o *opened) error {
	var was, now *report.Report
	var refused []message.Diagnostic
	t.patiently(ctx, func(ctx context.Context) {
		was, _ = evaluate.WorkWith(ctx, o.sheet, o.load, nil, x.show...)
		now, refused = evaluate.WorkWith(ctx, o.sheet, o.load, x.changes, x.show...)
	})
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	p := o.places()
	for _, c := range x.changes {
		p.sources[c.File()] = message.NewSource("try", []byte(c.Text))
	}
	if len(refused) > 0 {
		t.refuse(p, refused)
		return nil
	}
	c := report.Compare(was, now)
	if len(now.Errors)+len(now.Broken())+len(c.Broken) > 0 {
		t.worsen(attention)
	}
	if err := x.choose(c, now); err != nil {
		return err
	}
	if x.json {
		return wire.Encode(t.out, wire.OfTrial(o.shown, x.tried(), c, now.Bypassed))
	}
	t.showTrial(x, p, c, now, o.sheet.Asked())
	return nil
}

// choose keeps what --show names of a comparison, changed or not; an error for a
// name that the worksheet does not have.
func (p *paths) choose(c *report.Comparison, now *report.Report) error {
	if len(p.show) == 0 {
		return nil
	}
	for _, name := range p.show {
		if len(now.Named(name)) == 0 {
			return noQuantity(name, now)
		}
	}
	c.Changed = c.Chosen(now, p.show)
	return nil
}

// noQuantity is the error for a name that a report does not have.
func noQuantity(name string, r *report.Report) error {
	var all []string
	for _, q := range r.Quantities {
		all = append(all, q.Name)
	}
	hint := "inkwing explain " + r.Sheet + " lists them"
	if near := message.Nearest(name, all); near != "" {
		hint = "did you mean " + near + "?"
	}
	return trouble{fmt.Errorf("no quantity %s in %s", name, r.Sheet), hint}
}

// tried are the inputs as they were typed.
func (x *trial) tried() (list []wire.Tried) {
	for _, c := range x.changes {
		list = append(list, wire.Tried{Name: c.Name(), Text: c.Text})
	}
	return list
}

func (t *tool) showTrial(x *trial, p *places, c *report.Comparison, now *report.Report, asked map[string]bool) {
	t.showFlips(p, c)
	var rows []listed
	for _, d := range c.Changed {
		rows = append(rows, listed{t.row(d), asked[d.New.Name]})
	}
	t.listChanges(rows, x.all || len(x.show) > 0)
	if len(x.show) > 0 {
		t.showLeftOut(now)
		return
	}
	t.showTables(c)
	t.showBypassed(now)
	if c.Empty() {
		t.out.printf("  %s\n", t.out.dim("nothing changes"))
	}
}

// showBypassed says which arguments stand in the way of what was tried.
func (t *tool) showBypassed(now *report.Report) {
	for _, note := range now.Bypassed {
		t.out.printf("%s", t.out.dim(t.out.wrap(strings.ReplaceAll(note, "`", ""), "  ")))
	}
}

// showLeftOut counts the limits that need more than what --show names.
func (t *tool) showLeftOut(now *report.Report) {
	n := 0
	for _, l := range now.Limits {
		if l.State == report.Waiting {
			n++
		}
	}
	if n > 0 {
		t.out.printf("%s", t.out.dim(t.out.wrap(count(n, "limit", "limits")+" not looked at: only what --show names was worked", "  ")))
	}
}
