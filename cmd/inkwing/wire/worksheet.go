package wire

import (
	"math"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/worksheet"
)

// A Worksheet is what became of one. Every list is there, if empty.
type Worksheet struct {
	Path       string     `json:"path"`
	Changed    bool       `json:"changed"`
	Quantities []Quantity `json:"quantities"`
	Limits     []Limit    `json:"limits"`
	UsedLimits []Limit    `json:"used_limits,omitempty"` // of the worksheets that it uses, worked here
	Overview   *Overview  `json:"overview,omitempty"`    // where the worksheet asks for one
	Cautions   []Caution  `json:"cautions"`
	Tables     []Table    `json:"tables"`
	Charts     []Chart    `json:"charts"`
	Notes      []string   `json:"notes,omitempty"` // of the blocks: which intervals are rough, and why
	Errors     []Error    `json:"errors"`
	Rules      []Rule     `json:"rules,omitempty"` // of the house, where it was held against them
}

// A Rule is a rule of the house, and where a worksheet breaks it.
type Rule struct {
	Text   string  `json:"text"`
	Broken []Error `json:"broken"`
}

// A Quantity is a named result, or one field of a record.
type Quantity struct {
	Name string `json:"name"`
	Path string `json:"path,omitempty"` // of the used file that defines it
	Line int    `json:"line"`
	Scalar
	U     *float64 `json:"u"`             // standard uncertainty in SI; null where nothing uncertain bears on it
	DOF   *float64 `json:"dof"`           // degrees of freedom; null where infinite
	Low   *float64 `json:"low,omitempty"` // the shortest interval that holds 95 % of the draws
	High  *float64 `json:"high,omitempty"`
	Given bool     `json:"given"`
	Note  string   `json:"note"`
}

// A Scalar is one value, as number and as text.
type Scalar struct {
	SI     *float64 `json:"si"` // null for a truth, a text, a record, and what is not worked
	SIUnit string   `json:"si_unit"`
	Value  any      `json:"value,omitempty"` // of a truth or text
	Shown  string   `json:"shown"`
}

// A Limit is a bound of the builder's own.
type Limit struct {
	Of       string `json:"of,omitempty"` // the name under which its worksheet is used
	Line     int    `json:"line"`
	Text     string `json:"text"`
	Holds    *bool  `json:"holds"` // null for one that is not worked
	Worked   string `json:"worked"`
	Allowed  string `json:"allowed"`
	Headroom string `json:"headroom"`
	Straddle bool   `json:"straddle,omitempty"`       // true or not so within the interval
	Never    bool   `json:"does_not_arise,omitempty"` // what it speaks of is never reached; it holds
	Margin
}

// A Margin is a limit in numbers, in SI: all null where it could not be worked.
type Margin struct {
	SIUnit   string   `json:"si_unit"`
	Value    *float64 `json:"worked_si"`
	Low      *float64 `json:"low_si"` // what is allowed: at least, at most
	High     *float64 `json:"high_si"`
	Headroom *float64 `json:"headroom_si"`    // to the nearer of them, negative beyond it
	Ratio    *float64 `json:"headroom_ratio"` // of that one; null beside 0 and on a temperature scale
}

// A Caution is a point to stop at.
type Caution struct {
	ID     string `json:"id"`
	Kind   string `json:"kind"`
	Level  string `json:"level"`
	Line   int    `json:"line"`
	Text   string `json:"text"`
	Source string `json:"source"`
}

// An Error is a mistake, with its place.
type Error struct {
	Path      string `json:"path,omitempty"` // when it is not the worksheet's own
	Line      int    `json:"line"`           // 0 when the file as a whole is concerned
	Column    int    `json:"column"`
	EndColumn int    `json:"end_column"`
	Summary   string `json:"summary"`
	Hint      string `json:"hint"`
}

// An Outcome is what became of one worksheet, as the command knows it.
type Outcome struct {
	Path        string            // what the builder calls it
	Fault, Hint string            // why it could not be worked or written; empty for none
	Result      *worksheet.Result // nil where it could not be read
	Written     bool              // the files are what they should be now
	Checked     bool              // by a run that asks whether the results are up to date
	Stale       bool              // and they are not
	Rules       []Judged          // of the house, where there are any
	Places      Places            // of Result
}

