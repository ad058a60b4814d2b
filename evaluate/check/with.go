package check

import (
	"inkwing/evaluate/syntax"
)

func (c *checker) with(x *syntax.With) Node {
	body := c.expr(x.X)
	ok := body != nil
	replaces := make([]Replace, 0, len(x.Replaces))
	for _, r := range x.Replaces {
		rep, good := c.replace(r)
		replaces = append(replaces, rep)
		ok = ok && good
	}
	if !ok {
		return nil
	}
	return &With{typed{x.Span, body.Type()}, body, replaces}
}

func (c *checker) replace(r syntax.Replace) (Replace, bool) {
	of := c.expr(r.Of)
	ref, isRef := of.(*Ref)
	if of != nil && (!isRef || !ref.Def.Given) {
		c.fail(r.Of.Place(), "with replaces plain values only; this is worked from others", "replace one of those that it is worked from")
		return Replace{}, false
	}
	if of == nil {
		return Replace{}, false
	}
	if ref.Def.Unit.IsZero() || !bare(r.Value) {
		return c.replaced(ref, r.Value, c.expr(r.Value))
	}
	saved := c.unit
	c.unit = &ref.Def.Unit
	value := c.expr(r.Value)
	c.unit = saved
	return c.replaced(ref, r.Value, value)
}

func (c *checker) replaced(ref *Ref, e syntax.Expr, value Node) (Replace, bool) {
	if value == nil {
		return Replace{}, false
	}
	if !same(ref.Type(), value.Type()) {
		c.fail(e.Place(), value.Type().String()+" in place of "+ref.Type().String(), "replace it by one of its own kind")
		return Replace{}, false
	}
	return Replace{ref.Def, value}, true
}
