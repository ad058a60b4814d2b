package check

import (
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

// measurement checks measured a = value, which may be a list of trials.
func (a *analysis) measurement(d *program.Def, m *program.Measurement, x *syntax.Measured) {
	c := a.checker(d)
	of := c.expr(x.Of)
	if ref, ok := of.(*program.Ref); ok && !ref.Def.Unit().IsZero() && bare(x.Value) {
		unit := ref.Def.Unit()
		c.unit = &unit
	}
	value := c.expr(x.Value)
	c.finish()
	if of == nil || value == nil || !c.measurable(x, of, value) {
		return
	}
	d.Type, m.Of, m.Measured = program.Bool{}, of, value
}

// measurable holds the kinds of both sides against each other.
func (c *checker) measurable(x *syntax.Measured, of, value program.Node) bool {
	q, ok := of.Type().(program.Quantity)
	if !ok {
		c.whole.fail(c.def, x.Of.Place(), "a single value can be measured, this is "+of.Type().String(), oneOf(of.Type()))
		return false
	}
	elem, _ := program.Element(value.Type())
	if !program.Same(q, elem) {
		c.whole.fail(c.def, x.Value.Place(), elem.String()+" as the measured value of "+q.String(), "measure it in a unit of its own kind")
		return false
	}
	return true
}

// budget checks budget a.
func (a *analysis) budget(d *program.Def, b *program.Budget, x *syntax.Budget) {
	c := a.checker(d)
	of := c.expr(x.Of)
	c.finish()
	if of == nil {
		return
	}
	if _, ok := of.Type().(program.Quantity); !ok {
		a.fail(d, x.Of.Place(), "a budget is that of a single value, this is "+of.Type().String(), oneOf(of.Type()))
		return
	}
	d.Type, b.Of = of.Type(), of
	b.Factor, b.Level = coverage(x.Coverage)
}

// oneOf says how a single value is taken from what has several.
func oneOf(t program.Type) string {
	switch t.(type) {
	case *program.Record:
		return "name one of its fields"
	case program.List:
		return "name one of its elements, or their mean"
	case *program.Table:
		return "name one of its cells, as `log.t[1]`"
	}
	return "name a quantity"
}
