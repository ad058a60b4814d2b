package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"inkwing/evaluate"
	"inkwing/evaluate/message"
	"inkwing/worksheet"
)

// A trial is one call of try.
type trial struct {
	paths
	show    []string
	changes []evaluate.Change
}

func (t *tool) tryCommand() *cobra.Command {
	x := &trial{}
	c := &cobra.Command{
		Use:   "try file name=value…",
		Short: "Work a worksheet with other inputs and say what changes; write nothing",
		Long: `Try works a worksheet with some of its plain values replaced, writes nothing, and
prints what comes out otherwise: first the limits that are broken or kept now,
then the lines that fail or can be worked now, then each quantity that changed,
old → new, the largest change first.

A value is written as in the worksheet, with its unit, and with ± where it has
one; a bare number is in the unit of the definition's bracket. For a part that is
picked from a table by its key, the key is enough: cell=B60. A plain value of a
worksheet that this one uses stands behind its name: parts.n_series=4.

The exit code is 1 when with these values a line fails or a limit does not hold.`,
		Example: "  inkwing try notes.md n_series=5\n  inkwing try notes.md cell=B60 \"V_full=10.5 V ± 0.2 V\" --show E_full,t_fly",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) < 2 {
				return usage(c, fmt.Errorf("try wants a file and what to change in it: try notes.md n_series=5"))
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error { return t.try(c.Context(), x, args) },
	}
	x.flags(c)
	x.jsonFlag(c)
	c.Flags().StringSliceVar(&x.show, "show", nil, "the quantities to print, changed or not (default: all that changed)")
	c.ValidArgsFunction = t.completeTry
	return c
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
	ctx, cancel := context.WithTimeoutCause(ctx, workTime, errTooLong)
	defer cancel()
	was, err := t.openSheet(g)
	if err != nil || was == nil {
		return err
	}
	return t.workTrial(ctx, x, was)
}

// only is the one file that was named.
func (f *finder) only(path string) (*target, error) {
	if len(f.found) != 1 || f.found[0].walked {
		return nil, trouble{fmt.Errorf("%s is no single file", path), "name one worksheet"}
	}
	g := f.found[0]
	if g.err != nil {
		return nil, outcome{target: g, err: g.err}.failure()
	}
	return g, nil
}

// An opened is a target read as a sheet.
type opened struct {
	*target
	text  []byte
	sheet *evaluate.Sheet
	load  evaluate.Loader
}

// openSheet reads a target; nil where it is refused, which is then said.
func (t *tool) openSheet(g *target) (*opened, error) {
	text, err := g.read()
	if err != nil {
		return nil, outcome{target: g, err: err}.failure()
	}
	o := &opened{target: g, text: text}
	var refused []message.Diagnostic
	o.sheet, o.load, refused = worksheet.Sheet(g.folder, g.name, text)
	if len(refused) > 0 {
		t.refuse(o.places(), refused)
		return nil, nil
	}
	if len(o.sheet.Blocks) == 0 {
		return nil, trouble{fmt.Errorf("%s holds no working block", g.shown), "name a worksheet"}
	}
	return o, nil
}

func (o *opened) places() *places {
	return newPlaces(outcome{target: o.target, result: &worksheet.Result{Source: o.text}})
}

// refuse prints why the command could not do its job.
func (t *tool) refuse(p *places, list []message.Diagnostic) {
	for _, d := range list {
		p.print(t.err, "error:", t.err.red, d)
	}
	t.worsen(failed)
}

func (t *tool) workTrial(ctx context.Context, x *trial, o *opened) error {
	was := evaluate.Work(ctx, o.sheet, o.load)
	now, refused := evaluate.WorkWith(ctx, o.sheet, o.load, x.changes)
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
	if err := x.known(now); err != nil {
		return err
	}
	if len(now.Errors) > 0 || len(broken(now)) > 0 {
		t.worsen(attention)
	}
	c := evaluate.Compare(was, now)
	if x.json {
		return t.encode(x.report(o, c, now))
	}
	t.showTrial(x, p, c, now)
	return nil
}

