package check

import (
	"math"
	"strconv"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// overs checks the variables of a study.
func (c *checker) overs(verb string, list []syntax.Sweep, most int, mend string) ([]program.Variable, bool) {
	if len(list) > most {
		c.fail(list[most].Of.Place(), verb+" takes at most "+strconv.Itoa(most)+" variables", mend)
		return nil, false
	}
	over := make([]program.Variable, len(list))
	ok := true
	for i, s := range list {
		var good bool
		over[i], good = c.over(verb, s)
		ok = ok && good
		for _, earlier := range over[:i] {
			if good && earlier.Def == over[i].Def {
				c.fail(s.Of.Place(), message.Quote(over[i].Name)+" is varied twice", "name it once, with all its values in one range or list")
				return nil, false
			}
		}
	}
	return over, ok
}

// over checks one variable: a plain value, and what it runs over.
func (c *checker) over(verb string, s syntax.Sweep) (program.Variable, bool) {
	o := program.Variable{Name: syntax.Source(s.Of)}
	of := c.address(s.Of)
	if of == nil {
		return o, false
	}
	ref, isRef := of.(*program.Ref)
	if !isRef || !ref.Def.IsInput() {
		c.fail(s.Of.Place(), verb+" replaces plain values only; this is worked from others", c.insteadOf(of))
		return o, false
	}
	o.Def = ref.Def
	switch ref.Type().(type) {
	case program.List, *program.Table:
		c.fail(s.Of.Place(), verb+" replaces single values, this is "+ref.Type().String(), "give the value that changes a name of its own")
		return o, false
	}
	if s.In != nil {
		return o, c.among(s, &o)
	}
	return o, c.ranging(s, &o)
}

// among checks a list of values, or a table of rows.
func (c *checker) among(s syntax.Sweep, o *program.Variable) bool {
	o.In = c.inUnit(s.In, o.Def.Unit())
	if o.In == nil {
		return false
	}
	want := o.Def.Type
	_, isRow := want.(*program.Record)
	switch t := o.In.Type().(type) {
	case program.List:
		if program.Same(want, t.Elem) {
			return true
		}
		c.fail(s.In.Place(), t.String()+", in place of "+want.String(), "replace it by values of its own kind")
	case *program.Table:
		if isRow && program.Same(want, &program.Record{Fields: t.Columns}) {
			return true
		}
		c.fail(s.In.Place(), "the rows of this table cannot stand for "+message.Quote(o.Name)+", which is "+want.String(), "take the table that it is chosen from, or a column of its kind")
	default:
		c.fail(s.In.Place(), message.Quote(o.Name)+" wants more than one value to run over", "write a range, "+message.Quote("4 to 12 by 2")+", a list, "+message.Quote("[4, 6, 9]")+", or a table")
	}
	return false
}

// inUnit checks an expression whose bare numbers are in a unit.
func (c *checker) inUnit(e syntax.Expr, unit units.Unit) program.Node {
	if unit.IsZero() || !allBare(e) {
		return c.expr(e)
	}
	saved := c.unit
	c.unit = &unit
	defer func() { c.unit = saved }()
	return c.expr(e)
}

func allBare(e syntax.Expr) bool {
	list, ok := e.(*syntax.List)
	if !ok {
		return bare(e)
	}
	for _, item := range list.Items {
		if !bare(item) {
			return false
		}
	}
	return true
}

// ranging checks a range and its step.
func (c *checker) ranging(s syntax.Sweep, o *program.Variable) bool {
	q, isNumber := o.Def.Type.(program.Quantity)
	if !isNumber {
		c.fail(s.Of.Place(), message.Quote(o.Name)+" is "+o.Def.Type.String()+", and has no range", rangeless(o))
		return false
	}
	unit := o.Def.Unit()
	o.From, o.To = c.end(s.From, o.Def, q), c.end(s.To, o.Def, q)
	if o.From == nil || o.To == nil {
		return false
	}
	if s.By == nil {
		return true
	}
	if !unit.IsZero() {
		unit = unit.Difference()
	}
	o.By = c.step(s.By, o.Def, unit, q)
	return o.By != nil
}

func rangeless(o *program.Variable) string {
	if _, isRow := o.Def.Type.(*program.Record); isRow {
		return "let it run over the table it is chosen from: " + message.Quote(o.Name+" in cells")
	}
	return "let it run over a list: " + message.Quote(o.Name+" in [\"a\", \"b\"]")
}

// end checks an end of a range.
func (c *checker) end(e syntax.Expr, of *program.Def, want program.Quantity) program.Node {
	n := c.inUnit(e, of.Unit())
	if n == nil {
		return nil
	}
	if !program.Same(want, n.Type()) {
		c.fail(e.Place(), n.Type().String()+" where "+want.String()+" is wanted", unitMend(e, of, want))
		return nil
	}
	return n
}

// step checks a step, where °C and °F are differences.
func (c *checker) step(e syntax.Expr, of *program.Def, unit units.Unit, want program.Quantity) program.Node {
	var n program.Node
	if !unit.IsZero() && bare(e) {
		n = c.inUnit(e, unit)
	} else {
		n = c.spread(e)
	}
	if n == nil {
		return nil
	}
	want.Point = false
	if !program.Same(want, n.Type()) {
		c.fail(e.Place(), "a step of "+n.Type().String()+" where "+want.String()+" is wanted", unitMend(e, of, want))
		return nil
	}
	return n
}

// unitMend writes the unit behind a number that lacks it.
func unitMend(e syntax.Expr, of *program.Def, want program.Quantity) string {
	n, ok := e.(*syntax.Number)
	if !ok || n.Unit != nil || want.Dim.IsNumber() {
		return "give it in a unit of its kind"
	}
	unit := of.Written()
	if unit.Kind.Point && !want.Point {
		unit = unit.Difference()
	}
	if unit.IsZero() {
		return "write its unit: " + message.Quote(n.Text+" "+want.Dim.Unit())
	}
	return "write its unit: " + message.Quote(n.Text+" "+unit.String())
}

// steps sees that a range of vary has a step; plain whole numbers are counted.
func (c *checker) steps(s syntax.Sweep, o *program.Variable) bool {
	if o.In != nil || o.By != nil {
		return true
	}
	if whole(s.From) && whole(s.To) {
		u := units.MustParse("1")
		if !o.Def.Unit().IsZero() {
			u = o.Def.Unit().Difference()
		}
		o.By = &program.Const{Typed: typed(s.To.Place(), program.Quantity{Kind: u.Kind}), Value: u.ToSI(1)}
		return true
	}
	unit := o.Def.Written().String()
	c.fail(s.From.Place().To(s.To.Place()), "the range of "+message.Quote(o.Name)+" wants a step", "add "+message.Quote(spaced("by 1", unit)))
	return false
}

// whole reports whether an end is written as a bare whole number: such a range is
// counted one by one.
func whole(e syntax.Expr) bool {
	n, ok := e.(*syntax.Number)
	return ok && n.Unit == nil && n.Value == math.Trunc(n.Value)
}

func spaced(a, b string) string {
	if b == "" || b == "1" {
		return a
	}
	return a + " " + b
}