// OfWorksheet is the form of one outcome.
func OfWorksheet(o Outcome) Worksheet {
	w := Worksheet{Path: o.Path, Quantities: []Quantity{}, Limits: []Limit{}, Cautions: []Caution{}, Tables: []Table{}, Charts: []Chart{}, Errors: []Error{}}
	if o.Fault != "" {
		w.Errors = append(w.Errors, Error{Summary: o.Fault, Hint: o.Hint})
	}
	if o.Result == nil {
		return w
	}
	w.Changed = o.Result.Changed() && o.Fault == ""
	f := former{o.Places, o.Result.Path}
	w.Charts = append(w.Charts, f.charts(o)...)
	for _, d := range o.Result.Refused {
		w.Errors = append(w.Errors, f.error(d))
	}
	if o.Result.Report != nil {
		w.add(o.Result.Report, f)
	}
	for _, j := range o.Rules {
		rule := Rule{Text: j.Text, Broken: []Error{}}
		for _, d := range j.Broken {
			rule.Broken = append(rule.Broken, f.error(d))
		}
		w.Rules = append(w.Rules, rule)
	}
	return w
}

// A former makes the forms of one worksheet.
type former struct {
	places Places
	name   string // under which the run knows the worksheet
}

func (f former) line(s message.Span) int {
	line, _, _ := f.places.At(s)
	return line
}

// other is what the builder calls another file; empty for the worksheet itself.
func (f former) other(file string) string {
	if file == "" || file == f.name {
		return ""
	}
	return f.places.Display(file)
}

func (w *Worksheet) add(r *report.Report, f former) {
	for _, q := range r.Quantities {
		w.Quantities = append(w.Quantities, f.quantity(q))
	}
	for _, l := range r.Limits {
		w.Limits = append(w.Limits, f.limit(l))
	}
	for _, l := range r.UsedLimits {
		w.UsedLimits = append(w.UsedLimits, f.limit(l))
	}
	for _, c := range r.Cautions {
		w.Cautions = append(w.Cautions, Caution{c.ID, kinds[c.Kind], c.Level.String(), f.line(c.Span), c.Text, c.Source})
	}
	for _, b := range r.Blocks {
		for _, t := range b.Tables {
			w.Tables = append(w.Tables, f.table(t))
		}
		w.Notes = append(w.Notes, b.Notes...)
		if b.Overview != nil {
			w.Overview = overview(b.Overview)
		}
	}
	for _, d := range r.Errors {
		w.Errors = append(w.Errors, f.error(d))
	}
}

var kinds = map[report.Kind]string{report.OfLimit: "limit", report.OfModel: "model", report.OfStanding: "standing"}

func (f former) limit(l report.Limit) Limit {
	x := Limit{Of: l.Of, Line: f.line(l.Span), Text: l.Text, Worked: l.Value, Allowed: l.Allowed, Straddle: l.Straddle, Never: l.Never, Headroom: l.Headroom, Margin: margin(l.Margin)}
	if l.State == report.Evaluated {
		x.Holds = &l.Holds
	}
	return x
}

func margin(m *report.Margin) Margin {
	if m == nil {
		return Margin{}
	}
	return Margin{m.SIUnit, &m.Value, m.Low, m.High, held(&m.Headroom), held(m.Ratio)}
}

// held is a number that JSON can hold: beside the largest and the smallest there
// are, a difference or a share may overflow.
func held(x *float64) *float64 {
	if x == nil || math.IsInf(*x, 0) || math.IsNaN(*x) {
		return nil
	}
	return x
}

func (f former) quantity(q report.Quantity) Quantity {
	x := Quantity{Name: q.Name, Path: f.other(q.Path), Line: f.line(q.Span), Scalar: scalar(q), Given: q.Given, Note: q.Note}
	x.spread(q.Uncertainty)
	return x
}

func scalar(q report.Quantity) Scalar {
	x := Scalar{SIUnit: q.SIUnit(), Shown: q.Shown}
	switch v := q.Value.(type) {
	case float64:
		x.SI = &v
	case bool, string:
		x.Value = v
	}
	return x
}

func (x *Quantity) spread(s report.Uncertainty) {
	if s.U > 0 && !math.IsInf(s.U, 0) {
		x.U = &s.U
		if !math.IsInf(s.DegreesOfFreedom, 1) {
			x.DOF = &s.DegreesOfFreedom
		}
	}
	if s.Drawn {
		x.Low, x.High = &s.Low, &s.High
	}
}

func (f former) error(d message.Diagnostic) Error {
	line, column, end := f.places.At(d.Span)
	return Error{Path: f.other(d.Span.File), Line: line, Column: column, EndColumn: end, Summary: d.Summary, Hint: d.Hint}
}
