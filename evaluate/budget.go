package evaluate

import (
	"math"

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
	for _, p := range parts {
		w.budgetPart(t, d, p, s.U, finite)
	}
	t.Notes = append(t.Notes, w.budgetSum(t.Name, d, s))
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

// budgetPart is a row for an input; correlated ones have a row each, and one
// for what they add together.
func (w *worker) budgetPart(t *Table, d *check.Def, p study.Part, total float64, finite bool) {
	for i, in := range p.Inputs {
		share := ""
		if len(p.Inputs) == 1 {
			share = percentOf(p.U, total)
		}
		w.budgetRow(t, d, in, p.Effects[i], share, finite)
	}
	if len(p.Inputs) == 1 {
		return
	}
	names := make([]string, len(p.Inputs))
	for i, in := range p.Inputs {
		names[i] = in.Name
	}
	row := []string{inWords(names) + " together", "", "", freedomText(p.Freedom), "", w.showU(d, p.U), percentOf(p.U, total)}
	values := []any{inWords(names) + " together", nil, nil, p.Freedom, nil, p.U, p.U * p.U / (total * total)}
	t.add(row, values, finite)
}

func (w *worker) budgetRow(t *Table, d *check.Def, in *study.Input, effect float64, share string, finite bool) {
	value, middle := "", any(nil)
	if !math.IsNaN(in.Middle) {
		value, _ = w.show(in.Type, in.Middle, units.Unit{}, w.digits(""))
		middle = in.Middle
	}
	difference := in.Type
	difference.Point = false
	sensitivity := effect / in.U
	kind := units.Kind{Dim: d.Type.(check.Quantity).Dim.Div(in.Type.Dim)}
	row := []string{
		in.Name, value, units.Show(in.U, units.Fitting(difference.Kind, in.U), spreadDigits), freedomText(in.Freedom),
		units.Show(sensitivity, units.Fitting(kind, sensitivity), sensitivityDigits), w.showU(d, effect), share,
	}
	t.add(row, []any{in.Name, middle, in.U, in.Freedom, sensitivity, effect, nil}, finite)
}

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

// showU writes a standard uncertainty of a value, or what one input adds to it.
func (w *worker) showU(d *check.Def, u float64) string {
	kind := d.Type.(check.Quantity).Kind
	kind.Point = false
	unit := units.Fitting(kind, u)
	if ref, ok := d.Node.(*check.Ref); ok && !ref.Def.Unit.IsZero() {
		unit = ref.Def.Unit.Difference()
	}
	return units.Show(u, unit, spreadDigits)
}

func (w *worker) budgetSum(name string, d *check.Def, s study.Spread) string {
	text := "Together u = " + w.showU(d, s.U)
	if !math.IsInf(s.Freedom, 1) {
		text += " with ν = " + units.Number(math.Floor(s.Freedom), 6)
	}
	shown, _ := w.showSpread(d.Type, w.machine.Value(d), s, shownIn(d.Node), w.digits(name))
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
