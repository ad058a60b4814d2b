package rules

import (
	"strings"

	"github.com/expr-lang/expr/ast"

	"inkwing/evaluate/message"
	"inkwing/units"
)

// binary finds out what an operator makes of its two sides.
func (r *reader) binary(node *ast.Node, n *ast.BinaryNode) meaning {
	a, b := r.of(n.Left), r.of(n.Right)
	if a.sort == unknown || b.sort == unknown {
		return meaning{}
	}
	by := "`" + n.Operator + "`"
	switch n.Operator {
	case "and", "or", "&&", "||":
		if r.is(n.Left, truth, by) && r.is(n.Right, truth, by) {
			return meaning{sort: truth}
		}
	case "contains", "startsWith", "endsWith", "matches":
		if r.is(n.Left, words, by) && r.is(n.Right, words, by) {
			return meaning{sort: truth}
		}
	case "in":
		return r.in(n, a)
	case "==", "!=":
		return r.equal(node, n, a, b)
	case "<", "<=", ">", ">=":
		if r.is(n.Left, number, by) && r.is(n.Right, number, by) {
			return r.compared(node, n, a, b)
		}
	case "+", "-", "*", "/", "%", "^", "**":
		if r.is(n.Left, number, by) && r.is(n.Right, number, by) {
			return r.arithmetic(n, a, b)
		}
	default:
		r.say(n, by+" is nothing that a condition can do", "a condition has + - * /, comparisons, contains, startsWith, endsWith, matches, in, and, or, not")
	}
	return meaning{}
}

func (r *reader) in(n *ast.BinaryNode, a meaning) meaning {
	if !r.is(n.Left, words, "`in`") || !r.is(n.Right, list, "`in`") {
		return meaning{}
	}
	if items, ok := n.Right.(*ast.ArrayNode); ok {
		for i := range items.Nodes {
			r.said(&items.Nodes[i], a)
		}
	}
	return meaning{sort: truth}
}

func (r *reader) equal(node *ast.Node, n *ast.BinaryNode, a, b meaning) meaning {
	if a.sort != b.sort {
		r.say(n, a.sort.String()+" is never "+b.sort.String(), r.sortHint(a.sort))
		return meaning{}
	}
	switch a.sort {
	case number:
		return r.compared(node, n, a, b)
	case list:
		r.say(n, "two lists cannot be compared", `ask with in: "…" in `+a.field)
		return meaning{}
	case words:
		r.said(&n.Right, a)
		r.said(&n.Left, b)
	}
	return meaning{sort: truth}
}

// said holds a text that is written out against what it is compared with: one of
// a few words, or a unit, which is read in any spelling.
func (r *reader) said(node *ast.Node, other meaning) {
	s, ok := (*node).(*ast.StringNode)
	switch {
	case !ok:
	case other.unit:
		r.unitText(node, s)
	case len(other.words) > 0:
		for _, w := range other.words {
			if w == s.Value {
				return
			}
		}
		hint := "it is " + strings.Join(other.words, ", ")
		if near := message.Nearest(s.Value, other.words); near != "" {
			hint = `did you mean "` + near + `"? ` + hint
		}
		r.say(s, "`"+other.field+"` never is \""+s.Value+`"`, hint)
	}
}

func (r *reader) unitText(node *ast.Node, s *ast.StringNode) {
	if s.Value == "" {
		return // of what has none: a text, yes or no
	}
	u, err := units.Parse(s.Value)
	if err != nil {
		r.say(s, err.Error(), "")
		return
	}
	ast.Patch(node, &ast.StringNode{Value: u.Kind.Dim.SIUnit()})
	r.meanings[*node] = meaning{sort: words}
}

