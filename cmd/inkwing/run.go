package main

import (
	"context"
	"errors"

	"github.com/spf13/cobra"

	"inkwing/cmd/inkwing/disk"
	"inkwing/cmd/inkwing/wire"
	"inkwing/evaluate"
	"inkwing/evaluate/message"
	"inkwing/worksheet"
	"inkwing/worksheet/rules"
)

// tries is how often a file that changes while it is worked is worked anew.
const tries = 5

var errBusy = trouble{errors.New("keeps changing while it is worked"), "close what writes it and run again"}

func (t *tool) runCommand() *cobra.Command {
	p := &paths{}
	c := &cobra.Command{
		Use:   "run [path…]",
		Short: "Work worksheets and write their results",
		Long: `Run works the worksheets named, and those in the folders named (without a path:
in the current folder), and writes the results into them. Nothing else in a file
changes, and a file whose results are right is not written at all.

It prints a line for each file, the limits that do not hold and the lines that
fail, and what changed: limits, then the quantities that the worksheet names in a
sentence, a bracket or a limit, and how many others there are. With - the worksheet
is read from the standard input and written to the standard output.

A file with something in a region that no run wrote is left as it is: move that out
of the region, or take it out with --force.`,
		Example: "  inkwing run notes.md\n  inkwing run --diff .\n  inkwing run - --name notes.md < notes.md",
		RunE: func(c *cobra.Command, args []string) error {
			return t.sheets(c.Context(), p, args, verb{work: p.runOne, show: t.showRun, after: t.showStale, writes: true})
		},
	}
	p.flags(c)
	p.jsonFlag(c)
	p.formatFlag(c)
	p.changedFlag(c)
	p.diffFlag(c)
	p.forceFlag(c)
	p.allFlag(c)
	return c
}

// An outcome is what became of a target.
type outcome struct {
	*target
	result  *worksheet.Result // nil for a file of a folder without a working block
	basis   *worksheet.Basis  // of a file that is as it should be now, where that is asked for
	err     error
	written bool
	again   bool // it was saved meanwhile, and read again
	shared  bool // another hard link keeps what it held
	checked bool // by check, for which a stale file needs attention
	rules   []wire.Judged
	pages   map[string]*message.Source // of the rules
	finds   []rules.Find               // of gather
}

// A verb says what to do with each target, how to show it, and what remains to
// be said at the end.
type verb struct {
	work  func(context.Context, *target) outcome
	show  func(*paths, outcome)
	after func(context.Context, []outcome) // they come without their results
	// writes is for one that writes, and so clears away what such a run left behind.
	writes bool
}

// sheets finds the targets and puts them through a verb, with one memo for all: pages of a
// folder ask the library the same again and again, and so do those that use them.
func (t *tool) sheets(ctx context.Context, p *paths, args []string, v verb) error {
	ctx = evaluate.Remembering(ctx, evaluate.NewMemo())
	f, err := t.find(ctx, p, args)
	if err != nil {
		return err
	}
	defer f.close()
	if p.changed != "" {
		if err := t.touched(ctx, p.changed, f); err != nil {
			return err
		}
	}
	out := t.printer(p, v)
	all := t.workAll(ctx, f.found, v.work, func(o outcome) {
		if p.format != asText && o.err != nil {
			t.complain(o.failure())
		}
		out.take(o)
	})
	if v.writes && !p.diff {
		t.clearLitter(ctx, all)
	}
	switch {
	case ctx.Err() != nil:
		return ctx.Err()
	case len(all) == 0 && p.format == asText && p.changed == "":
		t.err.printf("%s no worksheet there\n", t.err.dim("inkwing: note:"))
	case v.after != nil && !p.diff && p.format == asText:
		v.after(ctx, all)
	}
	return out.end()
}

// form is the outcome as other programs read it.
func (o outcome) form() wire.Outcome {
	form := wire.Outcome{Path: o.shown, Result: o.result, Written: o.written, Checked: o.checked, Rules: o.rules}
	if o.err != nil {
		form.Fault, form.Hint = o.err.Error(), hintOf(o.err)
	}
	if o.result != nil {
		form.Places = newPlaces(o)
		form.Stale = o.checked && o.result.Changed()
	}
	return form
}

