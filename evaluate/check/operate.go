package check

import (
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

func (c *checker) unary(x *syntax.Unary) program.Node {
	if x.Op == "not" {
		arg := c.truth(x.X, "not")
		if arg == nil {
			return nil
		}
		return &program.Op{Typed: typed(x.Span, program.Bool{}), Name: "not", At: x.OpAt, Args: []program.Node{arg}}
	}
	arg := c.expr(x.X)
	if arg == nil {
		return nil
	}
	q, _, ok := c.quantity(x.X, arg, "-")
	if !ok || !c.noPoint(x.X, q, "turned round") {
		return nil
	}
	return &program.Op{Typed: typed(x.Span, arg.Type()), Name: "neg", At: x.OpAt, Args: []program.Node{arg}}
}

// quantity is the kind of a number or of a list's numbers.
func (c *checker) quantity(e syntax.Expr, n program.Node, op string) (program.Quantity, bool, bool) {
	elem, list := program.Element(n.Type())
	q, ok := elem.(program.Quantity)
	if !ok {
		c.fail(e.Place(), message.Quote(op)+" works on numbers, this is "+n.Type().String(), c.recordHint(n))
	}
	return q, list, ok
}

func (c *checker) noPoint(e syntax.Expr, q program.Quantity, what string) bool {
	if q.Point {
		c.fail(e.Place(), "a temperature on a scale cannot be "+what, "take a difference first: "+message.Quote("T - 0 °C"))
	}
	return !q.Point
}

func (c *checker) binary(x *syntax.Binary) program.Node {
	if x.Op == "and" || x.Op == "or" {
		a, b := c.truth(x.X, x.Op), c.truth(x.Y, x.Op)
		if a == nil || b == nil {
			return nil
		}
		return &program.Op{Typed: typed(x.Span, program.Bool{}), Name: x.Op, At: x.OpAt, Args: []program.Node{a, b}}
	}
	a := c.expr(x.X)
	if c.spacedUnit(x) {
		return nil
	}
	b := c.expr(x.Y)
	if a == nil || b == nil {
		return nil
	}
	if joined, both := c.joined(x, a, b); both {
		return joined
	}
	qa, la, okA := c.quantity(x.X, a, x.Op)
	if !okA {
		return nil
	}
	qb, lb, okB := c.quantity(x.Y, b, x.Op)
	if !okB {
		return nil
	}
	q, ok := c.result(x, qa, qb)
	if !ok {
		return nil
	}
	var t program.Type = q
	if la || lb {
		t = program.List{Elem: q}
	}
	return &program.Op{Typed: typed(x.Span, t), Name: x.Op, At: x.OpAt, Args: []program.Node{a, b}}
}

func (c *checker) result(x *syntax.Binary, a, b program.Quantity) (program.Quantity, bool) {
	switch x.Op {
	case "+", "-":
		return c.sum(x, a, b)
	case "^":
		return c.power(x, a, b)
	}
	if !c.noPoint(x.X, a, "multiplied or divided") || !c.noPoint(x.Y, b, "multiplied or divided") {
		return program.Quantity{}, false
	}
	if x.Op == "*" {
		return product(a, b), true
	}
	return quotient(a, b), true
}

func (c *checker) sum(x *syntax.Binary, a, b program.Quantity) (program.Quantity, bool) {
	verb := "added to"
	if x.Op == "-" {
		verb = "taken from"
	}
	if a.Dim != b.Dim {
		d := message.Diagnostic{Span: x.Span, Summary: b.String() + " cannot be " + verb + " " + a.String(), Hint: c.sumHint(x, a, b)}
		c.withoutUnit(&d, x.X, a, x.Y, b)
		c.say(d)
		return program.Quantity{}, false
	}
	if !program.MarksAgree(a.Mark, b.Mark) {
		c.fail(x.Span, "a rotation and a rate cannot be added: a factor of 2π is lost", rateHint)
		return program.Quantity{}, false
	}
	q := program.Quantity{Kind: units.Kind{Dim: a.Dim, Mark: program.Either(a.Mark, b.Mark)}, Pi: a.Pi || b.Pi}
	switch {
	case a.Point && b.Point && x.Op == "+":
		c.fail(x.Span, "two temperatures on a scale cannot be added", "add a difference, written in K; or take the mean(…)")
		return q, false
	case !a.Point && b.Point && x.Op == "-":
		c.fail(x.Span, "a temperature on a scale cannot be taken from a difference", "turn the two round")
		return q, false
	}
	q.Point = a.Point != b.Point
	return q, true
}

// product of two kinds: a pure number keeps the other's mark, unless it was
// made with pi; rotation times time is an angle; all else is neutral.
func product(a, b program.Quantity) program.Quantity {
	q := program.Quantity{Kind: units.Kind{Dim: a.Dim.Mul(b.Dim)}}
	q.Pi = (a.Pi || b.Pi) && q.Dim.IsNumber()
	switch {
	case a.Pi || b.Pi:
	case a.Dim.IsNumber():
		q.Mark = b.Mark
	case b.Dim.IsNumber():
		q.Mark = a.Mark
	}
	return q
}

func quotient(a, b program.Quantity) program.Quantity {
	q := program.Quantity{Kind: units.Kind{Dim: a.Dim.Div(b.Dim)}}
	q.Pi = (a.Pi || b.Pi) && q.Dim.IsNumber()
	if !a.Pi && !b.Pi && b.Dim.IsNumber() {
		q.Mark = a.Mark
	}
	return q
}

func (c *checker) power(x *syntax.Binary, a, b program.Quantity) (program.Quantity, bool) {
	if !c.noPoint(x.X, a, "raised to a power") {
		return a, false
	}
	if !b.Dim.IsNumber() {
		c.fail(x.Y.Place(), "an exponent is a pure number, this is "+b.String(), "")
		return a, false
	}
	if a.Dim.IsNumber() {
		return program.Quantity{}, true
	}
	num, den, ok := literalQuotient(x.Y)
	if !ok {
		c.fail(x.Y.Place(), a.String()+" wants an exponent that is written out", "write a number such as 2, or a quotient of numbers in brackets such as (1/2)")
		return a, false
	}
	dim, ok := a.Dim.Pow(num, den)
	if !ok {
		c.fail(x.Y.Place(), "this power makes a dimension that is out of reach", "")
	}
	return program.Quantity{Kind: units.Kind{Dim: dim}}, ok
}

// literalQuotient reads 2, -3, 0.5 or (2/3).
func literalQuotient(e syntax.Expr) (num, den int, ok bool) {
	switch x := syntax.Unparen(e).(type) {
	case *syntax.Number:
		return rational(x)
	case *syntax.Unary:
		if x.Op == "-" {
			num, den, ok = literalQuotient(x.X)
			return -num, den, ok
		}
	case *syntax.Binary:
		if x.Op == "/" {
			a, b, okA := literalQuotient(x.X)
			p, q, okB := literalQuotient(x.Y)
			return a * q, b * p, okA && okB && p != 0
		}
	}
	return 0, 0, false
}

// rational turns a short decimal into a quotient: 1.5 is 3/2.
func rational(x *syntax.Number) (num, den int, ok bool) {
	if x.Unit != nil {
		return 0, 0, false
	}
	for den = 1; den <= 1000; den *= 10 {
		if v := x.Value * float64(den); v == float64(int(v)) && v < 1e6 && v > -1e6 {
			return int(v), den, true
		}
	}
	return 0, 0, false
}

func (c *checker) compare(x *syntax.Compare) program.Node {
	nodes := c.operands(x)
	if nodes == nil {
		return nil
	}
	return c.chain(x, nodes)
}

// operands checks the sides of a comparison against each other.
func (c *checker) operands(x *syntax.Compare) []program.Node {
	nodes := c.exprs(x.Operands)
	if nodes == nil {
		return nil
	}
	for i := range x.Ops {
		if !c.comparable(x, i, nodes[i], nodes[i+1]) {
			return nil
		}
	}
	return nodes
}

func (c *checker) comparable(x *syntax.Compare, i int, a, b program.Node) bool {
	at := x.Operands[i].Place().To(x.Operands[i+1].Place())
	ea, _ := program.Element(a.Type())
	eb, _ := program.Element(b.Type())
	qa, okA := ea.(program.Quantity)
	qb, okB := eb.(program.Quantity)
	if okA && okB {
		return c.comparableKinds(x, i, at, qa, qb)
	}
	equality := x.Ops[i] == "==" || x.Ops[i] == "!="
	_, isRecord := ea.(*program.Record)
	_, isTable := ea.(*program.Table)
	if !equality || isRecord || isTable || ea != eb {
		c.fail(at, b.Type().String()+" cannot be compared with "+a.Type().String(), "compare quantities of one kind")
		return false
	}
	return true
}

func (c *checker) comparableKinds(x *syntax.Compare, i int, at message.Span, a, b program.Quantity) bool {
	switch {
	case a.Dim != b.Dim:
		hint := c.factorHint(x.Operands[i], a, b.Kind, x.Operands[i+1])
		if name := a.Dim.Name(); name != "" { // of two things "it" is neither
			hint = strings.Replace(hint, "it would ", "the "+name+" would ", 1)
		}
		if a.Dim.IsNumber() || b.Dim.IsNumber() {
			hint = "does one of the two lack its unit?"
		}
		d := message.Diagnostic{Span: at, Summary: b.String() + " cannot be compared with " + a.String(), Hint: hint}
		c.withoutUnit(&d, x.Operands[i], a, x.Operands[i+1], b)
		c.say(d)
	case !program.MarksAgree(a.Mark, b.Mark):
		c.fail(at, "a rotation and a rate cannot be compared: a factor of 2π is lost", rateHint)
	case a.Point != b.Point:
		c.fail(at, b.String()+" cannot be compared with "+a.String(), "write the one on the scale in °C, a difference in K")
	default:
		return true
	}
	return false
}

// chain turns a <= b <= c into comparisons joined by and.
func (c *checker) chain(x *syntax.Compare, nodes []program.Node) program.Node {
	var all program.Node
	list := false
	for _, n := range nodes {
		_, l := program.Element(n.Type())
		list = list || l
	}
	var t program.Type = program.Bool{}
	if list {
		t = program.List{Elem: program.Bool{}}
	}
	for i, op := range x.Ops {
		var one program.Node = &program.Op{Typed: typed(x.Span, t), Name: op, At: x.OpsAt[i], Args: nodes[i : i+2]}
		if all == nil {
			all = one
			continue
		}
		all = &program.Op{Typed: typed(x.Span, t), Name: "and", At: x.OpsAt[i], Args: []program.Node{all, one}}
	}
	return all
}
