package check

import (
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// uncertain is a value that lies off its nominal by its deviation.
func (c *checker) uncertain(x *syntax.Uncertain) program.Node {
	deviations := c.sheet.deviations[x]
	if deviations == nil || c.params != nil || c.row != nil {
		c.fail(x.Span, "a value with "+message.Quote(x.Op)+" cannot stand here", "give it a name on a line of its own, and write the name here")
		return nil
	}
	source := &program.Source{Owner: c.def, Rectangular: x.Op == "within", Triangular: x.Coverage.Triangular, DegreesOfFreedom: freedom(x)}
	source.Factor, source.Level = coverage(x.Coverage)
	if x.Value == nil {
		c.between(x, source)
	} else {
		c.around(x, source)
	}
	if source.Value == nil || source.Spread == nil {
		return nil
	}
	if source.Name = c.uncertainName(x); source.Name == "" {
		source.Name, source.Words = syntax.Source(x), true
	}
	source.Unit = c.uncertainUnit(source.Value)
	deviations[0].Body = &program.Deviation{Source: source}
	return &program.Uncertain{Typed: typed(x.Span, source.Value.Type()), X: source.Value, Deviation: deviations[0], Relative: source.Relative}
}

// coverage is the factor or the level that an interval is stated with, 0 for none.
func coverage(v syntax.Coverage) (factor, level float64) {
	if v.K != nil {
		factor = v.K.Value
	}
	if v.Level != nil {
		level = v.Level.Value / 100
	}
	return factor, level
}

// uncertainName is the quantity that a source of uncertainty is named after: the one it stands
// behind, else the one that it is the right side of, or its place in a call; empty for none.
func (c *checker) uncertainName(x *syntax.Uncertain) string {
	if name, ok := syntax.Dotted(x.Value); ok {
		return name
	}
	if _, ok := c.def.Stmt.(*syntax.Measured); ok {
		return "the reading"
	}
	if d, ok := c.def.Stmt.(*syntax.Definition); ok && c.def.Name != "" && syntax.Plain(syntax.Unparen(d.Value)) {
		return c.def.Name
	}
	return c.placeName(x)
}

// placeName is the address of an expression that is all of an argument in the
// definition's line; empty for any other.
func (c *checker) placeName(x syntax.Expr) string {
	d, ok := c.def.Stmt.(*syntax.Definition)
	if !ok || c.def.Name == "" {
		return ""
	}
	if a := c.whole.reach.At(x, d.Value, c.sheet.function); a != nil && a.Path != "" {
		return c.lineName() + "(" + a.Path + ")"
	}
	return ""
}

// lineName is the name that the line of the definition defines: an argument may have a
// definition of its own in it.
func (c *checker) lineName() string {
	name, _, _ := strings.Cut(c.def.Name, "(")
	return name
}

// uncertainUnit is the unit that a builder wrote the nominal in, or its bracket.
func (c *checker) uncertainUnit(value program.Node) units.Unit {
	switch x := value.(type) {
	case *program.Const:
		if x.Unit.IsZero() && c.unit != nil {
			return *c.unit
		}
		return x.Unit
	case *program.Ref:
		return x.Def.Unit()
	}
	return units.Unit{}
}

// around reads value ± spread and value within bound.
func (c *checker) around(x *syntax.Uncertain, source *program.Source) {
	value := c.expr(x.Value)
	spread := c.spread(x.Spread)
	if value == nil || spread == nil {
		return
	}
	elem, _ := program.Element(value.Type())
	q, ok := elem.(program.Quantity)
	s, okSpread := spread.Type().(program.Quantity)
	switch {
	case !ok || !okSpread:
		c.fail(x.Span, "only a quantity can have a spread, this is "+value.Type().String(), "")
		return
	case isPart(x) && q.Point:
		c.fail(x.Spread.Place(), "a part of "+q.String()+" means nothing", "give the spread in K or °C")
		return
	case q.Dim.IsNumber() && q.Dim != s.Dim && isBareBeside(x):
		value, spread := x.Value.(*syntax.Number), x.Spread.(*syntax.Number)
		c.fail(x.Value.Place(), "the value lacks the unit that its spread has", "write "+message.Quote(value.Text+" "+spread.Unit.Text+" "+x.Op+" "+spread.Text+" "+spread.Unit.Text))
		return
	case !isPart(x) && q.Dim != s.Dim:
		c.fail(x.Spread.Place(), s.String()+" as the spread of "+q.String(), "give the spread in a unit of the value, or as a part of it: `"+x.Op+" 2 %`")
		return
	}
	source.Value, source.Spread, source.Relative = value, spread, isPart(x)
}

// isBareBeside reports whether a number without a unit stands beside a spread with one.
func isBareBeside(x *syntax.Uncertain) bool {
	value, ok := x.Value.(*syntax.Number)
	spread, okSpread := x.Spread.(*syntax.Number)
	return ok && okSpread && value.Unit == nil && spread.Unit != nil && !isPart(x)
}

// isPart reports whether a spread is written as a part of its value: in % or ppm
// that are its own, not those of both as in (80 ± 4) %.
func isPart(x *syntax.Uncertain) bool {
	n, ok := syntax.Unparen(x.Spread).(*syntax.Number)
	if !ok || n.Unit == nil || n.Unit.Text != "%" && n.Unit.Text != "ppm" {
		return false
	}
	value, ok := x.Value.(*syntax.Number)
	return !ok || value.Unit != n.Unit
}

// spread checks what stands behind ± or within, where °C and °F are differences.
func (c *checker) spread(e syntax.Expr) program.Node {
	node := c.expr(e)
	k, ok := node.(*program.Const)
	if !ok {
		return node
	}
	n, isNumber := syntax.Unparen(e).(*syntax.Number)
	q, isQuantity := k.Type().(program.Quantity)
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
	return &program.Const{Typed: typed(k.Span, program.Quantity{Kind: u.Kind}), Value: u.ToSI(n.Value)}
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

// between is within a to b: evaluated at the middle.
func (c *checker) between(x *syntax.Uncertain, source *program.Source) {
	low, high := c.expr(x.Spread), c.expr(x.Upper)
	if low == nil || high == nil {
		return
	}
	a, okA := low.Type().(program.Quantity)
	b, okB := high.Type().(program.Quantity)
	if !okA || !okB || a.Dim != b.Dim || a.Point != b.Point {
		c.fail(x.Span, "the two bounds are not of one kind: "+low.Type().String()+" and "+high.Type().String(), "write both in one unit")
		return
	}
	ka, okA := low.(*program.Const)
	kb, okB := high.(*program.Const)
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
	source.Value = &program.Const{Typed: typed(x.Span, a), Value: (from + to) / 2, Unit: ka.Unit}
	source.Spread = &program.Const{Typed: typed(x.Span, difference), Value: (to - from) / 2}
}
