// Package working takes a sheet from its text to what its definitions come to.
//
// [NewSource] reads it with all that it uses, [Check] finds out what it means, and
// [Evaluation.Evaluate] evaluates what can be, with how sure each number is. What
// is said of all that is made elsewhere: here are values and faults, and no texts.
package working

import (
	"context"
	"slices"

	"inkwing/evaluate/check"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/run"
	"inkwing/evaluate/study"
)

// An Evaluation is a sheet that has been checked and, behind Evaluate,
// evaluated.
type Evaluation struct {
	Source      *Source
	Program     *program.Program
	Machine     *run.Machine
	Uncertainty *study.Uncertainty // nil if nothing is uncertain
	DrawFault   error              // why the draws could not be made
	only        map[int]bool       // the definitions to evaluate; nil for all
}

// Check reads a sheet and what it uses, and finds out what they mean.
func Check(ctx context.Context, s *Source) *Evaluation {
	use := func(from, path string) (*check.Input, error) {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		return s.use(ctx, from, path)
	}
	return &Evaluation{Source: s, Program: check.Check(ctx, *s.input(ctx, s.Main), use)}
}

// Again is the same check of which nothing is evaluated.
func (e *Evaluation) Again() *Evaluation { return &Evaluation{Source: e.Source, Program: e.Program} }

// Evaluate runs what can be run, and finds how sure what comes out is: of the
// definitions by those numbers, see Shown and All.
func (e *Evaluation) Evaluate(ctx context.Context, wanted []int) {
	e.EvaluateNominal(ctx)
	e.Uncertainty = study.Propagate(e.Machine, e.Program, wanted)
	if draws := e.Program.Main.Draws; draws > 0 {
		e.DrawFault = e.Uncertainty.Draw(e.Machine, wanted, draws)
	}
}

// EvaluateNominal runs what can be run, and leaves aside what is uncertain.
func (e *Evaluation) EvaluateNominal(ctx context.Context) {
	e.Machine = run.New(ctx, e.Program, study.Work)
	if e.only != nil {
		e.Machine.RunOnly(e.only)
		return
	}
	e.Machine.Run()
}

// Shown are the definitions whose uncertainty a report shows: the sheet's own, and
// those of used ones that stand in its prose.
func (e *Evaluation) Shown() []int {
	ids := e.asked(e.own())
	for _, in := range e.Source.Main.Inline {
		if d, _, ok := e.Named(in.Name); ok && d.Sheet != e.Program.Main {
			ids = append(ids, d.ID)
		}
	}
	return ids
}

// All are the sheet's own definitions and the quantities of those it uses.
func (e *Evaluation) All() []int {
	ids := e.own()
	for _, d := range e.Program.Defs {
		if d.Sheet != e.Program.Main && (program.Is[*program.Value](d) || program.Is[*program.Study](d)) {
			ids = append(ids, d.ID)
		}
	}
	return ids
}

// Only leaves out what the named quantities do not need, and the limits that need
// more than they do.
func (e *Evaluation) Only(names []string) {
	e.only = map[int]bool{}
	for _, name := range names {
		if d, _, ok := e.Named(name); ok {
			e.need(d.ID)
		}
	}
	for _, d := range e.Program.Defs {
		if program.Is[*program.Limit](d) && !slices.ContainsFunc(d.Dependencies, func(id int) bool { return !e.only[id] }) {
			e.only[d.ID] = true
		}
	}
}

// need marks a definition and all that it needs.
func (e *Evaluation) need(id int) {
	queue := []int{id}
	for len(queue) > 0 {
		id, queue = queue[0], queue[1:]
		if !e.only[id] {
			e.only[id] = true
			queue = append(queue, e.Program.Defs[id].Dependencies...)
			if s, ok := e.Program.Defs[id].Body.(*program.Study); ok {
				for _, l := range s.Limits {
					queue = append(queue, l.ID) // its rows are held against them
				}
			}
		}
	}
}

// asked are those of the definitions that are evaluated.
func (e *Evaluation) asked(ids []int) []int {
	if e.only == nil {
		return ids
	}
	return slices.DeleteFunc(ids, func(id int) bool { return !e.only[id] })
}

// own are the sheet's definitions, but for charts, which only show what others
// came to.
func (e *Evaluation) own() (ids []int) {
	for _, d := range e.Program.Main.Defs {
		if !program.Is[*program.Chart](d) {
			ids = append(ids, d.ID)
		}
	}
	return ids
}

// State reports how far a definition came, and what it waits for.
func (e *Evaluation) State(d *program.Def) (report.State, string) {
	f := e.Fault(d)
	switch waits := e.Machine.Waits(d); {
	case !d.Failed && f != nil && e.waitsForCell(f):
		return report.Waiting, f.Cell
	case d.Failed || f != nil:
		return report.Failed, ""
	case waits != "":
		return report.Waiting, waits
	}
	return report.Evaluated, ""
}

// waitsForCell reports whether the reason of a fault is told at a cell, and not at
// the line that needs it.
func (e *Evaluation) waitsForCell(f *run.Fault) bool {
	return f.Cell != "" && (f.Told || f.Span.File == e.Source.Main.Name)
}

// Fault is why a definition could not be evaluated, or its uncertainty.
func (e *Evaluation) Fault(d *program.Def) *run.Fault {
	if f := e.Machine.Fault(d); f != nil || e.Uncertainty == nil {
		return f
	}
	return e.Uncertainty.Faults[d]
}