// workAll works the targets side by side and shows them in order. What it gives
// back are the outcomes without their results: of a large folder those are more
// than memory holds, and once shown nobody needs them.
func (t *tool) workAll(ctx context.Context, targets []*target, work func(context.Context, *target) outcome, show func(outcome)) []outcome {
	var all []outcome
	bar := t.progress(len(targets))
	ctx = evaluate.Counting(ctx, &bar.points)
	inOrder(ctx, len(targets),
		func(i int) outcome { return work(ctx, targets[i]) },
		func(o outcome) {
			if o.result == nil && o.err == nil {
				return
			}
			bar.clear()
			t.worsen(o.status())
			show(o)
			o.result, o.rules, o.finds = nil, nil, nil
			all = append(all, o)
		},
		bar.tick)
	bar.clear()
	return all
}

// status is the exit code that an outcome asks for.
func (o outcome) status() int {
	switch {
	case o.err != nil, len(o.result.Refused) > 0:
		return failed
	case o.checked && o.result.Changed(), o.rulesBroken() > 0:
		return attention
	case o.result.Report == nil:
		return fine
	case len(o.result.Report.Errors) > 0, len(o.result.Report.Broken()) > 0:
		return attention
	}
	return fine
}

// failure is the outcome's error with the name of its file.
func (o outcome) failure() error {
	return trouble{errors.New(o.shown + ": " + o.err.Error()), hintOf(o.err)}
}

// runOne works a target and writes it.
func (p *paths) runOne(ctx context.Context, g *target) outcome {
	o := p.rewrite(ctx, g, func(ctx context.Context) (*worksheet.Result, error) {
		return g.work(ctx, append(p.options(), worksheet.Based)...)
	})
	if o.err == nil && o.result != nil && (o.written || !o.result.Changed()) {
		o.basis = o.result.Basis
	}
	return o
}

// rewrite brings a target to what make says. A file that changed since it was read
// is read again.
func (p *paths) rewrite(ctx context.Context, g *target, make func(context.Context) (*worksheet.Result, error)) outcome {
	for try := range tries {
		r, err := make(ctx)
		if err != nil || r == nil {
			return outcome{target: g, err: err}
		}
		if p.diff || g.isStdin() || !r.Changed() {
			return outcome{target: g, result: r}
		}
		shared := g.folder.HasOtherNames(g.name)
		err = g.write(ctx, r)
		if !errors.Is(err, disk.ErrChanged) {
			return outcome{target: g, result: r, err: err, written: err == nil, again: try > 0, shared: shared && r.TextChanged()}
		}
	}
	return outcome{target: g, err: errBusy}
}

// noteWriting tells what was out of the ordinary when a file was written.
func (t *tool) noteWriting(o outcome) {
	if o.written && o.again {
		t.err.printf("%s %s was saved while it was worked, and was worked again from that\n", t.err.dim("inkwing: note:"), visible(o.shown))
	}
	if o.written && o.shared {
		t.err.printf("%s %s has another name on this disk (a hard link), which keeps what it held\n", t.err.dim("inkwing: note:"), visible(o.shown))
	}
}

func (t *tool) showRun(p *paths, o outcome) {
	if o.err != nil {
		t.complain(o.failure())
		return
	}
	switch {
	case p.diff:
		t.showDiff(o.shown, o.result.Source, o.result.Output)
		t.noteCharts(o)
	case o.isStdin():
		t.out.Write(o.result.Output)
		t.noteCharts(o)
	default:
		t.showSummary(t.out, o, changedOrNot(o.written))
		t.noteWriting(o)
		t.showFindings(t.err, o)
		t.showCharts(o)
		t.showChanges(p, o.result)
		return
	}
	t.noteWriting(o)
	t.showFindings(t.err, o)
}

func changedOrNot(changed bool) string {
	if changed {
		return "changed"
	}
	return "unchanged"
}
