package check

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// checker checks the expressions of one definition. A method that returns nil
// has either said what is wrong (failed) or found what it waits for (waits).
type checker struct {
	def    *Def
	sheet  *Sheet
	params map[string]*Param // of the builder's function being checked
	at     *message.Span     // of the call, inside a generic function's body
	unit   *units.Unit       // what a bare number is in
	failed bool
	waits  string
	nodes  int // so far, against MaxExpression
}

func (c *checker) say(d message.Diagnostic) {
	if c.failed {
		return
	}
	c.failed = true
	if c.at != nil && d.Span.File == c.at.File {
		d.Notes = append(d.Notes, message.Note{Span: *c.at, Text: "called here"})
	}
	c.sheet.say(d)
}

func (c *checker) fail(at message.Span, summary, hint string) {
	c.say(message.Diagnostic{Span: at, Summary: summary, Hint: hint})
}

// wait poisons quietly: what is named failed and has said so itself.
func (c *checker) wait(name string) Node {
	if c.waits == "" {
		c.waits = name
	}
	return nil
}

// expr checks an expression.
func (c *checker) expr(e syntax.Expr) Node {
	if c.nodes++; c.nodes > MaxExpression {
		c.fail(e.Place(), "this line comes to too much, the functions it calls put in", "give its parts names of their own")
		return nil
	}
	switch x := e.(type) {
	case *syntax.Number:
		return c.number(x)
	case *syntax.Text:
		return &Const{typed: typed{x.Span, Text{}}, Value: x.Value}
	case *syntax.Truth:
		return &Const{typed: typed{x.Span, Truth{}}, Value: x.Value}
	case *syntax.Name:
		return c.name(x)
	case *syntax.Paren:
		return c.expr(x.X)
	case *syntax.Uncertain:
		return c.uncertain(x)
	case *syntax.List:
		return c.list(x)
	case *syntax.Field:
		return c.field(x)
	case *syntax.Index:
		return c.index(x)
	case *syntax.Unary:
		return c.unary(x)
	case *syntax.Binary:
		return c.binary(x)
	case *syntax.Compare:
		return c.compare(x)
	case *syntax.If:
		return c.conditional(x)
	case *syntax.Call:
		return c.call(x)
	case *syntax.With:
		return c.with(x)
	}
	c.fail(e.Place(), quote(studyVerb(e))+" is not worked yet", "")
	return nil
}

// exprs checks all, so that waiting and failing are found in each.
func (c *checker) exprs(list []syntax.Expr) []Node {
	nodes := make([]Node, len(list))
	ok := true
	for i, e := range list {
		nodes[i] = c.expr(e)
		ok = ok && nodes[i] != nil
	}
	if !ok {
		return nil
	}
	return nodes
}

func (c *checker) number(x *syntax.Number) Node {
	u := units.MustParse("1")
	var written units.Unit
	switch {
	case x.Unit != nil:
		var err error
		if u, err = units.Parse(x.Unit.Text); err != nil {
			c.badUnit(x.Unit, err)
			return nil
		}
		written = u
	case c.unit != nil:
		u = *c.unit
	}
	return &Const{typed: typed{x.Span, Quantity{Kind: u.Kind}}, Value: u.ToSI(x.Value), Unit: written}
}

// bracket reads the unit in a definition's bracket.
func (c *checker) bracket(x *syntax.Unit) (units.Unit, bool) {
	if x == nil {
		return units.Unit{}, false
	}
	u, err := units.Parse(x.Text)
	if err != nil {
		c.badUnit(x, err)
	}
	return u, true
}

func (c *checker) name(x *syntax.Name) Node {
	if p := c.params[x.Name]; p != nil {
		return &Local{typed{x.Span, p.Type}, p}
	}
	if d := c.sheet.Names[x.Name]; d != nil {
		return c.ref(d, x.Span, x.Name)
	}
	if si, u, ok := library.Constant(x.Name); ok {
		return &Const{typed: typed{x.Span, Quantity{Kind: u.Kind, Pi: x.Name == "pi"}}, Value: si}
	}
	c.unknown(x)
	return nil
}

func (c *checker) ref(d *Def, at message.Span, name string) Node {
	if !d.OK() || d.Type == nil {
		return c.wait(name)
	}
	return &Ref{typed{at, d.Type}, d}
}

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

