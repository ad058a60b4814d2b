package present

import (
	"slices"
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
// charts, in their order; by names has those that speak of a name, their dots as _.
type rulings struct {
	list    []ruling
	byNames map[string][]int
}

func newRulings(w *working.Evaluation) *rulings {
	all := &rulings{byNames: map[string][]int{}}
	for _, def := range w.Program.Defs {
		if !program.Is[*program.Limit](def) || w.Machine.Value(def) == nil {
			continue
		}
		if under, known := w.Program.Main.Under(def.Sheet); known || def.Sheet == w.Program.Main {
			for _, e := range def.Stmt.(*syntax.Limit).Bound.Operands {
				if name, _, named := spoken(e, under); named {
					all.byNames[underlined(name)] = append(all.byNames[underlined(name)], len(all.list))
				}
			}
			all.list = append(all.list, ruling{def, under})
		}
	}
	return all
}

// of are those that may speak of a charted line, in their order.
func (r *rulings) of(d *program.Chart, line int) []ruling {
	name := d.Lines[line].Name
	at := slices.Clone(r.byNames[underlined(name)])
	for _, s := range d.Tables {
		at = append(at, r.byNames[underlined(s.Name+"."+name)]...)
	}
	slices.Sort(at)
	var list []ruling
	for _, i := range slices.Compact(at) {
		list = append(list, r.list[i])
	}
	return list
}

// underlined is a name as a study has it for a column: store_mass for store.mass.
func underlined(name string) string { return strings.ReplaceAll(name, ".", "_") }

// rules are the limits of the builder's own on a charted line, in the sheet or in one
// that it uses: those that compare it, its column's largest or smallest number, or a
// quantity of its name, with something of its dimension.
func (p *plotted) rules(line int, unit units.Unit) (rules []report.Rule) {
	known := map[report.Rule]bool{}
	for _, r := range p.rulings.of(p.drawing, line) {
		for _, rule := range p.rulesOf(r.def, r.under, line, unit) {
			if !known[rule] {
				known[rule] = true
				rules = append(rules, rule)
			}
		}
	}
	p.ruled += len(rules)
	return rules
}

// rulesOf are those of one limit.
func (p *plotted) rulesOf(def *program.Def, under string, line int, unit units.Unit) (rules []report.Rule) {
	operands := def.Stmt.(*syntax.Limit).Bound.Operands
	values := p.w.Machine.Value(def).(library.List)
	for i := range operands {
		if !ofLine(operands[i], under, p.drawing, line) || !kindFits(def.Body.(*program.Limit).Sides[i], p.drawing.Lines[line].Kind) {
			continue
		}
		for _, j := range []int{i - 1, i + 1} {
			if j >= 0 && j < len(operands) && !ofLine(operands[j], under, p.drawing, line) {
				if si, ok := finite(values[j]); ok {
					rules = append(rules, report.Rule{Name: p.bound(def, under, operands[j]), At: unit.FromSI(si)})
				}
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

func kindFits(n program.Node, k units.Kind) bool {
	q, ok := n.Type().(program.Quantity)
	return ok && q.Dim == k.Dim && q.Point == k.Point
}

// spoken is the name that one side of a limit speaks of, by itself or in a call.
func spoken(e syntax.Expr, under string) (name string, isCall, named bool) {
	name, named = syntax.Dotted(e)
	call, isCall := e.(*syntax.Call)
	if isCall && len(call.Args) == 1 && (call.Func.Name == "max" || call.Func.Name == "min") {
		name, named = syntax.Dotted(call.Args[0].Value)
	}
	return within(under, name), isCall, named
}

// ofLine reports whether one side of a limit speaks of a charted line: V, ride.V,
// max(ride.history.V), min(ride.history.V), and the field that a study evaluated.
// Under is the name of the used sheet that sets the limit.
func ofLine(e syntax.Expr, under string, d *program.Chart, line int) bool {
	name, isCall, named := spoken(e, under)
	if !named {
		return false
	}
	if !isCall && name == d.Lines[line].Name {
		return true
	}
	for _, s := range d.Tables {
		// A study names the column of store.mass store_mass.
		ofStudy := !s.Measured && !isCall && underlined(name) == d.Lines[line].Name
		if s.Columns[line] >= 0 && (ofStudy || name == s.Name+"."+d.Lines[line].Name) {
			return true
		}
	}
	return false
}
