package evaluate

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/study"
	"inkwing/units"
)

// headlines is how many fields of a record a region shows where none is marked.
const headlines = 5

// quantity reports a definition, a record by its fields.
func (w *worker) quantity(d *program.Def) {
	state, waits := w.state(d)
	q := report.Quantity{
		Name: d.Name, Path: d.Sheet.Name, Span: d.Place, Block: d.Block,
		State: state, Waits: waits, Shown: "—", Given: d.IsInput(), Note: d.Stmt.Common().Note,
		Headline: (!d.IsInput() || isConverted(d)) && state != report.Failed,
	}
	if state != report.Evaluated {
		w.add(q)
		return
	}
	w.flatten(q, d, nil, d.Type, w.machine.Value(d), d.Written())
}

// isConverted reports whether a plain value is shown in another unit than the one
// it is written in.
func isConverted(d *program.Def) bool {
	v, ok := d.Body.(*program.Value)
	return ok && v.Converted
}

func (w *worker) add(q report.Quantity) {
	w.out.Quantities = append(w.out.Quantities, q)
	if q.Headline {
		b := &w.out.Blocks[q.Block]
		b.Rows = append(b.Rows, q)
	}
}

// flatten adds a value, or the fields of a record; lists and tables have no row.
func (w *worker) flatten(q report.Quantity, d *program.Def, path []int, t program.Type, value any, unit units.Unit) {
	if value == nil {
		return // a field that the function could not work
	}
	record, isRecord := t.(*program.Record)
	if !isRecord {
		if w.fill(&q, d, path, t, value, unit) {
			w.add(q)
		}
		return
	}
	marked := false
	for _, f := range record.Fields {
		marked = marked || f.Headline > 0
	}
	for _, i := range inOrder(record.Fields) {
		f := q
		f.Name += "." + record.Fields[i].Name
		f.Headline = q.Headline && (record.Fields[i].Headline > 0 || !marked && i < headlines)
		w.flatten(f, d, append(path[:len(path):len(path)], i), record.Fields[i].Type, value.(library.Record)[i], record.Fields[i].Unit)
	}
}

// inOrder lists the fields, the marked ones first in their order.
func inOrder(fields []program.Field) []int {
	var order []int
	for rank := 1; rank <= len(fields); rank++ {
		for i, f := range fields {
			if f.Headline == rank {
				order = append(order, i)
			}
		}
	}
	for i, f := range fields {
		if f.Headline == 0 || f.Headline > len(fields) {
			order = append(order, i)
		}
	}
	return order
}

// fill puts a scalar's value and text in; false for what is no scalar.
func (w *worker) fill(q *report.Quantity, d *program.Def, path []int, t program.Type, value any, unit units.Unit) bool {
	kind, isNumber := t.(program.Quantity)
	s := study.Spread{}
	if isNumber {
		s = w.spread(d, path)
	}
	shown, ok := w.showSpread(t, value, s, unit, w.digits(q.Name))
	if !ok {
		return false
	}
	q.Value, q.Shown = value, shown
	if isNumber {
		q.Kind, q.Unit = kind.Kind, unit
		w.sureOf(q, kind, s)
	}
	return true
}

// sureOf puts in how sure a number is, and what may mislead about that.
func (w *worker) sureOf(q *report.Quantity, kind program.Quantity, s study.Spread) {
	q.SIUnit, q.Point = kind.Dim.SIUnit(), kind.Point
	q.Uncertainty = said(s)
	if s.Drawn {
		q.Value = s.Mean
	}
	if q.Headline && s.Misleads != "" {
		w.doubt(q.Block, s.Misleads, q.Name)
	}
	if q.Headline && s.Failed > 0 {
		w.doubt(q.Block, units.Number(100*s.Failed, spreadDigits)+" % of the draws cannot be worked", q.Name)
	}
}