func unparen(e syntax.Expr) syntax.Expr {
	for {
		p, ok := e.(*syntax.Paren)
		if !ok {
			return e
		}
		e = p.X
	}
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

func (c *checker) list(x *syntax.List) Node {
	if len(x.Items) == 0 {
		c.fail(x.Span, "a list needs at least one value", "")
		return nil
	}
	items := c.exprs(x.Items)
	if items == nil {
		return nil
	}
	first := items[0].Type()
	for i, n := range items[1:] {
		if !same(first, n.Type()) {
			c.fail(x.Items[i+1].Place(), n.Type().String()+" in a list that begins with "+first.String(), "the values of a list are of one kind")
			return nil
		}
	}
	switch first.(type) {
	case List, *Table:
		c.fail(x.Span, "a list holds single values, not "+first.String(), "")
		return nil
	}
	return &ListOf{typed{x.Span, List{first}}, items}
}

func (c *checker) field(x *syntax.Field) Node {
	if node, done := c.through(x); done {
		return node
	}
	left := c.expr(x.X)
	if left == nil {
		return nil
	}
	var fields []Field
	switch t := left.Type().(type) {
	case *Record:
		fields = t.Fields
	case *Table:
		fields = t.Columns
	default:
		c.noFields(x, left)
		return nil
	}
	i := find(fields, x.Name.Name)
	if i < 0 {
		c.noField(x, fields)
		return nil
	}
	if _, table := left.Type().(*Table); table {
		return &ColumnOf{typed{x.Span, List{fields[i].Type}}, left, i}
	}
	return &FieldOf{typed{x.Span, fields[i].Type}, left, i}
}

// through follows parts.n_series into a used sheet.
func (c *checker) through(x *syntax.Field) (Node, bool) {
	name, ok := x.X.(*syntax.Name)
	if !ok || c.params[name.Name] != nil || c.sheet.Names[name.Name] != nil {
		return nil, false
	}
	for _, broken := range c.sheet.Broken {
		if broken == name.Name {
			return c.wait(name.Name), true
		}
	}
	used := c.sheet.Uses[name.Name]
	if used == nil {
		return nil, false
	}
	d := used.Names[x.Name.Name]
	if d == nil {
		c.notInUsed(x, used)
		return nil, true
	}
	return c.ref(d, x.Span, name.Name+"."+x.Name.Name), true
}

func (c *checker) index(x *syntax.Index) Node {
	left, key := c.expr(x.X), c.expr(x.Key)
	if left == nil || key == nil {
		return nil
	}
	switch t := left.Type().(type) {
	case List:
		if c.countable(x.Key, key, false) {
			return &ElementOf{typed{x.Span, t.Elem}, left, key}
		}
	case *Table:
		if c.countable(x.Key, key, t.Keyed) && c.knownKey(x, left, key) {
			return &ElementOf{typed{x.Span, &Record{t.Columns}}, left, key}
		}
	default:
		c.fail(x.X.Place(), left.Type().String()+" has no rows or elements", "square brackets pick a row of a table or an element of a list")
	}
	return nil
}

// countable says whether a key is a pure number, or a text where keys may be.
func (c *checker) countable(e syntax.Expr, key Node, texts bool) bool {
	switch t := key.Type().(type) {
	case Quantity:
		if t.Dim.IsNumber() {
			return true
		}
	case Text:
		if texts {
			return true
		}
		c.fail(e.Place(), "its rows have no keys", "rows have keys if the first column is text; else count them from 1")
		return false
	}
	c.fail(e.Place(), "rows and elements are counted from 1, this is "+key.Type().String(), "")
	return false
}

// knownKey looks a literal key up at once.
func (c *checker) knownKey(x *syntax.Index, left, key Node) bool {
	ref, isRef := left.(*Ref)
	k, isConst := key.(*Const)
	if !isRef || !isConst || ref.Def.Rows == nil {
		return true
	}
	text, isText := k.Value.(string)
	if !isText {
		return true
	}
	if _, ok := ref.Def.Rows.Keys[text]; ok {
		return true
	}
	c.noRow(x, ref.Def, text)
	return false
}

func (c *checker) conditional(x *syntax.If) Node {
	cond := c.truth(x.Cond, "if")
	then, other := c.expr(x.Then), c.expr(x.Else)
	if cond == nil || then == nil || other == nil {
		return nil
	}
	t := then.Type()
	if !same(t, other.Type()) {
		c.fail(x.Else.Place(), "else gives "+other.Type().String()+", then gives "+t.String(), "both must be of one kind")
		return nil
	}
	return &If{typed{x.Span, merged(t, other.Type())}, cond, then, other}
}

// merged is a type with the mark of both.
func merged(a, b Type) Type {
	qa, ok := a.(Quantity)
	qb, okB := b.(Quantity)
	if !ok || !okB {
		return a
	}
	qa.Mark = either(qa.Mark, qb.Mark)
	qa.Pi = qa.Pi || qb.Pi
	return qa
}

func (c *checker) truth(e syntax.Expr, word string) Node {
	node := c.expr(e)
	if node == nil {
		return nil
	}
	if _, ok := node.Type().(Truth); !ok {
		c.fail(e.Place(), quote(word)+" wants a truth (yes or no), this is "+node.Type().String(), "compare it with something: "+quote("x > 0"))
		return nil
	}
	return node
}

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
