package present

import (
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
	"inkwing/units"
)

// A ruling is a limit that came to something, and the name of the used sheet that sets
// it; empty for the sheet itself.
type ruling struct {
	def   *program.Def
	under string
}

// rulings are the limits of the sheet and of those that it uses, found once for all
// charts.
func rulings(w *working.Evaluation) (list []ruling) {
	for _, def := range w.Program.Defs {
		if !program.Is[*program.Limit](def) || w.Machine.Value(def) == nil {
			continue
		}
		if under, known := w.Program.Main.Under(def.Sheet); known || def.Sheet == w.Program.Main {
			list = append(list, ruling{def, under})
		}
	}
	return list
}

// rules are the limits of the builder's own on a charted line, in the sheet or in one
// that it uses: those that compare it, its column's largest or smallest number, or a
// quantity of its name, with something of its dimension.
func (p *plotted) rules(line int, unit units.Unit) (rules []report.Rule) {
	for _, r := range p.rulings {
		rules = p.rulesOf(r.def, r.under, line, unit, rules)
	}
	return rules
}

// rulesOf adds those of one limit.
func (p *plotted) rulesOf(def *program.Def, under string, line int, unit units.Unit, rules []report.Rule) []report.Rule {
	operands := def.Stmt.(*syntax.Limit).Bound.Operands
	values := p.w.Machine.Value(def).(library.List)
	for i := range operands {
		if !ofLine(operands[i], under, p.drawing, line) || !kindFits(def.Body.(*program.Limit).Sides[i], p.drawing.Lines[line].Kind) {
			continue
		}
		for _, j := range []int{i - 1, i + 1} {
			if j >= 0 && j < len(operands) && !ofLine(operands[j], under, p.drawing, line) {
				rules = addRule(rules, p.bound(def, under, operands[j]), values[j], unit)
			}
		}
	}
	return rules
}

// bound is what a line is held against, as the sheet would write it.
func (p *plotted) bound(def *program.Def, under string, e syntax.Expr) string {
	text := textIn(p.w, def.Sheet, e.Place())
	if _, named := syntax.Dotted(e); named {
		return within(under, text)
	}
	return text
}

// within is a name of a used sheet as the one that uses it writes it.
func within(under, name string) string {
	if under == "" {
		return name
	}
	return under + "." + name
}

func addRule(rules []report.Rule, name string, value any, unit units.Unit) []report.Rule {
	si, ok := finite(value)
	rule := report.Rule{Name: name, At: unit.FromSI(si)}
	for _, r := range rules {
		ok = ok && r != rule
	}
	if !ok {
		return rules
	}
	return append(rules, rule)
}

func kindFits(n program.Node, k units.Kind) bool {
	q, ok := n.Type().(program.Quantity)
	return ok && q.Dim == k.Dim && q.Point == k.Point
}

// ofLine reports whether one side of a limit speaks of a charted line: V, ride.V,
// max(ride.history.V), min(ride.history.V), and the field that a study evaluated.
// Under is the name of the used sheet that sets the limit.
func ofLine(e syntax.Expr, under string, d *program.Chart, line int) bool {
	name, named := syntax.Dotted(e)
	call, isCall := e.(*syntax.Call)
	if isCall && len(call.Args) == 1 && (call.Func.Name == "max" || call.Func.Name == "min") {
		name, named = syntax.Dotted(call.Args[0].Value)
	}
	if !named {
		return false
	}
	name = within(under, name)
	if !isCall && name == d.Lines[line].Name {
		return true
	}
	for _, s := range d.Tables {
		// A study names the column of store.mass store_mass.
		ofStudy := !s.Measured && !isCall && strings.ReplaceAll(name, ".", "_") == d.Lines[line].Name
		if s.Columns[line] >= 0 && (ofStudy || name == s.Name+"."+d.Lines[line].Name) {
			return true
		}
	}
	return false
}
