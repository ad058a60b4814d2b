package main

import "inkwing/evaluate/report"

type jsonTrial struct {
	Schema int         `json:"schema"`
	Path   string      `json:"path"`
	Tried  []jsonTried `json:"tried"`
	jsonComparison
}

type jsonTried struct {
	Name string `json:"name"`
	Text string `json:"text"` // as typed
}

type jsonComparison struct {
	Broken   []jsonFlip    `json:"limits_broken"`
	Mended   []jsonFlip    `json:"limits_mended"`
	Doubted  []jsonFlip    `json:"limits_in_doubt"` // hold, but not for all of the interval
	Failing  []jsonPoint   `json:"errors_new"`
	Working  []jsonPoint   `json:"errors_gone"`
	Changed  []jsonChange  `json:"changed"`
	Added    []jsonValue   `json:"added"`
	Gone     []jsonValue   `json:"gone"`
	Verdicts []jsonVerdict `json:"verdicts"` // of readings, that are others now
	Tables   []jsonRows    `json:"tables"`   // of which rows differ
}

type jsonVerdict struct {
	Name string `json:"name"`
	Old  string `json:"old"` // empty for a new reading
	New  string `json:"new"`
}

type jsonRows struct {
	Verb string `json:"verb"` // vary, budget
	Name string `json:"name"`
	Rows int    `json:"rows"` // that differ
	Of   int    `json:"of"`
}

type jsonFlip struct {
	Text     string `json:"text"`
	Worked   string `json:"worked"`
	Allowed  string `json:"allowed"`
	Headroom string `json:"headroom"`
}

type jsonPoint struct {
	Line    string `json:"line"` // the line's own text
	Summary string `json:"summary"`
	Hint    string `json:"hint"`
}

type jsonChange struct {
	Name    string      `json:"name"`
	Old     jsonValue   `json:"old"`
	New     jsonValue   `json:"new"`
	Percent string      `json:"percent"` // empty where a share means nothing
	Shares  []jsonShare `json:"shares,omitempty"`
}

type jsonShare struct {
	Input  string  `json:"input"`
	Share  float64 `json:"share"`  // of the change, 1 for all of it
	Amount float64 `json:"amount"` // in the unit of si_unit
}

type jsonValue struct {
	Name string `json:"name,omitempty"`
	jsonScalar
	Waits string `json:"waits,omitempty"`
}

func (x *trial) report(o *opened, c *report.Comparison, now *report.Report) jsonTrial {
	out := jsonTrial{Schema: schema, Path: o.shown, Tried: []jsonTried{}, jsonComparison: comparisonJSON(c)}
	for _, change := range x.changes {
		out.Tried = append(out.Tried, jsonTried{change.Name(), change.Text})
	}
	if len(x.show) > 0 {
		out.Changed = x.chosen(c, now)
	}
	return out
}

// chosen are the quantities behind --show, those that did not change too.
func (x *trial) chosen(c *report.Comparison, now *report.Report) []jsonChange {
	out := []jsonChange{}
	for _, name := range x.show {
		changed := map[string]bool{}
		for _, d := range c.Changed {
			if isOf(d.New.Name, name) {
				changed[d.New.Name] = true
				out = append(out, changeJSON(d))
			}
		}
		for _, q := range named(now, name) {
			if !changed[q.Name] {
				out = append(out, changeJSON(report.Difference{Old: q, New: q}))
			}
		}
	}
	return out
}

// comparisonJSON has every list, if empty.
func comparisonJSON(c *report.Comparison) jsonComparison {
	out := jsonComparison{[]jsonFlip{}, []jsonFlip{}, []jsonFlip{}, []jsonPoint{}, []jsonPoint{}, []jsonChange{}, []jsonValue{}, []jsonValue{}, []jsonVerdict{}, []jsonRows{}}
	for _, l := range c.Broken {
		out.Broken = append(out.Broken, flipJSON(l))
	}
	for _, l := range c.Mended {
		out.Mended = append(out.Mended, flipJSON(l))
	}
	for _, l := range c.Doubtful {
		out.Doubted = append(out.Doubted, flipJSON(l))
	}
	for _, v := range c.Verdicts {
		out.Verdicts = append(out.Verdicts, jsonVerdict(v))
	}
	for _, x := range c.Tables {
		out.Tables = append(out.Tables, jsonRows(x))
	}
	for _, p := range c.Failing {
		out.Failing = append(out.Failing, jsonPoint{p.Line, p.Diagnostic.Summary, p.Diagnostic.Hint})
	}
	for _, p := range c.Working {
		out.Working = append(out.Working, jsonPoint{p.Line, p.Diagnostic.Summary, p.Diagnostic.Hint})
	}
	for _, d := range c.Changed {
		out.Changed = append(out.Changed, changeJSON(d))
	}
	for _, q := range c.Added {
		out.Added = append(out.Added, valueJSON(q, q.Name))
	}
	for _, q := range c.Gone {
		out.Gone = append(out.Gone, valueJSON(q, q.Name))
	}
	return out
}

// flipJSON is a limit as it stands now, or stood, if it is gone.
func flipJSON(x report.LimitChange) jsonFlip {
	l := x.New
	if l == nil {
		l = x.Old
	}
	return jsonFlip{l.Text, l.Worked, l.Allowed, l.Headroom}
}

func changeJSON(d report.Difference) jsonChange {
	x := jsonChange{Name: d.New.Name, Old: valueJSON(d.Old, ""), New: valueJSON(d.New, ""), Percent: d.Percent}
	for _, s := range d.Shares {
		x.Shares = append(x.Shares, jsonShare{s.Cause, s.Part, s.Amount})
	}
	return x
}

func valueJSON(q report.Quantity, name string) jsonValue {
	return jsonValue{name, scalarJSON(q), q.Waits}
}
