package check

import (
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

func (c *checker) with(x *syntax.With) program.Node {
	body := c.expr(x.X)
	ok := body != nil
	replaces := make([]program.Replace, 0, len(x.Replaces))
	for _, r := range x.Replaces {
		rep, good := c.replace(r)
		replaces = append(replaces, rep)
		ok = ok && good
	}
	if !ok {
		return nil
	}
	return &program.With{Typed: typed(x.Span, body.Type()), X: body, Replaces: replaces}
}

func (c *checker) replace(r syntax.Replace) (program.Replace, bool) {
	of := c.address(r.Of)
	ref, isRef := of.(*program.Ref)
	if of != nil && (!isRef || !ref.Def.IsInput()) {
		c.fail(r.Of.Place(), "with replaces plain values only; this is worked from others", c.insteadOf(of))
		return program.Replace{}, false
	}
	if of == nil {
		return program.Replace{}, false
	}
	unit := ref.Def.Unit()
	if unit.IsZero() || !bare(r.Value) {
		return c.replaced(ref, r.Value, c.expr(r.Value))
	}
	saved := c.unit
	c.unit = &unit
	value := c.expr(r.Value)
	c.unit = saved
	return c.replaced(ref, r.Value, value)
}

func (c *checker) replaced(ref *program.Ref, e syntax.Expr, value program.Node) (program.Replace, bool) {
	if value == nil {
		return program.Replace{}, false
	}
	if !program.Same(ref.Type(), value.Type()) {
		c.fail(e.Place(), value.Type().String()+" in place of "+ref.Type().String(), "replace it by one of its own kind")
		return program.Replace{}, false
	}
	return program.Replace{Def: ref.Def, Value: value}, true
}
