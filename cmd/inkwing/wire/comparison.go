package wire

import "inkwing/evaluate/report"

// A Trial is what other inputs change.
type Trial struct {
	Schema int     `json:"schema"`
	Path   string  `json:"path"`
	Tried  []Tried `json:"tried"`
	// InTheWay are sentences on arguments that stand between what was tried and a result.
	InTheWay []string `json:"in_the_way"`
	Comparison
}

// A Tried is an input as it was tried.
type Tried struct {
	Name string `json:"name"`
	Text string `json:"text"` // as typed
}

// A Comparison is what is otherwise. Every list is there, if empty.
type Comparison struct {
	Broken   []Flip    `json:"limits_broken"`
	Mended   []Flip    `json:"limits_mended"`
	Doubted  []Flip    `json:"limits_in_doubt"` // hold, but not for all of the interval
	Failing  []Point   `json:"errors_new"`
	Working  []Point   `json:"errors_gone"`
	Changed  []Change  `json:"changed"`
	Added    []Value   `json:"added"`
	Gone     []Value   `json:"gone"`
	Verdicts []Verdict `json:"verdicts"` // of readings, that are others now
	Tables   []Rows    `json:"tables"`   // of which rows differ
}

// A Verdict is whether a measurement agrees, before and after.
type Verdict struct {
	Name string `json:"name"`
	Old  string `json:"old"` // empty for a new reading
	New  string `json:"new"`
}

// A Rows counts the rows of a table that differ.
type Rows struct {
	Verb string `json:"verb"` // vary, budget
	Name string `json:"name"`
	Rows int    `json:"rows"` // that differ
	Of   int    `json:"of"`
}

// A Flip is a limit that turned.
type Flip struct {
	Text     string `json:"text"`
	Worked   string `json:"worked"`
	Allowed  string `json:"allowed"`
	Headroom string `json:"headroom"`
	Margin
}

// A Point is a line in error.
type Point struct {
	Line    string `json:"line"` // the line's own text
	Summary string `json:"summary"`
	Hint    string `json:"hint"`
}

// A Change is a quantity that came to something else.
type Change struct {
	Name    string  `json:"name"`
	Old     Value   `json:"old"`
	New     Value   `json:"new"`
	Percent string  `json:"percent"` // empty where a share means nothing
	Shares  []Share `json:"shares,omitempty"`
}

// A Share is what one input has of a quantity's change.
type Share struct {
	Input  string  `json:"input"`
	Share  float64 `json:"share"`  // of the change, 1 for all of it
	Amount float64 `json:"amount"` // in the unit of si_unit
}

// A Value is a quantity on one side of a comparison.
type Value struct {
	Name string `json:"name,omitempty"`
	Scalar
	Waits string `json:"waits,omitempty"`
}

// OfTrial is the form of a trial: what was typed, and what it changes.
func OfTrial(path string, tried []Tried, c *report.Comparison, inTheWay []string) Trial {
	return Trial{Schema, path, append([]Tried{}, tried...), append([]string{}, inTheWay...), comparison(c)}
}

// comparison has every list, if empty.
func comparison(c *report.Comparison) Comparison {
	out := Comparison{[]Flip{}, []Flip{}, []Flip{}, []Point{}, []Point{}, []Change{}, []Value{}, []Value{}, []Verdict{}, []Rows{}}
	for _, l := range c.Broken {
		out.Broken = append(out.Broken, flip(l))
	}
	for _, l := range c.Mended {
		out.Mended = append(out.Mended, flip(l))
	}
	for _, l := range c.Doubtful {
		out.Doubted = append(out.Doubted, flip(l))
	}
	for _, v := range c.Verdicts {
		out.Verdicts = append(out.Verdicts, Verdict(v))
	}
	for _, x := range c.Tables {
		out.Tables = append(out.Tables, Rows(x))
	}
	for _, p := range c.Failing {
		out.Failing = append(out.Failing, Point{p.Line, p.Diagnostic.Summary, p.Diagnostic.Hint})
	}
	for _, p := range c.Working {
		out.Working = append(out.Working, Point{p.Line, p.Diagnostic.Summary, p.Diagnostic.Hint})
	}
	for _, d := range c.Changed {
		out.Changed = append(out.Changed, change(d))
	}
	for _, q := range c.Added {
		out.Added = append(out.Added, value(q, q.Name))
	}
	for _, q := range c.Gone {
		out.Gone = append(out.Gone, value(q, q.Name))
	}
	return out
}

// flip is a limit as it stands now, or stood, if it is gone.
func flip(x report.LimitChange) Flip {
	l := x.New
	if l == nil {
		l = x.Old
	}
	return Flip{l.Text, l.Value, l.Allowed, l.Headroom, margin(l.Margin)}
}

func change(d report.Difference) Change {
	x := Change{Name: d.New.Name, Old: value(d.Old, ""), New: value(d.New, ""), Percent: d.Percent}
	for _, s := range d.Shares {
		x.Shares = append(x.Shares, Share{s.Cause, s.Part, s.Amount})
	}
	return x
}

func value(q report.Quantity, name string) Value {
	return Value{name, scalar(q), q.Waits}
}
