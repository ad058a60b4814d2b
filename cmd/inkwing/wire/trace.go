package wire

import "inkwing/evaluate/report"

// An Against is worksheets beside what they were at a revision.
type Against struct {
	Schema     int     `json:"schema"`
	Against    string  `json:"against"`
	Worksheets []Trace `json:"worksheets"`
}

// A Trace is a worksheet, and what changed in it by what.
type Trace struct {
	Worksheet
	Causes     []Cause    `json:"changed_inputs"`
	Comparison Comparison `json:"comparison"`
}

// A Cause is an input or a formula that is otherwise.
type Cause struct {
	Name string `json:"name"`
	Old  string `json:"old"` // empty for what is new
	New  string `json:"new"` // empty for what is gone
}

// OfAgainst is the form of worksheets compared with a revision.
func OfAgainst(revision string, worksheets []Trace) Against {
	return Against{Schema, revision, append([]Trace{}, worksheets...)}
}

// OfTrace is the form of one of them; trace is nil where nothing was compared.
func OfTrace(o Outcome, trace *report.Trace) Trace {
	t := Trace{OfWorksheet(o), []Cause{}, comparison(&report.Comparison{})}
	if trace == nil {
		return t
	}
	for _, x := range trace.Causes {
		t.Causes = append(t.Causes, Cause(x))
	}
	t.Comparison = comparison(trace.Comparison)
	return t
}
