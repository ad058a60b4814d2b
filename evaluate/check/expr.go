package check

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// typed is what a node at a place has.
func typed(at message.Span, t program.Type) program.Typed { return program.Typed{Span: at, Of: t} }

// checker checks the expressions of one definition. A method that returns nil
// has either said what is wrong (failed) or found what it waits for (waits).
type checker struct {
	whole  *analysis
	def    *program.Def
	sheet  *sheet
	params map[string]*program.Param // of the builder's function being checked
	row    *rowScope                 // what is asked of the rows of a table
	at     *message.Span             // of the call, inside a generic function's body
	unit   *units.Unit               // what a bare number is in
	part   *part                     // of a table, where one is looked at
	listed map[string]bool           // columns that a show names
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
		d.Notes = append(d.Notes, message.Note{Span: *c.at, Text: message.CalledHere})
	}
	c.sheet.say(d)
}

func (c *checker) fail(at message.Span, summary, hint string) {
	c.say(message.Diagnostic{Span: at, Summary: summary, Hint: hint})
}

// wait poisons quietly: what is named failed and has said so itself.
func (c *checker) wait(name string) program.Node {
	if c.waits == "" {
		c.waits = name
	}
	return nil
}

// expr checks an expression.
func (c *checker) expr(e syntax.Expr) program.Node {
	if c.nodes++; c.nodes > MaxExpression {
		return c.exhaust("this line is too long to work, counting in the functions that it calls", "give its parts names of their own")
	}
	if c.at != nil && c.tooMuchPut() {
		return nil
	}
	if d := c.sheet.stands[e]; d != nil && d != c.def {
		return c.stand(d, e)
	}
	switch x := e.(type) {
	case *syntax.Number:
		return c.number(x)
	case *syntax.Text:
		return &program.Const{Typed: typed(x.Span, program.Text{}), Value: x.Value}
	case *syntax.Truth:
		return &program.Const{Typed: typed(x.Span, program.Bool{}), Value: x.Value}
	case *syntax.Name:
		return c.name(x)
	case *syntax.Paren:
		return c.expr(x.X)
	case *syntax.Uncertain:
		return c.uncertain(x)
	case *syntax.List:
		return c.list(x)
	case *syntax.Field:
		return c.inPart(x, func() program.Node { return c.field(x) })
	case *syntax.Index:
		return c.inPart(x, func() program.Node { return c.index(x) })
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
	case *syntax.Chosen:
		return c.chosen(x)
	case *syntax.With:
		return c.with(x)
	case *syntax.Argument:
		return c.unreached(x)
	}
	verb := studyVerb(e)
	c.fail(e.Place(), message.Quote(verb)+" has no place in a function", "give it a line of its own: "+message.Quote("name = "+verb+" …"))
	return nil
}

// studyVerb is the word that a study begins with.
func studyVerb(e syntax.Expr) string {
	switch e.(type) {
	case *syntax.Vary:
		return "vary"
	case *syntax.Adjust:
		return "adjust"
	case *syntax.Tune:
		return "tune"
	}
	panic("check: no such expression")
}

// exhaust says once that a statement is too much to work.
func (c *checker) exhaust(summary, hint string) program.Node {
	if !c.whole.exhausted[c.def] {
		c.whole.exhausted[c.def] = true
		c.sheet.fail(c.def.Place, summary, hint)
	}
	c.failed, c.def.Failed = true, true
	return nil
}

// maxPut bounds the parts of the builder's functions that are put in for all their calls.
const maxPut = 500_000

// tooMuchPut counts one more of them, and says once that there are too many.
func (c *checker) tooMuchPut() bool {
	c.whole.put++
	switch {
	case c.whole.put <= maxPut:
		return false
	case c.whole.put == maxPut+1:
		c.exhaust("with this the lines come to more than 500,000 parts, counting in the functions that they call", "give what is worked again and again a name of its own")
	}
	c.failed, c.def.Failed = true, true
	return true
}

// exprs checks all, so that waiting and failing are found in each.
func (c *checker) exprs(list []syntax.Expr) []program.Node {
	nodes := make([]program.Node, len(list))
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

func (c *checker) number(x *syntax.Number) program.Node {
	u := units.MustParse("1")
	var written units.Unit
	switch {
	case x.Unit != nil:
		var err error
		if u, err = units.Parse(x.Unit.Text); err != nil {
			c.badUnit(x.Unit, err)
			return nil
		}
		if x.Unit.Leading {
			u = u.Leading()
		}
		written = u
	case c.unit != nil:
		u = *c.unit
	}
	return &program.Const{Typed: typed(x.Span, program.Quantity{Kind: u.Kind}), Value: u.ToSI(x.Value), Unit: written}
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

func (c *checker) name(x *syntax.Name) program.Node {
	if p := c.param(x.Name); p != nil {
		return &program.Local{Typed: typed(x.Span, p.Type), Param: p}
	}
	if d := c.sheet.Names[x.Name]; d != nil {
		return c.ref(d, x.Span, x.Name)
	}
	if si, u, ok := library.Constant(x.Name); ok {
		return &program.Const{Typed: typed(x.Span, program.Quantity{Kind: u.Kind, Pi: x.Name == "pi"}), Value: si}
	}
	if c.sheet.unread[x.Name] || c.sheet.Broken[x.Name] {
		return c.wait(x.Name)
	}
	c.unknown(x)
	return nil
}

func (c *checker) ref(d *program.Def, at message.Span, name string) program.Node {
	if !d.OK() || d.Type == nil {
		return c.wait(name)
	}
	ref := &program.Ref{Typed: typed(at, d.Type), Def: d}
	if data, ok := d.Body.(*program.Data); ok && len(data.Worked) > 0 {
		return c.withCells(ref)
	}
	return ref
}

func (c *checker) list(x *syntax.List) program.Node {
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
		if !program.Same(first, n.Type()) {
			c.fail(x.Items[i+1].Place(), n.Type().String()+" in a list that begins with "+first.String(), "the values of a list are of one kind")
			return nil
		}
	}
	switch first.(type) {
	case program.List, *program.Table:
		c.fail(x.Span, "a list holds single values, not "+first.String(), "")
		return nil
	}
	return &program.ListOf{Typed: typed(x.Span, program.List{Elem: first}), Items: items}
}

func (c *checker) conditional(x *syntax.If) program.Node {
	cond := c.truth(x.Cond, "if")
	then, other := c.expr(x.Then), c.expr(x.Else)
	if cond == nil || then == nil || other == nil {
		return nil
	}
	t := then.Type()
	if !program.Same(t, other.Type()) {
		c.fail(x.Else.Place(), "else gives "+other.Type().String()+", then gives "+t.String(), "both must be of one kind")
		return nil
	}
	return &program.If{Typed: typed(x.Span, merged(t, other.Type())), Cond: cond, Then: then, Else: other}
}

// merged is a type with the mark of both.
func merged(a, b program.Type) program.Type {
	qa, ok := a.(program.Quantity)
	qb, okB := b.(program.Quantity)
	if !ok || !okB {
		return a
	}
	qa.Mark = program.Either(qa.Mark, qb.Mark)
	qa.Pi = qa.Pi || qb.Pi
	return qa
}

func (c *checker) truth(e syntax.Expr, word string) program.Node {
	node := c.expr(e)
	if node == nil {
		return nil
	}
	if _, ok := node.Type().(program.Bool); !ok {
		c.fail(e.Place(), message.Quote(word)+" wants a truth (yes or no), this is "+node.Type().String(), "compare it with something: "+message.Quote("x > 0"))
		return nil
	}
	return node
}
