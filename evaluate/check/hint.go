package check

import (
	"errors"
	"maps"
	"regexp"
	"slices"
	"strings"

	"inkwing/evaluate/library"
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

// unknown says that a name means nothing, with the nearest that does.
func (c *checker) unknown(x *syntax.Name) {
	hint := ""
	switch {
	case c.sheet.Functions[x.Name] != nil || isFunction(x.Name):
		hint = "it is a function: call it with brackets, " + message.Quote(x.Name+"(…)")
	case c.sheet.Uses[x.Name] != nil:
		hint = "it is a worksheet: write which of its quantities, " + message.Quote(x.Name+".name")
	case magnetGrade.MatchString(x.Name):
		product := magnetGrade.FindStringSubmatch(x.Name)[1]
		hint = "for a magnet of that grade write " + message.Quote("magnet_grade(energy_product: "+product+" MGOe).remanence")
	default:
		hint = c.nearest(x.Name)
	}
	c.fail(x.Span, "no quantity "+message.Quote(x.Name)+" here", hint)
}

// magnetGrade is a magnet's grade as the trade writes it: its energy product in MGOe.
var magnetGrade = regexp.MustCompile(`^N(3[05]|3[38]|4[0258]|5[025])[A-Z]{0,2}$`)

func isFunction(name string) bool {
	_, ok := library.Lookup(name)
	return ok
}

func (c *checker) nearest(name string) string {
	near := c.nearParam(name)
	if near == "" {
		near = c.whole.speller.Nearest(name, c.sheet.spelled())
	}
	if near != "" {
		return "did you mean " + message.Quote(near) + "?"
	}
	if _, err := units.Parse(name); err == nil {
		return "the unit " + message.Quote(name) + " stands behind a number: " + message.Quote("1 "+name)
	}
	return "define it: " + message.Quote(name+" = …")
}

// keysOf are the names of a table's rows in order.
func (a *analysis) keysOf(rows *program.Rows) []string {
	if a.keys[rows] == nil {
		a.keys[rows] = slices.Sorted(maps.Keys(rows.Keys))
	}
	return a.keys[rows]
}

// callable are the names of what a sheet can call, in order.
func (s *sheet) callable() []string {
	if s.calls == nil {
		for _, f := range library.All() {
			s.calls = append(s.calls, f.Name)
		}
		s.calls = append(s.calls, slices.Collect(maps.Keys(s.Functions))...)
		slices.Sort(s.calls)
	}
	return s.calls
}

// spelled are the names of a sheet in order.
func (s *sheet) spelled() []string {
	if len(s.spelling) != len(s.Names) {
		s.spelling = slices.Sorted(maps.Keys(s.Names))
	}
	return s.spelling
}

func (c *checker) unknownFunction(x *syntax.Call) {
	hint := "`inkwing explain` lists the functions"
	switch near := c.whole.speller.Nearest(x.Func.Name, c.sheet.callable()); {
	case c.def.Name == x.Func.Name:
		hint = "the name is this line's own; " + hint
	case c.isQuantity(x.Func.Name):
		hint = "it is a quantity: to multiply write " + message.Quote(x.Func.Name+" * (…)")
	case near != "":
		hint = "did you mean " + message.Quote(near) + "?"
	}
	c.fail(x.Func.Span, "no function "+message.Quote(x.Func.Name), hint)
}

func (c *checker) noFields(x *syntax.Field, left program.Node) {
	c.fail(x.Span, left.Type().String()+" has no parts", "a point joins a record to its field: "+message.Quote("store.capacitance"))
}

// roundBracket is a heading with its unit in the wrong brackets.
var roundBracket = regexp.MustCompile(`^(.*?) ?\(([^()]+)\)$`)

// rowNamed is the hint for a row that is asked for as if it were a column.
func rowNamed(x *syntax.Field, left program.Node) string {
	ref, ok := left.(*program.Ref)
	if !ok || ref.Def.Rows() == nil {
		return ""
	}
	if _, found := ref.Def.Rows().Row(x.Name.Name); !found {
		return ""
	}
	return "a row is found by its key: write " + message.Quote(ref.Def.Name+"[\""+x.Name.Name+"\"]")
}

// nearField is the field that was probably meant, "" for none.
func (c *checker) nearField(name string, fields []program.Field) string {
	return c.whole.speller.NearestOf(name, len(fields), func(i int) string { return fields[i].Name })
}

// unnamed is the first field whose heading is no name, -1 for none.
func (c *checker) unnamed(fields []program.Field) int {
	if !c.whole.speller.Look(len(fields)) {
		return -1
	}
	return slices.IndexFunc(fields, func(f program.Field) bool { return !syntax.IsName(f.Name) })
}

// maxFields is how many fields a message lists whole, as many as a record of the library
// has: a table may have thousands of columns.
const maxFields = 50

func allNames(fields []program.Field) string {
	if len(fields) > maxFields {
		return program.FieldNames(fields)
	}
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.Name
	}
	return strings.Join(names, ", ")
}

func (c *checker) noField(x *syntax.Field, fields []program.Field) {
	hint := "it has " + allNames(fields)
	if i := c.unnamed(fields); i >= 0 {
		written := strings.ReplaceAll(fields[i].Name, "_", " ")
		hint = "a heading is a name of letters, digits and blanks, with its unit, such as `mass [g]`; " + message.Quote(written) + " is none"
		if m := roundBracket.FindStringSubmatch(written); m != nil {
			hint = "a unit stands in square brackets: write the heading " + message.Quote(m[1]+" ["+m[2]+"]")
		}
	} else if near := c.nearField(x.Name.Name, fields); near != "" {
		hint = didYouMean(near, hint)
	}
	c.fail(x.Name.Span, "no "+message.Quote(x.Name.Name)+" in it", hint)
}

func (c *checker) notInUsed(x *syntax.Field, used *program.Sheet) {
	hint := ""
	if near := c.whole.speller.Nearest(x.Name.Name, c.whole.sheets[used].spelled()); near != "" {
		hint = "did you mean " + message.Quote(near) + "?"
	}
	c.fail(x.Name.Span, "no "+message.Quote(x.Name.Name)+" in "+message.Quote(used.Name), hint)
}

func (c *checker) noRow(x *syntax.Index, table string, rows *program.Rows, key string) {
	hint, keys := "", c.whole.keysOf(rows)
	if near := c.whole.speller.Nearest(key, keys); near != "" {
		hint = "did you mean \"" + near + "\"?"
	} else if len(keys) <= program.MaxNames {
		hint = "it has \"" + strings.Join(keys, "\", \"") + "\""
	}
	c.fail(x.Key.Place(), "no row \""+key+"\" in "+message.Quote(table), hint)
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
