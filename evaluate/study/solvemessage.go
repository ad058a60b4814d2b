package study

import (
	"slices"

	"inkwing/evaluate/program"
	"inkwing/evaluate/run"
	"inkwing/units"
)

// shownDigits is how closely a message gives a value.
const shownDigits = 4

// shown writes a value of the variable, in its unit.
func (a *solving) shown(x float64) string {
	return show(x, a.x.Over.Def.Type, a.x.Over.Def.Written())
}

func show(x float64, t program.Type, u units.Unit) string {
	if u.IsZero() {
		u = units.Fitting(t.(program.Quantity).Kind, x)
	}
	return units.Show(x, u, shownDigits)
}

// nowhere says what the sides come to where they were worked.
func (a *solving) nowhere(places []float64) *run.Fault {
	c := a.cut()
	left, right := "", ""
	for i, x := range slices.Compact(places) {
		p := c.work([]any{x})
		if !p.ok() {
			continue
		}
		join := ""
		if i > 0 {
			join = ", "
		}
		left += join + a.side(p.values[0], a.x.Left) + " at " + a.shown(x)
		right += join + a.side(p.values[1], a.x.Right) + " at " + a.shown(x)
	}
	a.m.Charge(c.steps())
	says := name(a.x.Left, a.x.Def.Sheet, "the left side") + " is " + left
	if _, fixed := a.x.Right.(*program.Const); !fixed {
		says += "; " + name(a.x.Right, a.x.Def.Sheet, "the right side") + " is " + right
	}
	return run.Fail(a.x.Place(), "no value of `"+a.x.Over.Name+"` from "+a.shown(a.from)+" to "+a.shown(a.to)+" does it: "+says, "widen the range, or aim at what it reaches")
}

// side writes what one side comes to, in the unit of the one written out.
func (a *solving) side(v any, n program.Node) string {
	x, isNumber := v.(float64)
	if !isNumber {
		if text, isText := v.(string); isText {
			return "\"" + text + "\""
		}
		return map[any]string{true: "yes", false: "no"}[v]
	}
	for _, side := range []program.Node{a.x.Right, a.x.Left} {
		if k, ok := side.(*program.Const); ok && !k.Unit.IsZero() {
			return show(x, n.Type(), k.Unit)
		}
	}
	return show(x, n.Type(), units.Unit{})
}

// name is what a node goes under, if it is a quantity or a field of one.
func name(n program.Node, from *program.Sheet, other string) string {
	if text, ok := dotted(n, from); ok {
		return "`" + text + "`"
	}
	return other
}

func dotted(n program.Node, from *program.Sheet) (string, bool) {
	switch x := n.(type) {
	case *program.Ref:
		return x.Def.Shown(from), true
	case *program.FieldOf:
		left, ok := dotted(x.X, from)
		return left + "." + x.X.Type().(*program.Record).Fields[x.Index].Name, ok
	}
	return "", false
}
