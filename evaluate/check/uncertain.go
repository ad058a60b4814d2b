package check

import (
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// A Doubt is what is known of an uncertain value: Value ± Spread, the hard
// limits Value ± Spread where Rectangular is set, or a Field of an answer of
// Carry. A Part is a spread that is a part of the value.
type Doubt struct {
	Name        string     // what it is named after
	Owner       *Def       // in which it stands
	Unit        units.Unit // that it is written in; the zero unit where none is
	Value       Node
	Spread      Node
	Rectangular bool
	Part        bool
	Carry       *Carry
	Field       int // among Carry.Fields
}

// uncertain is a value that stands off its middle by its offset.
func (c *checker) uncertain(x *syntax.Uncertain) Node {
	offsets := c.sheet.offsets[x]
	if offsets == nil || c.params != nil {
		c.fail(x.Span, "a value with "+quote(x.Op)+" cannot stand here", "give it a name on a line of its own, and write the name here")
		return nil
	}
	doubt := &Doubt{Owner: c.def, Rectangular: x.Op == "within"}
	if x.Value == nil {
		c.between(x, doubt)
	} else {
		c.around(x, doubt)
	}
	if doubt.Value == nil || doubt.Spread == nil {
		return nil
	}
	doubt.Name, doubt.Unit = c.doubtName(x), c.doubtUnit(doubt.Value)
	offsets[0].Doubt = doubt
	return &Off{typed{x.Span, doubt.Value.Type()}, doubt.Value, offsets[0], doubt.Part}
}

// doubtName is the quantity that a doubt is named after: the one it stands
// behind, else the one that it is the right side of, else the words themselves.
func (c *checker) doubtName(x *syntax.Uncertain) string {
	if name, ok := Dotted(x.Value); ok {
		return name
	}
	if d, ok := c.def.Stmt.(*syntax.Definition); ok && c.def.Name != "" && plain(unparen(d.Value)) {
		return c.def.Name
	}
	if _, ok := c.def.Stmt.(*syntax.Measured); ok {
		return "the reading"
	}
	return syntax.Source(x)
}

// doubtUnit is the unit that a builder wrote the middle in, or its bracket.
func (c *checker) doubtUnit(value Node) units.Unit {
	switch x := value.(type) {
	case *Const:
		if x.Unit.IsZero() && c.unit != nil {
			return *c.unit
		}
		return x.Unit
	case *Ref:
		return x.Def.Unit
	}
	return units.Unit{}
}

// around reads value ± spread and value within bound.
func (c *checker) around(x *syntax.Uncertain, doubt *Doubt) {
	value := c.expr(x.Value)
	spread := c.spread(x.Spread)
	if value == nil || spread == nil {
		return
	}
	elem, _ := element(value.Type())
	q, ok := elem.(Quantity)
	s, okSpread := spread.Type().(Quantity)
	switch {
	case !ok || !okSpread:
		c.fail(x.Span, "only a quantity can have a spread, this is "+value.Type().String(), "")
		return
	case isPart(x) && q.Point:
		c.fail(x.Spread.Place(), "a part of "+q.String()+" means nothing", "give the spread in K or °C")
		return
	case !isPart(x) && q.Dim != s.Dim:
		c.fail(x.Spread.Place(), s.String()+" as the spread of "+q.String(), "give the spread in a unit of the value, or as a part of it: `"+x.Op+" 2 %`")
		return
	}
	doubt.Value, doubt.Spread, doubt.Part = value, spread, isPart(x)
}

// isPart reports whether a spread is written as a part of its value: in % or ppm
// that are its own, not those of both as in (80 ± 4) %.
func isPart(x *syntax.Uncertain) bool {
	n, ok := unparen(x.Spread).(*syntax.Number)
	if !ok || n.Unit == nil || n.Unit.Text != "%" && n.Unit.Text != "ppm" {
		return false
	}
	value, ok := x.Value.(*syntax.Number)
	return !ok || value.Unit != n.Unit
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
	if !isNumber || !isQuantity {
		return node
	}
	if n.Value < 0 {
		c.fail(e.Place(), "a spread is never below zero", "write how far the value may be off to either side")
		return nil
	}
	if !q.Point {
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
func (c *checker) between(x *syntax.Uncertain, doubt *Doubt) {
	low, high := c.expr(x.Spread), c.expr(x.Upper)
	if low == nil || high == nil {
		return
	}
	a, okA := low.Type().(Quantity)
	b, okB := high.Type().(Quantity)
	if !okA || !okB || a.Dim != b.Dim || a.Point != b.Point {
		c.fail(x.Span, "the two bounds are not of one kind: "+low.Type().String()+" and "+high.Type().String(), "write both in one unit")
		return
	}
	ka, okA := low.(*Const)
	kb, okB := high.(*Const)
	if !okA || !okB {
		c.fail(x.Span, "the bounds of within are numbers", "for example: within 45 F to 65 F")
		return
	}
	from, to := ka.Value.(float64), kb.Value.(float64)
	if to < from {
		c.fail(x.Span, "the bounds of within stand the wrong way round", "write the smaller one first")
		return
	}
	difference := a
	difference.Point = false
	doubt.Value = &Const{typed: typed{x.Span, a}, Value: (from + to) / 2, Unit: ka.Unit}
	doubt.Spread = &Const{typed: typed{x.Span, difference}, Value: (to - from) / 2}
}
