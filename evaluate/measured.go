package evaluate

import (
	"math"
	"strconv"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/study"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// How many standard uncertainties of their difference two values may lie apart:
// 2 is the interval that holds 95.45 %, 3 one that holds 99.7 %. It is the rule
// of the zeta score (ISO 13528, from memory).
const (
	agreeWithin    = 2
	doubtfulWithin = 3
)

// agreement is the rule, said once below the table.
const agreement = "d is the difference in standard uncertainties of the two together: up to 2 they agree, up to 3 it is doubtful, beyond they disagree."

// measured reports what the bench or the field said against what is worked. All
// of a block stand in one table.
func (w *worker) measured(d *program.Def, m *program.Measurement) {
	x := d.Stmt.(*syntax.Measured)
	state, waits := w.state(d)
	if state == report.Failed {
		return
	}
	t := w.measuredTable(d)
	name := w.textOf(x.Of.Place())
	if state == report.Waiting {
		t.Rows = append(t.Rows, []string{name, "—", "—", "—", "—", "—", "waits for `" + waits + "`"})
		t.Values = append(t.Values, make([]any, len(t.Columns)))
		return
	}
	values := w.machine.Value(d).(library.List)
	trials, several := values[1].(library.List)
	if !several {
		w.reading(t, d, m, name, values[0].(float64), values[1].(float64), 0)
		return
	}
	for i, v := range trials {
		w.reading(t, d, m, name+", trial "+strconv.Itoa(i+1), values[0].(float64), v.(float64), i)
	}
}

// measuredTable is the block's table of readings, made if there is none yet.
func (w *worker) measuredTable(d *program.Def) *report.Table {
	b := &w.out.Blocks[d.Block]
	for i := range b.Tables {
		if b.Tables[i].Verb == "measured" {
			return &b.Tables[i]
		}
	}
	b.Tables = append(b.Tables, report.Table{Verb: "measured", Span: d.Stmt.Place(), Columns: []report.Column{
		{Head: "Measured", Code: true}, {Head: "Worked", Number: true}, {Head: "Reading", Number: true},
		{Head: "Difference", Number: true}, {Head: "%", Number: true}, {Head: "d", Number: true}, {Head: "Verdict"},
	}})
	return &b.Tables[len(b.Tables)-1]
}

// reading is one row: the i-th trial of what the name was measured as.
func (w *worker) reading(t *report.Table, d *program.Def, m *program.Measurement, name string, worked, read float64, i int) {
	typ := m.Of.Type()
	unit := shownIn(m.Of)
	if unit.IsZero() {
		unit = writtenUnit(d.Body.Operands())
	}
	trials := len(w.machine.Value(d).(library.List))
	if list, ok := w.machine.Value(d).(library.List)[1].(library.List); ok {
		trials = 1 + len(list)
	}
	a, b := w.leaf(d, 0), w.leaf(d, 1+i)
	apart := w.leaf(d, trials+i)
	first, _ := w.showSpread(typ, worked, a, unit, w.digits(name))
	second, _ := w.showSpread(typ, read, b, unit, w.digits(name))
	row := []string{name, first, second, w.apart(typ, read-worked, apart, unit), shareOf(typ, read-worked, worked), "—", "—"}
	distance := any(nil)
	if apart.U > 0 {
		times := math.Abs(read-worked) / standard(apart)
		distance = times
		row[5], row[6] = units.Number(times, 2), verdict(times)
		putRule(t)
	}
	t.Rows = append(t.Rows, row)
	t.Values = append(t.Values, []any{name, worked, read, read - worked, nil, distance, row[6]})
}

// normal is how many standard uncertainties to either side hold 95 % of a normal
// distribution.
const normal = 1.959964

// standard is the u by which a difference is judged: of what was drawn, that of
// the normal distribution with an interval as long, since few readings have
// tails whose standard deviation says nothing, or does not exist.
func standard(s study.Spread) float64 {
	if s.Drawn {
		return (s.High - s.Low) / 2 / normal
	}
	return s.U
}

// putRule puts the rule of agreement below the table, once.
func putRule(t *report.Table) {
	if t.Notes == nil {
		t.Notes = []string{agreement}
	}
}

// apart writes a difference with its spread.
func (w *worker) apart(t program.Type, difference float64, s study.Spread, unit units.Unit) string {
	q := t.(program.Quantity)
	if q.Point { // 1 °C would be read as a temperature
		q.Point, unit = false, units.MustParse("K")
	}
	text, _ := w.showSpread(q, difference, s, unit, spreadDigits+1)
	return text
}

// shareOf is a difference as a part of the worked value, in per cent; nothing on
// a temperature scale.
func shareOf(t program.Type, difference, worked float64) string {
	if q := t.(program.Quantity); q.Point || worked == 0 {
		return "—"
	}
	text := units.Number(100*difference/math.Abs(worked), spreadDigits)
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
