package present

import (
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// rules are the limits of the builder's own on a charted line: those that
// compare it, its column's largest or smallest number, or a quantity of its
// name, with something of its dimension.
func (p *plotted) rules(line int, unit units.Unit) (rules []report.Rule) {
	for _, def := range p.w.Program.Main.Defs {
		if !program.Is[*program.Limit](def) || p.w.Machine.Value(def) == nil {
			continue
		}
		operands := def.Stmt.(*syntax.Limit).Bound.Operands
		values := p.w.Machine.Value(def).(library.List)
		for i := range operands {
			if !ofLine(operands[i], p.drawing, line) || !kindFits(def.Body.(*program.Limit).Sides[i], p.drawing.Lines[line].Kind) {
				continue
			}
			for _, j := range []int{i - 1, i + 1} {
				if j >= 0 && j < len(operands) && !ofLine(operands[j], p.drawing, line) {
					rules = p.addRule(rules, operands[j], values[j], unit)
				}
			}
		}
	}
	return rules
}

func (p *plotted) addRule(rules []report.Rule, e syntax.Expr, value any, unit units.Unit) []report.Rule {
	si, ok := finite(value)
	rule := report.Rule{Name: text(p.w, e.Place()), At: unit.FromSI(si)}
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
func ofLine(e syntax.Expr, d *program.Chart, line int) bool {
	name, named := syntax.Dotted(e)
	call, isCall := e.(*syntax.Call)
	if isCall && len(call.Args) == 1 && (call.Func.Name == "max" || call.Func.Name == "min") {
		name, named = syntax.Dotted(call.Args[0].Value)
	}
	if !named {
		return false
	}
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
