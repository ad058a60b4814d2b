// Package evaluate is the way from a sheet to what is said of it: statements in, a
// report of values out.
//
// [Work] evaluates a sheet, [WorkWith] does so with other inputs, [Explain] tells how
// a quantity came about, [Lines] what each formula holds, and [Against] what changed since another version. It knows
// the language and the physics and no Markdown. The work is done in the packages
// below: working checks and evaluates, present makes the texts.
package evaluate

import (
	"context"

	"inkwing/evaluate/attribute"
	"inkwing/evaluate/basis"
	"inkwing/evaluate/explain"
	"inkwing/evaluate/message"
	"inkwing/evaluate/override"
	"inkwing/evaluate/present"
	"inkwing/evaluate/report"
	"inkwing/evaluate/run"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/working"
)

// A Memo remembers what calls of the library came to, for whoever works sheets again
// and again: hand the same one to every run, by [Remembering]. What comes out is the
// same with and without.
type Memo = run.Memo

// NewMemo is a memo that remembers nothing yet.
func NewMemo() *Memo { return run.NewMemo() }

// Remembering is a context whose runs look into a memo before they call the library,
// and keep there what they call. Several may run at a time.
func Remembering(ctx context.Context, m *Memo) context.Context { return run.Remembering(ctx, m) }

// Points count how far the what-ifs of a run are, for whoever waits for it.
type Points = run.Points

// Counting is a context whose runs count their points there.
func Counting(ctx context.Context, p *Points) context.Context { return run.Counting(ctx, p) }

// Work evaluates a sheet: parses it and what it uses, checks all, runs what can be
// run, and reports. It never fails: what is wrong stands in the report.
func Work(ctx context.Context, main *sheet.Sheet, load sheet.Loader) *report.Report {
	w := working.Check(ctx, working.NewSource(main, load))
	w.Evaluate(ctx, w.Shown())
	return present.Report(w)
}

// A Basis is what the results of a sheet stand on beside its own text; a Digest stands for
// a part of that.
type (
	Basis  = basis.Basis
	Digest = basis.Digest
)

// BasisOf is the basis of a sheet, without evaluating anything; nil where something is in
// error.
func BasisOf(ctx context.Context, main *sheet.Sheet, load sheet.Loader) *Basis {
	return basis.Of(working.Check(ctx, working.NewSource(main, load)))
}

// WorkBased is [Work], with the basis of what came out, and of which sheets everything
// could be evaluated.
func WorkBased(ctx context.Context, main *sheet.Sheet, load sheet.Loader) (*report.Report, *Basis, map[string]bool) {
	w := working.Check(ctx, working.NewSource(main, load))
	w.Evaluate(ctx, w.Shown())
	return present.Report(w), basis.Of(w), basis.Whole(w)
}

// A Change is a plain value to be replaced, as a builder types it.
type Change = override.Change

// WorkWith evaluates a sheet with some plain values replaced, in it or in a sheet
// that it uses. Where a replacement cannot stand there is no report, and the
// diagnostics say why, all of them at once; their places are in the changes. With
// names only those quantities are evaluated and what they need, and the limits that
// need no more; all else waits.
func WorkWith(ctx context.Context, main *sheet.Sheet, load sheet.Loader, changes []Change, names ...string) (*report.Report, []message.Diagnostic) {
	w, problems := override.Check(ctx, working.Check(ctx, working.NewSource(main, load)), changes)
	if w == nil {
		return nil, problems
	}
	if len(names) > 0 {
		w.Only(names)
	}
	w.Evaluate(ctx, w.Shown())
	r, tried := present.Report(w), []string{}
	for _, c := range changes {
		tried = append(tried, c.Name())
	}
	r.Bypassed = present.Bypassed(w, tried)
	return r, nil
}

// Inputs are all that can be changed in a sheet and in those that it uses, by the
// addresses under which a [Change] names them. Nothing is evaluated.
func Inputs(ctx context.Context, main *sheet.Sheet, load sheet.Loader) []report.Input {
	return present.Inputs(working.Check(ctx, working.NewSource(main, load)))
}

// Explain evaluates a sheet and tells how a quantity, or a field of one, came about,
// down to the plain values. The step is nil where there is no such quantity.
func Explain(ctx context.Context, main *sheet.Sheet, load sheet.Loader, name string) (*report.Step, *report.Report) {
	w := working.Check(ctx, working.NewSource(main, load))
	w.Evaluate(ctx, w.All())
	r := present.Report(w)
	return explain.Quantity(w, r, name), r
}

// Lines evaluates a sheet like [Work], and gives the statements of each block with
// what it takes to set them as formulas.
func Lines(ctx context.Context, main *sheet.Sheet, load sheet.Loader) (*report.Report, [][]explain.Line) {
	r, _ := Stand(ctx, main, load).LinesWith(ctx, nil)
	return r.Report, r.Lines
}

// A Reading is what a page is laid out from.
type Reading struct {
	Report *report.Report
	Lines  [][]explain.Line
}

// A Standing is a sheet that was read and checked as it stands, for whoever tries other
// values in it again and again.
type Standing struct{ checked *working.Evaluation }

// Stand reads and checks a sheet and what it uses. Nothing is evaluated.
func Stand(ctx context.Context, main *sheet.Sheet, load sheet.Loader) *Standing {
	return &Standing{working.Check(ctx, working.NewSource(main, load))}
}

// Next reads and checks a sheet that came of this one by an edit: what stands in it as it
// stood is not parsed again.
func (s *Standing) Next(ctx context.Context, main *sheet.Sheet, load sheet.Loader) *Standing {
	return &Standing{working.Check(ctx, s.checked.Source.Next(main, load))}
}

// Inputs are what can be changed in it, as [Inputs] has them.
func (s *Standing) Inputs() []report.Input { return present.Inputs(s.checked) }

// LinesWith is [Lines] with some plain values replaced; or the reasons why they cannot
// stand, as [WorkWith] gives them.
func (s *Standing) LinesWith(ctx context.Context, changes []Change) (*Reading, []message.Diagnostic) {
	w, problems := override.Check(ctx, s.checked, changes)
	if w == nil {
		return nil, problems
	}
	w.Evaluate(ctx, w.All())
	r := present.Report(w)
	return &Reading{r, explain.Lines(w, r)}, nil
}

// ValuesWith is the quantities of [Standing.LinesWith] before it is known how sure each
// value is: no interval is carried, and nothing else is told of the sheet. That takes a
// fraction of the time.
func (s *Standing) ValuesWith(ctx context.Context, changes []Change) (*report.Report, []message.Diagnostic) {
	w, problems := override.Check(ctx, s.checked, changes)
	if w == nil {
		return nil, problems
	}
	w.EvaluateNominal(ctx)
	return present.Values(w), nil
}

// A Version is a sheet as it stands at some time, and the way to what it uses.
type Version struct {
	Sheet *sheet.Sheet
	Load  sheet.Loader
}

// Against evaluates two versions of one sheet, compares them, and traces what
// changed to its causes.
func Against(ctx context.Context, old, now Version) *report.Trace {
	return attribute.Trace(ctx, old.evaluate(ctx), now.evaluate(ctx))
}

func (v Version) evaluate(ctx context.Context) attribute.Version {
	w := working.Check(ctx, working.NewSource(v.Sheet, v.Load))
	w.Evaluate(ctx, w.Shown())
	return attribute.Version{Evaluation: w, Report: present.Report(w)}
}
