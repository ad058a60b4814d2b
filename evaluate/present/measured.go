package present

import (
	"math"
	"strconv"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/show"
	"inkwing/evaluate/study"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
	"inkwing/units"
)

// How many standard uncertainties of their difference two values may lie apart:
// 2 is the interval that holds 95.45 %, 3 one that holds 99.7 %. It is the rule
// of the zeta score (ISO 13528, from memory).
const (
	agreeWithin    = 2
	doubtfulWithin = 3
)

// agreement is the rule, said once a sheet.
const agreement = "d is the difference in standard uncertainties: up to 2 they agree, up to 3 it is doubtful, beyond they disagree."

// measured presents what the bench or the field said against what was evaluated:
// rows of the block's one table of measurements. It reports whether the rule of
// agreement was applied.
func measured(w *working.Evaluation, t *report.Table, d *program.Def, m *program.Measurement) bool {
	state, waits := w.State(d)
	name := text(w, d.Stmt.(*syntax.Measured).Of.Place())
	if state == report.Waiting {
		t.Rows = append(t.Rows, []string{name, "—", "—", "—", "—", "—", "waits for `" + waits + "`"})
		t.Values = append(t.Values, make([]any, len(t.Columns)))
		return false
	}
	values := w.Machine.Value(d).(library.List)
	trials, several := values[1].(library.List)
	r := reading{w: w, d: d, m: m, table: t, value: values[0].(float64), operands: len(values)}
	if !several {
		r.row(name, values[1].(float64), 0)
		return r.judged
	}
	r.operands = 1 + len(trials)
	for i, v := range trials {
		r.row(name+", trial "+strconv.Itoa(i+1), v.(float64), i)
	}
	return r.judged
}

// measuredTable is the block's table of measurements, made if there is none yet.
func measuredTable(b *report.Block, d *program.Def) *report.Table {
	for i := range b.Tables {
		if b.Tables[i].Verb == "measured" {
			return &b.Tables[i]
		}
	}
	b.Tables = append(b.Tables, report.Table{Verb: "measured", Span: d.Stmt.Place(), Columns: []report.Column{
		{Head: "Measured", Code: true}, {Head: "Worked", Number: true}, {Head: "Reading", Number: true},
		{Head: "Difference", Number: true}, {Head: "%", Number: true, Detail: true}, {Head: "d", Number: true, Detail: true}, {Head: "Verdict"},
	}})
	return &b.Tables[len(b.Tables)-1]
}

// A reading is held against a value, one row for each trial.
type reading struct {
	w        *working.Evaluation
	d        *program.Def
	m        *program.Measurement
	table    *report.Table
	value    float64
	operands int  // of the statement, each trial as one
	judged   bool // some trial was held against its uncertainty
}

// row is the i-th trial of what the name was measured as.
func (r *reading) row(name string, read float64, i int) {
	typ, unit := r.m.Of.Type(), r.unit()
	apart := r.w.Leaf(r.d, r.operands+i)
	value, _ := show.Uncertain(typ, r.value, r.w.Leaf(r.d, 0), unit, digits(r.w, name))
	measured, _ := show.Uncertain(typ, read, r.w.Leaf(r.d, 1+i), unit, digits(r.w, name))
	row := []string{name, value, measured, difference(typ, read-r.value, apart, unit), shareOf(typ, read-r.value, r.value), "—", "—"}
	distance := any(nil)
	if apart.U > 0 {
		times := math.Abs(read-r.value) / standard(apart)
		distance = times
		row[5], row[6] = units.Number(times, 2), verdict(times)
		r.judged = true
	}
	r.table.Rows = append(r.table.Rows, row)
	r.table.Values = append(r.table.Values, []any{name, r.value, read, read - r.value, nil, distance, row[6]})
}

// unit is what both are shown in: that of the quantity, else the one that a side
// is written in.
func (r *reading) unit() units.Unit {
	if u := show.WrittenUnit(r.m.Of); !u.IsZero() {
		return u
	}
	return show.EitherUnit(r.d.Body.Operands())
}

// normal is how many standard uncertainties to either side hold 95 % of a normal
// distribution.
const normal = 1.959964

// standard is the u by which a difference is judged: of what was drawn, that of
// the normal distribution with an interval as long, since few readings have
// tails whose standard deviation says nothing, or does not exist.
func standard(s study.Combined) float64 {
	if s.Drawn {
		return (s.High - s.Low) / 2 / normal
	}
	return s.U
}

// difference writes a difference with its uncertainty.
func difference(t program.Type, x float64, u study.Combined, unit units.Unit) string {
	q := t.(program.Quantity)
	if q.Point { // 1 °C would be read as a temperature
		q.Point, unit = false, units.MustParse("K")
	}
	text, _ := show.Uncertain(q, x, u, unit, uncertaintyDigits+1)
	return text
}

// shareOf is a difference as a part of the evaluated value, in per cent; nothing on
// a temperature scale.
func shareOf(t program.Type, difference, value float64) string {
	if q := t.(program.Quantity); q.Point || value == 0 {
		return "—"
	}
	text := units.Number(100*difference/math.Abs(value), uncertaintyDigits)
	if difference > 0 {
		text = "+" + text
	}
	return text + " %"
}

func verdict(times float64) string {
	switch {
	case times <= agreeWithin:
		return report.Agree
	case times <= doubtfulWithin:
		return report.Doubtful
	}
	return report.Disagree
}
