package present

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/show"
	"inkwing/evaluate/study"
	"inkwing/units"
)

// headlines is how many fields of a record a region shows where none is marked.
const headlines = 5

// quantity presents a definition, a record by its fields.
func (p *presenter) quantity(d *program.Def) {
	state, waits := p.w.State(d)
	q := report.Quantity{
		Name: d.Name, Path: d.Sheet.Name, Span: d.Place, Block: d.Block,
		State: state, Waits: waits, Shown: "—", Given: d.IsInput(), Note: d.Stmt.Common().Note,
		Headline: (!d.IsInput() || isConverted(d)) && state != report.Failed,
	}
	if state != report.Evaluated {
		p.add(q)
		return
	}
	p.flatten(q, d, nil, d.Type, p.w.Machine.Value(d), d.Written())
}

// isConverted reports whether a plain value is shown in another unit than the one
// it is written in.
func isConverted(d *program.Def) bool {
	v, ok := d.Body.(*program.Value)
	return ok && v.Converted
}

// flatten adds a value, or the fields of a record; lists and tables have no row.
func (p *presenter) flatten(q report.Quantity, d *program.Def, path []int, t program.Type, value any, unit units.Unit) {
	if _, never := value.(library.Never); value == nil || never {
		return // a field that the function could not give, or that is not reached
	}
	record, isRecord := t.(*program.Record)
	if !isRecord {
		if p.fill(&q, d, path, t, value, unit) {
			p.add(q)
		}
		return
	}
	marked := false
	for _, f := range record.Fields {
		marked = marked || f.Headline > 0
	}
	for _, i := range show.InOrder(record.Fields) {
		f := q
		f.Name += "." + record.Fields[i].Name
		f.Headline = q.Headline && (record.Fields[i].Headline > 0 || !marked && i < headlines)
		p.flatten(f, d, append(path[:len(path):len(path)], i), record.Fields[i].Type, value.(library.Record)[i], record.Fields[i].Unit)
	}
}

// fill puts a scalar's value and text in; false for what is no scalar.
func (p *presenter) fill(q *report.Quantity, d *program.Def, path []int, t program.Type, value any, unit units.Unit) bool {
	kind, isNumber := t.(program.Quantity)
	u := study.Spread{}
	if isNumber {
		u = p.w.UncertaintyOf(d, path)
	}
	shown, ok := show.Uncertain(t, value, u, unit, digits(p.w, q.Name))
	if !ok {
		return false
	}
	q.Value, q.Shown = value, shown
	if isNumber {
		q.Kind, q.Unit = kind.Kind, unit
		p.certainty(q, kind, u)
	}
	return true
}

// certainty puts in how sure a number is, and what may mislead about that.
func (p *presenter) certainty(q *report.Quantity, kind program.Quantity, u study.Spread) {
	q.SIUnit, q.Point = kind.Dim.SIUnit(), kind.Point
	q.Uncertainty = reported(u)
	if u.Drawn {
		q.Value = u.Mean
	}
	if q.Headline && u.Misleads != "" {
		p.rough.add(q.Block, u.Misleads, q.Name)
	}
	if q.Headline && u.Failed > 0 {
		p.rough.add(q.Block, units.Number(100*u.Failed, uncertaintyDigits)+" % of the draws cannot be worked", q.Name)
	}
}
