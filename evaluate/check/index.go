package check

import (
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

func (c *checker) field(x *syntax.Field) program.Node {
	if node, done := c.through(x); done {
		return node
	}
	left := c.expr(x.X)
	if left == nil {
		return nil
	}
	var fields []program.Field
	switch t := left.Type().(type) {
	case *program.Record:
		fields = t.Fields
	case *program.Table:
		fields = t.Columns
	default:
		c.noFields(x, left)
		return nil
	}
	i := c.whole.place(fields, x.Name.Name)
	if hint := rowNamed(x, left); i < 0 && hint != "" {
		c.fail(x.Name.Span, "no column "+message.Quote(x.Name.Name)+" in it", hint)
		return nil
	}
	if i < 0 {
		c.noField(x, fields)
		return nil
	}
	if _, table := left.Type().(*program.Table); table {
		return &program.ColumnOf{Typed: typed(x.Span, program.List{Elem: fields[i].Type}), X: left, Index: i}
	}
	return &program.FieldOf{Typed: typed(x.Span, fields[i].Type), X: left, Index: i}
}

// through follows parts.n_series into a used sheet.
func (c *checker) through(x *syntax.Field) (program.Node, bool) {
	name, ok := x.X.(*syntax.Name)
	if !ok || c.hides(name.Name) || c.sheet.Names[name.Name] != nil {
		return nil, false
	}
	if c.sheet.Broken[name.Name] {
		return c.wait(name.Name), true
	}
	used := c.sheet.Uses[name.Name]
	if used == nil {
		return nil, false
	}
	d := used.Names[x.Name.Name]
	if d == nil && c.whole.sheets[used].unread[x.Name.Name] {
		return c.wait(name.Name + "." + x.Name.Name), true
	}
	if d == nil {
		c.notInUsed(x, used)
		return nil, true
	}
	return c.ref(d, x.Span, name.Name+"."+x.Name.Name), true
}

// keyed refuses a key without its quotes, which would be taken for a quantity.
func (c *checker) keyed(x *syntax.Index, left program.Node) bool {
	name, ok := x.Key.(*syntax.Name)
	ref, isRef := left.(*program.Ref)
	if !ok || !isRef || c.isQuantity(name.Name) || ref.Def.Rows() == nil {
		return true
	}
	if _, found := ref.Def.Rows().Row(name.Name); !found {
		return !c.noKey(x, name, ref)
	}
	c.fail(x.Key.Place(), "the key of a row stands in quotes", "write "+message.Quote(ref.Def.Name+"[\""+name.Name+"\"]"))
	return false
}

// noKey says of a name that is neither a quantity nor a key of its table what keys there
// are, and reports whether it has.
func (c *checker) noKey(x *syntax.Index, name *syntax.Name, ref *program.Ref) bool {
	table, ok := ref.Type().(*program.Table)
	if !ok || !table.Keyed || c.sheet.Uses[name.Name] != nil {
		return false
	}
	c.noRow(x, ref.Def.Name, ref.Def.Rows(), name.Name)
	return true
}

func (c *checker) index(x *syntax.Index) program.Node {
	left := c.expr(x.X)
	if left != nil && !c.keyed(x, left) {
		return nil
	}
	if left != nil && c.fieldMeant(x, left) {
		return nil
	}
	key := c.expr(x.Key)
	if left == nil || key == nil {
		return nil
	}
	switch t := left.Type().(type) {
	case program.List:
		if c.countable(x.Key, key, false) {
			return &program.ElementOf{Typed: typed(x.Span, t.Elem), X: left, Key: key}
		}
	case *program.Table:
		if c.countable(x.Key, key, t.Keyed) && c.knownKey(x, left, key) {
			return &program.ElementOf{Typed: typed(x.Span, &program.Record{Fields: t.Columns}), X: left, Key: key}
		}
	default:
		c.fail(x.X.Place(), left.Type().String()+" has no rows or elements", "square brackets pick a row of a table or an element of a list")
	}
	return nil
}

// fieldMeant says of a field in square brackets that it stands behind a point.
func (c *checker) fieldMeant(x *syntax.Index, left program.Node) bool {
	record, isRecord := left.Type().(*program.Record)
	name, isName := x.Key.(*syntax.Name)
	of, dotted := syntax.Dotted(x.X)
	if !isRecord || !isName || !dotted || record.Index(name.Name) < 0 {
		return false
	}
	c.fail(x.Key.Place(), "a field stands behind a point", "write "+message.Quote(of+"."+name.Name))
	return true
}

// countable reports whether a key is a pure number, or a text where keys may be.
func (c *checker) countable(e syntax.Expr, key program.Node, texts bool) bool {
	switch t := key.Type().(type) {
	case program.Quantity:
		if t.Dim.IsNumber() {
			return true
		}
	case program.Text:
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
func (c *checker) knownKey(x *syntax.Index, left, key program.Node) bool {
	ref, isRef := left.(*program.Ref)
	k, isConst := key.(*program.Const)
	if !isRef || !isConst {
		return true
	}
	data, isData := ref.Def.Body.(*program.Data)
	if !isData {
		return true
	}
	text, isText := k.Value.(string)
	if !isText {
		return true
	}
	if _, ok := data.Rows.Keys[text]; ok {
		return true
	}
	c.noRow(x, ref.Def.Name, data.Rows, text)
	return false
}
