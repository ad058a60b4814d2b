package check

import (
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// checkWorked checks a value, or a study.
func (d *Def) checkWorked(p *Program) {
	switch x := d.Stmt.(type) {
	case *syntax.Study:
		d.checkStudy(p, x.What, nil)
	case *syntax.Definition:
		if studyVerb(x.Value) != "" {
			d.checkStudy(p, x.Value, x.Unit)
			return
		}
		d.checkValue(x)
	}
}

func (d *Def) checkValue(x *syntax.Definition) {
	c := &checker{def: d, sheet: d.Sheet}
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
	d.Node, d.Type, d.Unit = node, node.Type(), unit
	d.Given = plain(x.Value) && !isElement(node)
	k, isConst := middle(node).(*Const)
	d.Converted = isConst && has && !k.Unit.IsZero() && k.Unit.String() != unit.String()
}

// definitionValue is the right side, in the unit of the bracket if it is a bare
// number, else of its own dimension, which the bracket then checks.
func (c *checker) definitionValue(e syntax.Expr, unit units.Unit, has bool) Node {
	var node Node
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
func isElement(n Node) bool {
	_, picked := n.(*ElementOf)
	_, row := n.Type().(*Record)
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

// Middle is what a value with a spread stands off.
func Middle(n Node) Node { return middle(n) }

func middle(n Node) Node {
	if off, ok := n.(*Off); ok {
		return off.X
	}
	return n
}

func bareOrNil(e syntax.Expr) bool { return e == nil || bare(e) }

// Plain reports whether an expression is a plain value: one that a builder would
// change, not one that is worked.
func Plain(e syntax.Expr) bool { return plain(e) }

func plain(e syntax.Expr) bool {
	switch x := e.(type) {
	case *syntax.Number, *syntax.Text, *syntax.Truth:
		return true
	case *syntax.Uncertain:
		return x.Value == nil || plain(x.Value)
	case *syntax.Paren:
		return plain(x.X)
	case *syntax.List:
		for _, item := range x.Items {
			if !plain(item) {
				return false
			}
		}
		return true
	case *syntax.Index:
		_, named := Dotted(x.X)
		return named && plain(x.Key)
	}
	return false
}

// shownIn checks that a value fits the bracket and takes its mark.
func (c *checker) shownIn(node Node, e syntax.Expr, unit units.Unit) Node {
	elem, isList := element(node.Type())
	q, ok := elem.(Quantity)
	if !ok {
		c.fail(e.Place(), node.Type().String()+" cannot be shown in "+unit.String(), "leave the bracket out")
		return nil
	}
	k := unit.Kind
	pointless := q.Point != k.Point && unit.String() != "K"
	if q.Dim != k.Dim || pointless || !marksAgree(q.Mark, k.Mark) {
		c.mismatch(e, node, k)
		return nil
	}
	q.Mark = either(q.Mark, k.Mark)
	var t Type = q
	if isList {
		t = List{q}
	}
	return retyped(node, t)
}

// retyped is a node under another type of the same values.
func retyped(n Node, t Type) Node {
	switch x := n.(type) {
	case *Const:
		return &Const{typed: typed{x.span, t}, Value: x.Value, Unit: x.Unit}
	case *Ref:
		return &Ref{typed{x.span, t}, x.Def}
	case *Off:
		return &Off{typed{x.span, t}, x.X, x.Offset, x.Part}
	}
	return &Op{Name: "same", typed: typed{n.Place(), t}, At: n.Place(), Args: []Node{n}}
}

func (d *Def) checkLimit(x *syntax.Limit) {
	c := &checker{def: d, sheet: d.Sheet}
	nodes := c.operands(x.Bound)
	c.finish()
	if nodes == nil {
		return
	}
	if _, list := element(nodes[0].Type()); list {
		d.fail(x.Bound.Span, "a limit compares single values, this is a list", "take min(…) or max(…) of it")
		return
	}
	d.Bound, d.Ops, d.Type = nodes, x.Bound.Ops, Truth{}
}
