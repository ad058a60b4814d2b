package evaluate

import (
	"math"
	"strings"

	"inkwing/evaluate/check"
	"inkwing/evaluate/study"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// budget reports what the uncertainty of a value is made of, the largest part
// first (JCGM 100:2008, 7.2.7 and table H.1).
func (w *worker) budget(d *check.Def) {
	x := d.Stmt.(*syntax.Budget)
	state, waits := w.state(d)
	name := w.textOf(x.Of.Place())
	t := Table{Verb: "budget", Name: name, Span: x.Span, State: state, Waits: waits}
	if state == Failed {
		return
	}
	if state == Worked {
		w.budgetRows(&t, d)
	}
	b := &w.out.Blocks[d.Block]
	b.Tables = append(b.Tables, t)
}

func (w *worker) budgetRows(t *Table, d *check.Def) {
	var parts []study.Part
	if w.sure != nil {
		parts = w.sure.Parts(d, 0)
	}
	s := w.spread(d, nil)
	if len(parts) == 0 {
		t.Notes = []string{"Nothing uncertain bears on `" + t.Name + "`: write a spread behind an input, as in `10 V ± 0.1 V`."}
		return
	}
	finite := false
	for _, p := range parts {
		finite = finite || !math.IsInf(p.Freedom, 1)
	}
	t.Columns = budgetColumns(d, finite)
	b := &budgeting{worker: w, table: t, def: d, total: s.U, finite: finite, unit: spreadUnit(d, s.U)}
	var idle []string
	for _, p := range parts {
		if p.U == 0 && len(p.Inputs) == 1 {
			idle = append(idle, ticked(p.Inputs[0].Name))
			continue
		}
		b.part(p)
	}
	t.Notes = append(t.Notes, b.sum(t.Name, s))
	if len(idle) > 0 {
		t.Notes = append(t.Notes, "Without effect to first order: "+enumerated(idle))
	}
}

// budgeting writes the rows of one budget, all contributions in one unit.
type budgeting struct {
	*worker
	table  *Table
	def    *check.Def
	total  float64
	finite bool // some input has finite degrees of freedom
	unit   units.Unit
}

// spreadUnit is the unit in which a budget's contributions are shown: the
// value's, unless they would be tiny in it.
func spreadUnit(d *check.Def, u float64) units.Unit {
	return notTiny(shownIn(d.Node).Difference(), d.Type.(check.Quantity).Kind, u)
}

// notTiny is a unit, or a smaller one where u would be tiny in it.
func notTiny(unit units.Unit, kind units.Kind, u float64) units.Unit {
	if !unit.IsZero() && unit.FromSI(u) >= tiny {
		return unit
	}
	kind.Point = false
	return units.Fitting(kind, u)
}

func budgetColumns(d *check.Def, finite bool) []Column {
	columns := []Column{{Head: "Input", Code: true}, {Head: "Value", Number: true}, {Head: "u", Number: true}}
	if finite {
		columns = append(columns, Column{Head: "ν", Number: true})
	}
	unit := d.Type.(check.Quantity).Dim.SIUnit()
	return append(columns, Column{Head: "Sensitivity", Number: true},
		Column{Head: "Contribution", Number: true, SIUnit: unit}, Column{Head: "Share", Number: true})
}

// part is a row for an input; correlated ones have a row each, and one for what
// they add together.
func (b *budgeting) part(p study.Part) {
	if len(p.Inputs) == 1 {
		b.input(p.Inputs[0], p.Effects[0], percentOf(p.U, b.total))
		return
	}
	names := make([]string, len(p.Inputs))
	for i, in := range p.Inputs {
		b.input(in, p.Effects[i], "")
		names[i] = in.Name
	}
	together := strings.Join(names, ", ") + " together"
	row := []string{together, "", "", freedomText(p.Freedom), "", b.contribution(p.U), percentOf(p.U, b.total)}
	b.table.add(row, []any{together, nil, nil, p.Freedom, nil, p.U, p.U * p.U / (b.total * b.total)}, b.finite)
}

func (b *budgeting) input(in *study.Input, effect float64, share string) {
	unit, value, middle := inputUnit(in), "", any(nil)
	if !math.IsNaN(in.Middle) {
		value, middle = units.Show(in.Middle, unit, b.digits("")), in.Middle
	}
	small := notTiny(unit.Difference(), in.Type.Kind, in.U)
	row := []string{
		in.Name, value, units.ShowUncertainty(in.U, small), freedomText(in.Freedom),
		b.sensitivity(effect/in.U, small), b.contribution(effect), share,
	}
	b.table.add(row, []any{in.Name, middle, in.U, in.Freedom, effect / in.U, effect, nil}, b.finite)
}

// inputUnit is the unit in which a builder wrote an input, else a fitting one.
func inputUnit(in *study.Input) units.Unit {
	kind := in.Type.Kind
	switch {
	case !in.Unit.IsZero():
		return in.Unit
	case math.IsNaN(in.Middle):
		kind.Point = false
		return units.Fitting(kind, in.U)
	}
	return units.Fitting(kind, in.Middle)
}

// sensitivity is written as so much of the value per one unit of the input,
// which a bench knows how to read.
func (b *budgeting) sensitivity(c float64, unit units.Unit) string {
	text := units.Show(c*unit.ToSI(1), b.unit, sensitivityDigits)
	if per := unit.String(); per != "" && per != "1" {
		text += " per " + per
	}
	return text
}

func (b *budgeting) contribution(u float64) string { return units.ShowUncertainty(u, b.unit) }

// tiny is where a number in a unit is written with a power of ten.
const tiny = 1e-3

// An uncertainty has two digits (JCGM 100:2008, 7.2.6), a sensitivity one more.
const (
	spreadDigits      = 2
	sensitivityDigits = 3
)

// add puts a row into a budget, without its degrees of freedom where all are
// infinite.
func (t *Table) add(row []string, values []any, finite bool) {
	const freedom = 3
	if !finite {
		row = append(row[:freedom:freedom], row[freedom+1:]...)
		values = append(values[:freedom:freedom], values[freedom+1:]...)
	}
	t.Rows, t.Values = append(t.Rows, row), append(t.Values, values)
}

func (b *budgeting) sum(name string, s study.Spread) string {
	text := "Together u = " + b.contribution(s.U)
	if !math.IsInf(s.Freedom, 1) {
		text += " with ν = " + units.Number(math.Floor(s.Freedom), 6)
	}
	shown, _ := b.showSpread(b.def.Type, b.machine.Value(b.def), s, shownIn(b.def.Node), b.digits(name))
	return text + ", so that `" + name + "` is " + shown + " at 95.45 %"
}

// shownIn is the unit that the builder gave a quantity, if its bracket says one.
func shownIn(n check.Node) units.Unit {
	if ref, ok := n.(*check.Ref); ok {
		return ref.Def.Unit
	}
	return units.Unit{}
}

func freedomText(freedom float64) string {
	if math.IsInf(freedom, 1) {
		return "∞"
	}
	return units.Number(freedom, 3)
}

// percentOf is a part of the variance.
func percentOf(part, total float64) string {
	if total == 0 {
		return ""
	}
	return units.Number(100*part*part/(total*total), spreadDigits) + " %"
}
