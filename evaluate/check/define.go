package check

import (
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// value checks name = expression.
func (a *analysis) value(d *program.Def, v *program.Value, x *syntax.Definition) {
	c := a.checker(d)
	unit, has := c.bracket(x.Unit)
	if c.failed {
		d.Failed = true
		return
	}
	node := c.definitionValue(x.Value, unit, has)
	c.finish()
	if node == nil {
		return
	}
	d.Type, v.Node, v.Unit = node.Type(), node, unit
	v.Input = syntax.Plain(x.Value) && !isElement(node)
	k, isConst := program.Nominal(node).(*program.Const)
	v.Converted = isConst && has && !k.Unit.IsZero() && k.Unit.String() != unit.String()
}

// definitionValue is the right side, in the unit of the bracket if it is a bare
// number, else of its own dimension, which the bracket then checks.
func (c *checker) definitionValue(e syntax.Expr, unit units.Unit, has bool) program.Node {
	var node program.Node
	if has && bare(e) {
		c.unit = &unit
		node = c.expr(e)
		c.unit = nil
	} else {
		node = c.expr(e)
	}
	if node == nil || !has {
		return node
	}
	return c.shownIn(node, e, unit)
}

// isElement reports whether a value was picked from a list: that is worked. A row
// of a table is a part that the builder chose.
func isElement(n program.Node) bool {
	_, picked := n.(*program.ElementOf)
	_, row := n.Type().(*program.Record)
	return picked && !row
}

// bare reports whether an expression is a number without unit and nothing else,
// or a number ± number.
func bare(e syntax.Expr) bool {
	switch x := e.(type) {
	case *syntax.Number:
		return x.Unit == nil
	case *syntax.Uncertain:
		return bareOrNil(x.Value) && (bareOrNil(x.Spread) || isPart(x)) && bareOrNil(x.Upper)
	case *syntax.Paren:
		_, uncertain := x.X.(*syntax.Uncertain)
		return uncertain && bare(x.X)
	}
	return false
}

func bareOrNil(e syntax.Expr) bool { return e == nil || bare(e) }

// shownIn checks that a value fits the bracket and takes its mark.
func (c *checker) shownIn(node program.Node, e syntax.Expr, unit units.Unit) program.Node {
	elem, isList := program.Element(node.Type())
	q, ok := elem.(program.Quantity)
	if !ok {
		hint := "leave the bracket out"
		if field, isField := e.(*syntax.Field); isField && elem == (program.Text{}) {
			hint += "; if it is a number, the heading of its column wants the unit: " + message.Quote(field.Name.Name+" ["+unit.String()+"]")
		}
		c.fail(e.Place(), node.Type().String()+" cannot be shown in "+unit.String(), hint)
		return nil
	}
	k := unit.Kind
	pointless := q.Point != k.Point && unit.String() != "K"
	if q.Dim != k.Dim || pointless || !program.MarksAgree(q.Mark, k.Mark) {
		c.mismatch(e, node, k)
		return nil
	}
	q.Mark = program.Either(q.Mark, k.Mark)
	var t program.Type = q
	if isList {
		t = program.List{Elem: q}
	}
	return retyped(node, t)
}

// retyped is a node under another type of the same values.
func retyped(n program.Node, t program.Type) program.Node {
	switch x := n.(type) {
	case *program.Const:
		return &program.Const{Typed: typed(x.Span, t), Value: x.Value, Unit: x.Unit}
	case *program.Ref:
		return &program.Ref{Typed: typed(x.Span, t), Def: x.Def, Cells: x.Cells}
	case *program.Uncertain:
		return &program.Uncertain{Typed: typed(x.Span, t), X: x.X, Deviation: x.Deviation, Relative: x.Relative}
	}
	return &program.Op{Name: "same", Typed: typed(n.Place(), t), At: n.Place(), Args: []program.Node{n}}
}

// limit checks a chain of comparisons.
func (a *analysis) limit(d *program.Def, l *program.Limit, x *syntax.Limit) {
	c := a.checker(d)
	sides := c.operands(x.Bound)
	c.finish()
	if sides == nil {
		return
	}
	if isList(sides[0]) {
		a.fail(d, x.Bound.Span, "a limit compares single values, this is a list", "take min(…) or max(…) of it")
		return
	}
	d.Type, l.Sides, l.Ops = program.Bool{}, sides, x.Bound.Ops
}