// compared holds two numbers against each other. Where the row's unit has to be
// one that the rule names, the row is asked for it first.
func (r *reader) compared(node *ast.Node, n *ast.BinaryNode, a, b meaning) meaning {
	m, ok := r.alike(n, a, b)
	if !ok {
		return meaning{}
	}
	r.shownIn(a, b)
	r.shownIn(b, a)
	if m.bound {
		r.wants = append(r.wants, units.Kind{Dim: m.dim, Mark: m.mark})
		question := &ast.CallNode{Callee: &ast.IdentifierNode{Value: fitsName},
			Arguments: []ast.Node{&ast.IdentifierNode{Value: "$env"}, &ast.IntegerNode{Value: len(r.wants) - 1}}}
		ast.Patch(node, &ast.BinaryNode{Operator: "and", Left: question, Right: n})
	}
	return meaning{sort: truth}
}

// shownIn remembers the unit in which a field was asked for.
func (r *reader) shownIn(field, other meaning) {
	for i := range r.asks {
		if r.asks[i].field.Name == field.field && other.lit != nil && r.asks[i].unit.IsZero() {
			r.asks[i].unit = other.lit.unit
		}
	}
}

// alike is what two numbers have in common, if they can be compared or added.
func (r *reader) alike(n ast.Node, a, b meaning) (meaning, bool) {
	if a.zero || b.row && !a.row {
		a, b = b, a
	}
	if a.apart && b.point || b.apart && a.point {
		r.say(n, "an uncertainty is a difference, and °C here a point on the scale", "write it in K")
		return meaning{}, false
	}
	same := !a.row && !b.row && sameDim(a, b)
	switch {
	case b.zero, same, a.row && b.row && (!a.bound || !b.bound || sameDim(a, b)):
		if b.bound {
			return b, true
		}
		return a, true
	case a.row && !b.row && (!a.bound || sameDim(a, b)):
		a.bound, a.dim, a.mark = true, b.dim, b.mark
		return a, true
	}
	r.say(n, called(a)+" cannot be set against "+called(b), unitHint(a, b))
	return meaning{}, false
}

func sameDim(a, b meaning) bool {
	return alikeKinds(units.Kind{Dim: a.dim, Mark: a.mark}, units.Kind{Dim: b.dim, Mark: b.mark})
}

// called is what a number is, by its name where it has one.
func called(m meaning) string {
	kind := units.Kind{Dim: m.dim, Mark: m.mark, Point: m.point}.String()
	switch {
	case m.lit != nil:
		return "`" + m.lit.text + "`, " + kind + ","
	case m.field != "" && !m.row:
		return "`" + m.field + "`, " + kind + ","
	}
	return kind
}

func unitHint(a, b meaning) string {
	if a.dim.IsNumber() && !a.row || b.dim.IsNumber() && !b.row {
		return "leave the unit out, or write %"
	}
	return "compare what has the same dimension"
}

// arithmetic works with dimensions as far as they are known.
func (r *reader) arithmetic(n *ast.BinaryNode, a, b meaning) meaning {
	if a.point || b.point {
		r.say(n, "a point on the temperature scale is only compared", "write a difference in K")
		return meaning{}
	}
	pure := func(m meaning) bool { return !m.row && m.dim.IsNumber() }
	out := meaning{sort: number}
	switch n.Operator {
	case "+", "-":
		m, ok := r.alike(n, a, b)
		if !ok {
			return meaning{}
		}
		m.field, m.lit, m.zero = "", nil, false
		return m
	case "*":
		if pure(a) {
			a, b = b, a
		}
		if pure(b) {
			a.field, a.lit = "", nil
			return a
		}
		if !a.row && !b.row {
			out.dim = a.dim.Mul(b.dim)
			return out
		}
	case "/":
		switch {
		case pure(b):
			a.field, a.lit = "", nil
			return a
		case a.row && b.row:
			return out
		case !a.row && !b.row:
			out.dim = a.dim.Div(b.dim)
			return out
		}
	default:
		if pure(a) && pure(b) {
			return out
		}
	}
	r.say(n, "what this comes to has no unit that is the same for all rows", "multiply or divide by a pure number, or divide one measure of the row by another")
	return meaning{}
}
