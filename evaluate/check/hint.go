package check

import (
	"errors"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// rateHint is both mends of a rotation met with a rate.
const rateHint = "for a rotation write rpm, rev/s or rad/s; for a rate Hz or s^-1; to go from one to the other multiply or divide by `(2 * pi)`"

// pointHint tells a point on the scale from a difference.
const pointHint = "°C stands for a temperature on a scale, K for a difference: 293.15 K on the scale is written 20 °C"

// UnitError is a units error in two sentences.
func UnitError(err error) (summary, hint string) {
	var e *units.Error
	if !errors.As(err, &e) {
		return err.Error(), ""
	}
	return e.Summary, e.Hint
}

// withoutUnit says of two quantities that do not go together that one is written
// without its unit, where that is so, and points at the line where it is.
func (c *checker) withoutUnit(d *message.Diagnostic, x syntax.Expr, a program.Quantity, y syntax.Expr, b program.Quantity) {
	switch {
	case a.Dim.IsNumber():
		c.pointAtBare(d, x, y, b)
	case b.Dim.IsNumber():
		c.pointAtBare(d, y, x, a)
	}
}

func (c *checker) pointAtBare(d *message.Diagnostic, bare, other syntax.Expr, want program.Quantity) {
	def, number := c.bareInput(bare)
	if def == nil {
		return
	}
	unit := want.Dim.Unit()
	if q, n := c.bareInput(other); q != nil && n.Unit != nil {
		unit = n.Unit.Text
	} else if n, ok := other.(*syntax.Number); ok && n.Unit != nil {
		unit = n.Unit.Text
	}
	d.Hint = message.Quote(def.Name) + " is written without a unit: write " + message.Quote(number.Text+" "+unit)
	d.Notes = append(d.Notes, message.Note{Span: def.Stmt.Place(), Text: "it stands here"})
}

// bareInput is a plain value that an expression names and the number that it is
// written as; nil for none.
func (c *checker) bareInput(x syntax.Expr) (*program.Def, *syntax.Number) {
	name, ok := x.(*syntax.Name)
	if !ok || c.hides(name.Name) {
		return nil, nil
	}
	def := c.sheet.Names[name.Name]
	if def == nil {
		return nil, nil
	}
	stmt, ok := def.Stmt.(*syntax.Definition)
	if !ok || stmt.Unit != nil {
		return nil, nil
	}
	number, ok := stmt.Value.(*syntax.Number)
	if !ok {
		return nil, nil
	}
	return def, number
}

// badUnit says why a text is no unit, and whether a quantity was meant.
func (c *checker) badUnit(x *syntax.Unit, err error) {
	summary, hint := UnitError(err)
	at := x.Span
	var e *units.Error
	if errors.As(err, &e) && e.End > e.Start {
		part := x.Text[e.Start:e.End]
		at = message.Span{File: at.File, Start: at.Start + e.Start, End: at.Start + e.End}
		if c.isQuantity(part) {
			hint = c.spacesHint(x.Text, e.Start, part)
		}
	}
	if hint == "" {
		hint = unknownUnitHint(x.Text)
	}
	c.fail(at, summary, hint)
}

// unknownUnitHint is the mend where nothing is spelled like it.
func unknownUnitHint(text string) string {
	if strings.ContainsAny(text, "/*·") {
		return "the unit is the whole run behind the blank: put spaces around `/` or `*` if a quantity follows"
	}
	return "write it in units that are known, such as m, kg, V or rpm"
}

// spacesHint is the mend for 12 V/R with a quantity R.
func (c *checker) spacesHint(text string, start int, part string) string {
	switch {
	case start == 0:
		return "there is no multiplication without `*`: write ` * " + part + "` for the quantity " + message.Quote(part)
	case strings.HasSuffix(text[:start], "/"):
		return "put spaces around `/` to divide by the quantity " + message.Quote(part)
	}
	return "put spaces around `*` to multiply by the quantity " + message.Quote(part)
}

func (c *checker) isQuantity(name string) bool {
	return c.hides(name) || c.sheet.Names[name] != nil
}

// spacedUnit catches 10 m / s, where s is a unit and no quantity.
func (c *checker) spacedUnit(x *syntax.Binary) bool {
	n, ok := x.X.(*syntax.Number)
	name, isName := x.Y.(*syntax.Name)
	if !ok || !isName || n.Unit == nil || x.Op != "/" && x.Op != "*" || c.isQuantity(name.Name) {
		return false
	}
	joined := n.Unit.Text + x.Op + name.Name
	if _, err := units.Parse(joined); err != nil {
		return false
	}
	c.fail(name.Span, "no quantity "+message.Quote(name.Name)+" here", "if the unit is meant, write it without blanks: "+message.Quote(n.Text+" "+joined))
	return true
}

// recordHint points from a record to the field that may be meant.
func (c *checker) recordHint(n program.Node) string {
	if elem, _ := program.Element(n.Type()); elem == (program.Text{}) {
		return columnHint(n)
	}
	r, ok := n.Type().(*program.Record)
	if !ok {
		return ""
	}
	for _, f := range r.Fields {
		if _, isQuantity := f.Type.(program.Quantity); isQuantity {
			return "name one of its fields, such as " + message.Quote("."+f.Name)
		}
	}
	return ""
}

// columnHint is the mend where a column without a unit was read as texts.
func columnHint(n program.Node) string {
	name := ""
	switch x := n.(type) {
	case *program.ColumnOf:
		name = x.X.Type().(*program.Table).Columns[x.Index].Name
	case *program.FieldOf:
		if of, isRow := x.X.(*program.ElementOf); isRow {
			if _, isTable := of.X.Type().(*program.Table); isTable {
				name = of.Type().(*program.Record).Fields[x.Index].Name
			}
		}
	}
	if name == "" {
		return ""
	}
	return "a column holds numbers if its heading has a unit, as `mass [g]` has; write " + message.Quote(name+" [1]") + " for pure numbers"
}

// mismatch says that a definition is not of its bracket's dimension.
func (c *checker) mismatch(e syntax.Expr, node program.Node, want units.Kind) {
	elem, _ := program.Element(node.Type())
	q := elem.(program.Quantity)
	d := message.Diagnostic{Span: e.Place(), Summary: q.String() + " where " + want.String() + " is wanted"}
	switch {
	case q.Dim == want.Dim && q.Point != want.Point:
		d.Hint = pointHint
	case q.Dim == want.Dim:
		d.Summary += ": a factor of 2π would be lost"
		d.Hint = rateHint
	default:
		d.Hint = c.factorHint(e, q, want, nil)
		c.bareFactor(&d, e, want.Dim.Div(q.Dim))
	}
	c.say(d)
}

// factorHint looks for the one factor that would make got into want: a square
// forgotten, a factor too many, a voltage for a charge.
func (c *checker) factorHint(e syntax.Expr, got program.Quantity, want units.Kind, other syntax.Expr) string {
	if rate := exchange(want, got.Kind); rate != "" {
		return rate
	}
	missing, over := want.Dim.Div(got.Dim), got.Dim.Div(want.Dim)
	hint := ""
	for _, leaf := range c.leaves(e, nil) {
		switch {
		case hint != "":
		case leaf.dim == missing:
			hint = "one factor " + message.Quote(leaf.text) + " more would make it one: is a square forgotten?"
		case leaf.dim == over:
			hint = "one factor " + message.Quote(leaf.text) + " less would make it one"
		}
	}
	perTime := units.MustParse("1/s").Kind.Dim
	switch {
	case hint != "" || got.Dim.IsNumber():
	case over.Name() != "" && !over.IsNumber() && over != perTime:
		hint = "it would have to be divided by " + article(over.Name()) + " (" + over.Unit() + ")"
	case missing.Name() != "" && !missing.IsNumber():
		hint = "it would take a factor of " + article(missing.Name()) + " (" + missing.Unit() + ")"
	}
	return join(hint, c.readings(e), c.readings(other))
}

// didYouMean puts the nearest name before another hint.
func didYouMean(near, hint string) string {
	return "did you mean " + message.Quote(near) + "? " + strings.ToUpper(hint[:1]) + hint[1:]
}

func article(name string) string {
	if strings.ContainsRune("aeiou", rune(name[0])) {
		return "an " + name
	}
	return "a " + name
}

func join(parts ...string) string {
	var list []string
	for _, p := range parts {
		if p != "" {
			list = append(list, p)
		}
	}
	return strings.Join(list, "; ")
}
