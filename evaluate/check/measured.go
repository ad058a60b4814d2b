package check

import "inkwing/evaluate/syntax"

// checkMeasured checks measured a = value: d.Bound holds what is worked and
// what was measured, which may be a list of trials.
func (d *Def) checkMeasured(x *syntax.Measured) {
	c := &checker{def: d, sheet: d.Sheet}
	of := c.expr(x.Of)
	if ref, ok := of.(*Ref); ok && !ref.Def.Unit.IsZero() && bare(x.Value) {
		c.unit = &ref.Def.Unit
	}
	value := c.expr(x.Value)
	c.finish()
	if of == nil || value == nil || !c.measurable(x, of, value) {
		return
	}
	d.Bound, d.Type = []Node{of, value}, Truth{}
}

// measurable holds the kinds of both sides against each other.
func (c *checker) measurable(x *syntax.Measured, of, value Node) bool {
	q, ok := of.Type().(Quantity)
	if !ok {
		c.def.fail(x.Of.Place(), "a single value can be measured, this is "+of.Type().String(), oneOf(of.Type()))
		return false
	}
	elem, _ := element(value.Type())
	if !same(q, elem) {
		c.def.fail(x.Value.Place(), elem.String()+" as the measured value of "+q.String(), "measure it in a unit of its own kind")
		return false
	}
	return true
}

// checkBudget checks budget a.
func (d *Def) checkBudget(x *syntax.Budget) {
	c := &checker{def: d, sheet: d.Sheet}
	of := c.expr(x.Of)
	c.finish()
	if of == nil {
		return
	}
	if _, ok := of.Type().(Quantity); !ok {
		d.fail(x.Of.Place(), "a budget is that of a single value, this is "+of.Type().String(), oneOf(of.Type()))
		return
	}
	d.Node, d.Type = of, of.Type()
}

// oneOf says how a single value is taken from what has several.
func oneOf(t Type) string {
	switch t.(type) {
	case *Record:
		return "name one of its fields"
	case List:
		return "name one of its elements, or their mean"
	case *Table:
		return "name one of its cells, as `log.t[1]`"
	}
	return "name a quantity"
}
