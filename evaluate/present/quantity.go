package present

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/show"
	"inkwing/evaluate/study"
	"inkwing/units"
)

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
	f := flattening{presenter: p, def: d}
	f.add(q, nil, d.Type, p.w.Machine.Value(d), d.Written())
}

// isConverted reports whether a plain value is shown in another unit than the one
// it is written in.
func isConverted(d *program.Def) bool {
	v, ok := d.Body.(*program.Value)
	return ok && v.Converted
}

// flattening adds a value, or the fields of a record.
type flattening struct {
	*presenter
	def    *program.Def
	always bool // its rows are listed whatever else the page says
}

// add lists of the fields those that are marked for it and are no echo of what was
// given; of a list or table, one line on what it holds.
func (f *flattening) add(q report.Quantity, path []int, t program.Type, value any, unit units.Unit) {
	if _, never := value.(library.Never); value == nil || never {
		return // a field that the function could not give, or that is not reached
	}
	record, isRecord := t.(*program.Record)
	if !isRecord {
		f.leaf(q, path, t, value, unit)
		return
	}
	for _, i := range show.InOrder(record.Fields) {
		field := record.Fields[i]
		part, of := q, value.(library.Record)[i]
		part.Name += "." + field.Name
		part.Headline = q.Headline && field.Headline > 0 && !echoes(f.w, f.def, field.Name, of)
		f.add(part, append(path[:len(path):len(path)], i), field.Type, of, field.Unit)
	}
}

func (f *flattening) leaf(q report.Quantity, path []int, t program.Type, value any, unit units.Unit) {
	if f.fill(&q, f.def, path, t, value, unit) {
		f.out.Quantities = append(f.out.Quantities, q)
	} else if text, ok := several(t, value, unit, digits(f.w, q.Name)); ok {
		q.Shown = text
	} else {
		return
	}
	if q.Headline {
		f.list(q, f.always)
	}
}

// fill puts a scalar's value and text in; false for what is no scalar.
func (p *presenter) fill(q *report.Quantity, d *program.Def, path []int, t program.Type, value any, unit units.Unit) bool {
	kind, isNumber := t.(program.Quantity)
	u := study.Combined{}
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
func (p *presenter) certainty(q *report.Quantity, kind program.Quantity, u study.Combined) {
	q.Point = kind.Point
	q.Uncertainty = reported(u)
	if u.Drawn {
		q.Value = u.Mean
	}
	if q.Headline && u.Median {
		p.medians = append(p.medians, message.Quote(q.Name))
	}
	if q.Headline && u.Misleads != "" {
		p.rough.add(q.Block, u.Misleads, q.Name)
	}
	if q.Headline && u.Failed > 0 {
		p.rough.add(q.Block, units.Number(100*u.Failed, uncertaintyDigits)+" % of the draws cannot be worked", q.Name)
	}
}
