// Package attribute finds what changed the quantities of a sheet between two
// versions of it, and how much each cause has of every change.
//
// [Trace] is its one verb.
package attribute

import (
	"context"

	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/working"
)

// A Version is a sheet as it was evaluated at some time, and what was reported of
// it.
type Version struct {
	Evaluation *working.Evaluation
	Report     *report.Report
}

// Trace compares two versions of one sheet. How much of a quantity's change each
// cause has is found by evaluating the sheet with only some of the causes: for up to
// [MaxAverage] of them by the average over all orders in which they may come in one
// by one (Shapley 1953), for more by the average of coming in first and coming in
// last, scaled to sum to the whole change. A quantity that cannot be evaluated with
// only some of them has no shares.
func Trace(ctx context.Context, old, now Version) *report.Trace {
	t := &tracer{ctx: ctx, old: edition{old.Evaluation}, now: edition{now.Evaluation}}
	t.find()
	c := &report.Trace{Comparison: report.Compare(old.Report, now.Report), Old: old.Report, Now: now.Report}
	for _, e := range t.elements {
		c.Causes = append(c.Causes, e.Cause)
	}
	c.Causes = append(c.Causes, t.apart...)
	t.share(c.Changed)
	return c
}

// An edition is a version as it was read and evaluated.
type edition struct{ w *working.Evaluation }

// sheetNamed is a checked sheet, nil for one that is data or not there.
func (e edition) sheetNamed(name string) *program.Sheet {
	for _, s := range e.w.Program.Sheets {
		if s.Name == name {
			return s
		}
	}
	return nil
}

// A tracer evaluates mixtures of two editions.
type tracer struct {
	ctx      context.Context
	old, now edition
	elements []element
	apart    []report.Cause  // what is new or gone, and can stand in any mixture
	both     map[string]bool // those, by sheet and key
	at       map[string]int  // the element that has something, by sheet and key
	cellwise map[string]bool // tables told cell by cell, by sheet and key
}

// An element is what a cause is made of: a statement, a table or a cell, found
// by its key in its sheet.
type element struct {
	report.Cause
	sheet, key string
}
