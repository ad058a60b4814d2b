package present

import (
	"math"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/numeric/interval"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/show"
	"inkwing/evaluate/study"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
	"inkwing/units"
)

// budget presents what the uncertainty of a value is made of, the largest part
// first (JCGM 100:2008, 7.2.7 and table H.1).
func budget(w *working.Evaluation, d *program.Def) report.Table {
	x := d.Stmt.(*syntax.Budget)
	state, waits := w.State(d)
	t := report.Table{Verb: "budget", Name: text(w, x.Of.Place()), Span: x.Span, State: state, Waits: waits}
	if state == report.Evaluated {
		budgetRows(w, &t, d)
	}
	return t
}

func budgetRows(w *working.Evaluation, t *report.Table, d *program.Def) {
	parts := w.Uncertainty.Parts(d, 0)
	if len(parts) == 0 {
		t.Notes = []string{"Nothing uncertain bears on `" + t.Name + "`: write a spread behind an input, as in `10 V ± 0.1 V`."}
		return
	}
	s := w.Uncertainty.FirstOrder(d, 0)
	finite := false
	for _, p := range parts {
		finite = finite || p.DegreesOfFreedom <= endless
	}
	t.Columns = budgetColumns(d, finite)
	b := &budgeting{w: w, table: t, def: d, total: s.U, finite: finite, unit: contributionUnit(d, s.U)}
	var idle, cells []string
	for _, p := range parts {
		switch name := p.Effects[0].Input.Name; {
		case p.U != 0 || len(p.Effects) > 1:
			b.part(p)
		case strings.Contains(name, "["):
			cells = append(cells, message.Quote(name))
		default:
			idle = append(idle, message.Quote(name))
		}
	}
	t.Notes = append(t.Notes, b.sum(t.Name, s))
	t.Notes = append(t.Notes, without(idle)...)
	t.Details = without(cells) // rows of a table that are not chosen are no news
}

// without names the inputs without effect.
func without(idle []string) []string {
	if len(idle) == 0 {
		return nil
	}
	return []string{"Without effect to first order: " + message.Enumerate(idle)}
}

// budgeting writes the rows of one budget, all contributions in one unit.
type budgeting struct {
	w      *working.Evaluation
	table  *report.Table
	def    *program.Def
	total  float64
	finite bool // some input has finite degrees of freedom
	unit   units.Unit
}

// contributionUnit is the unit in which a budget's contributions are shown: the
// value's, unless they would be tiny in it.
func contributionUnit(d *program.Def, u float64) units.Unit {
	return show.ReadableUnit(u, show.WrittenUnit(d.Node()), d.Type.(program.Quantity).Kind)
}

func budgetColumns(d *program.Def, finite bool) []report.Column {
	columns := []report.Column{{Head: "Input", Code: true}, {Head: "Value", Number: true, Detail: true}, {Head: "u", Number: true}}
	if finite {
		columns = append(columns, report.Column{Head: "ν", Number: true})
	}
	unit := d.Type.(program.Quantity).Dim.SIUnit()
	return append(columns, report.Column{Head: "Sensitivity", Number: true, Detail: true},
		report.Column{Head: "Contribution", Number: true, SIUnit: unit}, report.Column{Head: "Share", Number: true})
}

// part is a row for an input; correlated ones have a row each, and one for what
// they add together.
func (b *budgeting) part(p study.Part) {
	if len(p.Effects) == 1 {
		b.input(p.Effects[0], percentOf(p.U, b.total), partOf(p.U, b.total))
		return
	}
	names := make([]string, len(p.Effects))
	for i, e := range p.Effects {
		b.input(e, "", nil)
		names[i] = e.Input.Name
	}
	together := strings.Join(names, ", ") + " together"
	row := []string{together, "", "", dofText(p.DegreesOfFreedom), "", b.contribution(p.U), percentOf(p.U, b.total)}
	addRow(b.table, row, []any{together, nil, nil, p.DegreesOfFreedom, nil, p.U, partOf(p.U, b.total)}, b.finite)
}

func (b *budgeting) input(e study.Effect, share string, part any) {
	in := e.Input
	unit, value, nominal := inputUnit(in), "", any(nil)
	if !math.IsNaN(in.Nominal) {
		value, nominal = units.ShowBeside(in.Nominal, beside*in.U, unit), in.Nominal
	}
	slope, sensitivity := "", any(nil)
	if in.U > 0 { // readings that are all alike tell of none
		slope, sensitivity = b.sensitivity(e.U/in.U, in.Type, perUnit(in.Type, unit)), e.U/in.U
	}
	row := []string{
		in.Name, value, units.ShowUncertainty(in.U, show.ReadableUnit(in.U, unit, in.Type.Kind)), dofText(in.DegreesOfFreedom),
		slope, b.contribution(e.U), share,
	}
	addRow(b.table, row, []any{in.Name, nominal, in.U, in.DegreesOfFreedom, sensitivity, e.U, part}, b.finite)
}

