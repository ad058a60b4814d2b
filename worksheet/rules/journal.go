package rules

import (
	"math"

	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/units"
)

// A Journal is a report as rows. It serves one goroutine.
type Journal struct {
	name    string
	report  *report.Report
	source  *message.Source
	rows    map[string][]row
	machine *machine
}

// NewJournal makes rows of a report; name is what people call it, and text what
// it was worked from.
func NewJournal(name string, r *report.Report, text []byte) *Journal {
	return &Journal{name: name, report: r, source: message.NewSource(name, text), rows: map[string][]row{}, machine: newMachine()}
}

// of lists the rows of a subject.
func (j *Journal) of(s Subject) []row {
	list, ok := j.rows[s.Name]
	if !ok {
		list = j.make(s.Name)
		j.rows[s.Name] = list
	}
	return list
}

func (j *Journal) make(subject string) []row {
	switch subject {
	case "quantity":
		return j.quantities(false)
	case "given":
		return j.quantities(true)
	case "limit":
		return each(j.report.Limits, j.limit)
	case "caution":
		return each(j.report.Cautions, j.caution)
	case "table":
		return each(j.tables(), j.table)
	case "error":
		return each(j.report.Errors, j.mistake)
	}
	return each(j.charts(), j.chart)
}

func each[T any](list []T, make func(T) row) (rows []row) {
	for _, x := range list {
		rows = append(rows, make(x))
	}
	return rows
}

// common is what a row at a place tells.
func (j *Journal) common(at message.Span) common {
	c := common{Journal: j.name, span: at}
	if at.File == j.report.Sheet || at.File == "" {
		line, _ := j.source.Position(at.Start)
		c.Line = float64(line)
	}
	return c
}

// quantities are the journal's own, and not those of pages that it uses.
func (j *Journal) quantities(given bool) (rows []row) {
	for _, q := range j.report.Quantities {
		if q.Path == j.report.Sheet && (q.Given || !given) {
			rows = append(rows, j.quantity(q))
		}
	}
	return rows
}

func (j *Journal) quantity(q report.Quantity) row {
	r := &quantityRow{common: j.common(q.Span), Name: q.Name, Unit: q.SIUnit(), Given: q.Given, Note: q.Note,
		Failed: q.State != report.Evaluated, Value: math.NaN(), Uncertainty: 0, shown: q.Shown}
	if _, ok := q.Value.(float64); ok {
		r.kind, r.own = &q.Kind, q.Unit
	}
	switch x := q.Value.(type) {
	case float64:
		r.Value = x
	case bool:
		r.Holds, r.truth = x, true
	case string:
		r.Words = x
	}
	r.Uncertain, r.Uncertainty = q.Uncertainty.U > 0, q.Uncertainty.Expanded
	r.Low, r.High = r.Value-r.Uncertainty, r.Value+r.Uncertainty
	if q.Uncertainty.Drawn {
		r.Low, r.High = q.Uncertainty.Low, q.Uncertainty.High
		r.Uncertainty = (r.High - r.Low) / 2
	}
	return r
}

func (j *Journal) limit(l report.Limit) row {
	r := &limitRow{common: j.common(l.Span), Text: l.Text, Kept: l.Holds, Doubtful: l.Straddle, Advice: l.Advice,
		Failed: l.State != report.Evaluated, Worked: math.NaN(), Allowed: math.NaN(), Headroom: math.NaN(), shown: [2]string{l.Value, l.Allowed}}
	if m := l.Margin; m != nil {
		r.measure(m)
	}
	return r
}

// measure puts the numbers in, with the bound that lies nearer.
func (r *limitRow) measure(m *report.Margin) {
	u, err := units.Parse(m.SIUnit)
	if err != nil {
		return
	}
	kind := u.Kind
	kind.Point = m.SIUnit == "K" && m.Ratio == nil // a share means nothing there
	r.kind, r.Worked = &kind, m.Value
	switch {
	case m.High == nil && m.Low != nil, m.High != nil && m.Low != nil && m.Value-*m.Low == m.Headroom:
		r.Allowed = *m.Low
	case m.High != nil:
		r.Allowed = *m.High
	}
	if m.Ratio != nil {
		r.Headroom = *m.Ratio
	}
}

func (j *Journal) caution(c report.Caution) row {
	return &cautionRow{common: j.common(c.Span), ID: c.ID, Text: c.Text, Source: c.Source,
		Kind: kindNames[c.Kind], Level: levelNames[c.Level]}
}

var kindNames = map[report.Kind]string{report.OfLimit: "limit", report.OfModel: "model", report.OfStanding: "standing"}

var levelNames = map[model.Level]string{model.Advice: "advice", model.Warning: "warning", model.Danger: "danger"}

func (j *Journal) tables() (list []report.Table) {
	for _, b := range j.report.Blocks {
		list = append(list, b.Tables...)
	}
	return list
}

func (j *Journal) table(t report.Table) row {
	r := &tableRow{common: j.common(t.Span), Verb: t.Verb, Name: t.Name, Rows: float64(len(t.Rows)), Failed: t.State != report.Evaluated}
	for _, c := range t.Columns {
		r.Columns = append(r.Columns, c.Head)
	}
	return r
}

func (j *Journal) mistake(d message.Diagnostic) row {
	return &errorRow{common: j.common(d.Span), Summary: d.Summary, Hint: d.Hint}
}

func (j *Journal) charts() (list []report.Chart) {
	for _, b := range j.report.Blocks {
		list = append(list, b.Charts...)
	}
	return list
}

func (j *Journal) chart(c report.Chart) row {
	return &chartRow{common: j.common(c.Span), Title: c.Title, Shows: c.Alt, Failed: c.State != report.Evaluated}
}