// known refuses a name behind --show that the worksheet does not have.
func (x *trial) known(r *evaluate.Report) error {
	for _, name := range x.show {
		if len(named(r, name)) == 0 {
			return noQuantity(name, r)
		}
	}
	return nil
}

// noQuantity is the error for a name that a report does not have.
func noQuantity(name string, r *evaluate.Report) error {
	var all []string
	for _, q := range r.Quantities {
		all = append(all, q.Name)
	}
	hint := "inkwing check --json lists the quantities"
	if near := message.Nearest(name, all); near != "" {
		hint = "did you mean " + near + "?"
	}
	return trouble{fmt.Errorf("no quantity %s in %s", name, r.Sheet), hint}
}

// named are the quantities of a name: one, or the fields of a record.
func named(r *evaluate.Report, name string) []evaluate.Quantity {
	return slices.DeleteFunc(slices.Clone(r.Quantities), func(q evaluate.Quantity) bool { return !isOf(q.Name, name) })
}

// isOf says whether a quantity is the named one or a field of it.
func isOf(quantity, name string) bool {
	return quantity == name || strings.HasPrefix(quantity, name+".")
}

func (t *tool) showTrial(x *trial, p *places, c *evaluate.Comparison, now *evaluate.Report) {
	t.showFlips(p, c)
	if len(x.show) > 0 {
		t.showChosen(x.show, c, now)
		return
	}
	for _, d := range c.Changed {
		t.out.printf("  %s\n", t.out.difference(d))
	}
	if c.Empty() {
		t.out.printf("  %s\n", t.out.dim("nothing changes"))
	}
}

// difference writes a changed quantity, with what it waits for.
func (s *stream) difference(d evaluate.Difference) string {
	line := s.change(change{d.New.Name, d.Old.Shown, d.New.Shown}, d.Percent)
	if d.New.Waits != "" {
		line += "  " + s.dim("(waits for "+visible(d.New.Waits)+")")
	}
	return line
}

// showChosen prints the quantities asked for, those that did not change too.
func (t *tool) showChosen(names []string, c *evaluate.Comparison, now *evaluate.Report) {
	for _, name := range names {
		changed := map[string]bool{}
		for _, d := range c.Changed {
			if isOf(d.New.Name, name) {
				changed[d.New.Name] = true
				t.out.printf("  %s\n", t.out.difference(d))
			}
		}
		for _, q := range named(now, name) {
			if !changed[q.Name] {
				t.out.printf("  %s  %s  %s\n", visible(q.Name), visible(q.Shown), t.out.dim("(unchanged)"))
			}
		}
	}
}

// showFlips prints the limits and lines that turned.
func (t *tool) showFlips(p *places, c *evaluate.Comparison) {
	for _, l := range c.Broken {
		t.out.printf("  %s %s  worked %s, allowed %s, headroom %s\n", t.out.yellow("now broken:"), visible(l.New.Text),
			visible(l.New.Worked), visible(l.New.Allowed), visible(l.New.Headroom))
		if l.New.Advice != "" {
			t.out.printf("%s", wrap(visible(l.New.Advice), "    "))
		}
	}
	for _, l := range c.Doubtful {
		t.out.printf("  %s %s  worked %s, allowed %s\n", t.out.yellow("now in doubt:"), visible(l.New.Text), visible(l.New.Worked), visible(l.New.Allowed))
	}
	for _, l := range c.Mended {
		t.out.printf("  %s %s\n", t.out.green("now kept:"), mended(l))
	}
	for _, e := range c.Failing {
		p.print(t.out, "now fails:", t.out.red, e.Diagnostic)
	}
	for _, e := range c.Working {
		t.out.printf("  %s %s\n", t.out.green("mended:"), visible(e.Diagnostic.Summary))
	}
}

func mended(l evaluate.LimitChange) string {
	if l.New == nil {
		return visible(l.Old.Text) + "  (it is gone)"
	}
	return fmt.Sprintf("%s  worked %s, allowed %s, headroom %s", visible(l.New.Text), visible(l.New.Worked), visible(l.New.Allowed), visible(l.New.Headroom))
}