// perUnit is one unit of an input; of a temperature, 1 K.
func perUnit(t program.Quantity, unit units.Unit) units.Unit {
	if t.Point {
		return units.MustParse("K")
	}
	return unit
}

// beside is how many standard uncertainties decide where an input's value ends.
const beside = 2

// inputUnit is the unit in which a builder wrote an input, else a fitting one.
func inputUnit(in *study.Input) units.Unit {
	kind := in.Type.Kind
	switch {
	case !in.Unit.IsZero():
		return in.Unit
	case math.IsNaN(in.Nominal):
		kind.Point = false
		return units.Fitting(kind, in.U)
	}
	return units.FittingSpread(kind, in.Nominal, in.U)
}

// sensitivity is written as so much of the value per one unit of the input,
// which a bench knows how to read; of one dimension with it, as a pure number.
func (b *budgeting) sensitivity(c float64, of program.Quantity, unit units.Unit) string {
	kind := b.def.Type.(program.Quantity).Kind
	if kind.Dim == of.Dim {
		return units.Number(c, sensitivityDigits)
	}
	c *= unit.ToSI(1)
	text := units.Show(c, show.ReadableUnit(c, b.unit, kind), sensitivityDigits)
	if per := unit.String(); per != "" && per != "1" {
		text += " per " + per
	}
	return text
}

func (b *budgeting) contribution(u float64) string { return units.ShowUncertainty(u, b.unit) }

// An uncertainty has two digits (JCGM 100:2008, 7.2.6), a sensitivity one more.
const (
	uncertaintyDigits = 2
	sensitivityDigits = 3
)

// addRow puts a row into a budget, without its degrees of freedom where all are
// infinite.
func addRow(t *report.Table, row []string, values []any, finite bool) {
	const dof = 3
	if !finite {
		row = append(row[:dof:dof], row[dof+1:]...)
		values = append(values[:dof:dof], values[dof+1:]...)
	}
	t.Rows, t.Values = append(t.Rows, row), append(t.Values, values)
}

func (b *budgeting) sum(name string, s study.Combined) string {
	if s.U == 0 {
		return "To first order nothing uncertain bears on `" + name + "`"
	}
	text := "Together u = " + b.contribution(s.U)
	if n, _ := b.w.Uncertainty.Draws(); n > 0 {
		text = "To first order together u = " + b.contribution(s.U)
	}
	if s.DegreesOfFreedom <= endless {
		text += " with ν = " + units.Number(math.Floor(s.DegreesOfFreedom), 6)
	}
	s.Expanded, text = b.covered(s, text)
	shown, _ := show.Uncertain(b.def.Type, b.w.Machine.Value(b.def), s, show.WrittenUnit(b.def.Node()), digits(b.w, name))
	return text + ": " + shown + b.coverage()
}

// covered is how wide the interval is that the builder asks for, and says of a level
// by which factor.
func (b *budgeting) covered(s study.Combined, text string) (float64, string) {
	asked := b.def.Body.(*program.Budget)
	switch {
	case asked.Factor > 0:
		return asked.Factor * s.U, text
	case asked.Level > 0:
		k := interval.CoverageAt(asked.Level, s.DegreesOfFreedom)
		return k * s.U, text + " and k = " + units.Number(k, sensitivityDigits)
	}
	return s.Expanded, text
}

// coverage is what the interval covers, as the builder asked for it.
func (b *budgeting) coverage() string {
	if text := b.def.Stmt.(*syntax.Budget).Coverage.String(); text != "" {
		return text
	}
	return " at 95.45 %"
}

// endless degrees of freedom are no different from infinitely many: Student's t is
// within 1e-6 of the normal distribution's factor.
const endless = 1e6

func dofText(dof float64) string {
	if dof > endless {
		return "∞"
	}
	return units.Number(dof, 3)
}

// partOf is a part of the variance, nil where there is none.
func partOf(part, total float64) any {
	if total == 0 {
		return nil
	}
	return part * part / (total * total)
}

// percentOf is a part of the variance.
func percentOf(part, total float64) string {
	if total == 0 {
		return ""
	}
	return units.Number(100*part*part/(total*total), uncertaintyDigits) + " %"
}
