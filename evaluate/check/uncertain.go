package check

import (
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

func (c *checker) uncertain(x *syntax.Uncertain) Node {
	c.sheet.Uncertain[c.def.Block] = true
	if x.Value == nil {
		return c.between(x)
	}
	value := c.expr(x.Value)
	spread := c.spread(x.Spread)
	if value == nil || spread == nil {
		return nil
	}
	q, ok := value.Type().(Quantity)
	if l, list := value.Type().(List); list {
		q, ok = l.Elem.(Quantity)
	}
	s, okSpread := spread.Type().(Quantity)
	if !ok || !okSpread {
		c.fail(x.Span, "only a quantity can have a spread", "")
		return nil
	}
	relative := x.Op == "within" && s.Dim.IsNumber()
	if !relative && q.Dim != s.Dim {
		c.fail(x.Spread.Place(), s.String()+" as the spread of "+q.String(), "give the spread in a unit of the value")
		return nil
	}
	return value
}

// spread checks what stands behind ± or within, where °C and °F are differences.
func (c *checker) spread(e syntax.Expr) Node {
	node := c.expr(e)
	k, ok := node.(*Const)
	if !ok {
		return node
	}
	n, isNumber := unparen(e).(*syntax.Number)
	q, isQuantity := k.Type().(Quantity)
	if !isNumber || !isQuantity || !q.Point {
		return node
	}
	u := c.unitOf(n).Difference()
	return &Const{typed: typed{k.span, Quantity{Kind: u.Kind}}, Value: u.ToSI(n.Value)}
}

func (c *checker) unitOf(n *syntax.Number) units.Unit {
	if n.Unit == nil {
		if c.unit != nil {
			return *c.unit
		}
		return units.MustParse("1")
	}
	return units.MustParse(n.Unit.Text)
}

// between is within a to b: worked at the middle.
func (c *checker) between(x *syntax.Uncertain) Node {
	low, high := c.expr(x.Spread), c.expr(x.Upper)
	if low == nil || high == nil {
		return nil
	}
	a, okA := low.Type().(Quantity)
	b, okB := high.Type().(Quantity)
	if !okA || !okB || a.Dim != b.Dim || a.Point != b.Point {
		c.fail(x.Span, "the two bounds are not of one kind: "+low.Type().String()+" and "+high.Type().String(), "write both in one unit")
		return nil
	}
	ka, okA := low.(*Const)
	kb, okB := high.(*Const)
	if !okA || !okB {
		c.fail(x.Span, "the bounds of within are numbers", "for example: within 45 F to 65 F")
		return nil
	}
	middle := (ka.Value.(float64) + kb.Value.(float64)) / 2
	return &Const{typed: typed{x.Span, a}, Value: middle}
}
