package check

import (
	"inkwing/evaluate/syntax"
)

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
	if d == nil && used.unread(x.Name.Name) {
		return c.wait(name.Name + "." + x.Name.Name), true
	}
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

// countable reports whether a key is a pure number, or a text where keys may be.
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
