package check

import (
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// workedCells numbers the cells of a table that hold what a quantity comes to: each
// is a definition of its own, so that only what looks at it needs it.
func (a *analysis) workedCells(s *sheet, table *program.Def, data *program.Data) {
	heads := data.Headings()
	for i, row := range data.Source.Rows {
		for k, c := range row {
			if c.Worked == nil || k >= len(heads) {
				continue
			}
			d := a.add(s, nil, c.Span, &program.Cell{Table: table, Row: i, Column: k, Of: c.Worked})
			d.Name = table.Name + "[" + data.Source.RowKey(i) + "]." + heads[k]
			data.Worked = append(data.Worked, d)
		}
	}
}

// worked is a worked cell while its table is read: it has no value yet.
func (r *reader) worked(column int, c syntax.Cell, row string) any {
	_, isText := r.columns[column].Type.(program.Text)
	if column == 0 && isText {
		r.say(column, c, "a row is found by its first cell, which cannot be worked", "write its key, and put "+message.Quote(c.Text)+" into another column")
		return r.told(column, row, c)
	}
	return program.Unknown{Span: c.Span, What: message.Quote(r.columns[column].Name) + " of " + message.Quote(row), Cell: r.cellName(column, row), Told: true}
}

// cell checks a worked cell against its heading.
func (a *analysis) cell(d *program.Def, b *program.Cell) {
	if b.Table.Type == nil {
		d.Waits = b.Table.Name
		return
	}
	want := b.Table.Type.(*program.Table).Columns[b.Column]
	if b.Of == nil {
		typedCell(d, b, want)
		return
	}
	c := a.checker(d)
	node := c.expr(b.Of.Of)
	if node != nil && c.single(b.Of.Of, node) && c.fitsHeading(b, want, node) && c.fitsBracket(b.Of, node) {
		d.Type, b.Node = node.Type(), node
	}
	c.finish()
}

// fitsHeading holds what a cell is worked from against its column.
func (c *checker) fitsHeading(b *program.Cell, want program.Field, node program.Node) bool {
	name, _ := syntax.Dotted(b.Of.Of)
	if program.Same(want.Type, node.Type()) {
		return true
	}
	hint := "the column is in " + want.Unit.String()
	if isText(want.Type) {
		hint = "give the heading a unit, such as " + message.Quote(want.Name+" ["+b.Of.Unit.Text+"]")
	}
	c.fail(b.Of.Of.Place(), message.Quote(name)+" is "+node.Type().String()+", and the column "+message.Quote(want.Name)+" holds "+columnOf(want.Type), hint)
	return false
}

// columnOf says what a column holds.
func columnOf(t program.Type) string {
	if isText(t) {
		return "texts"
	}
	return t.String()
}

// fitsBracket holds the unit that a cell shows its value in against that value.
func (c *checker) fitsBracket(w *syntax.Worked, node program.Node) bool {
	if strings.TrimSpace(w.Unit.Text) == "text" {
		if !isText(node.Type()) {
			c.fail(w.Unit.Span, node.Type().String()+" is no text", "write its unit in the bracket")
		}
		return !c.failed
	}
	if isText(node.Type()) {
		c.fail(w.Unit.Span, "a text has no unit", "write `[text]`")
		return false
	}
	u, err := units.Parse(w.Unit.Text)
	if err != nil {
		c.badUnit(&w.Unit, err)
		return false
	}
	return c.shownIn(node, w.Of, u) != nil
}

// A part of a table: a column of it, a row, or both.
type part struct {
	table  *program.Def
	column string      // empty for all
	row    syntax.Expr // a literal key or number; nil for all
}

// partOf is the part of a data table that an expression looks at; false where it is
// none.
func (s *sheet) partOf(e syntax.Expr, hidden func(string) bool) (part, bool) {
	return s.partWithin(e, hidden, maxPart)
}

// maxPart is of how many fields, elements and brackets a part of a table may be: a name
// has a field and a row at most, and few brackets. A chain of a thousand fields, which is
// none, is not followed from each of them.
const maxPart = 20

func (s *sheet) partWithin(e syntax.Expr, hidden func(string) bool, deep int) (part, bool) {
	if deep == 0 {
		return part{}, false
	}
	switch x := e.(type) {
	case *syntax.Paren:
		return s.partWithin(x.X, hidden, deep-1)
	case *syntax.Name:
		return tablePart(s.Names[x.Name], hidden(x.Name))
	case *syntax.Index:
		p, ok := s.partWithin(x.X, hidden, deep-1)
		if !ok || p.row != nil || !syntax.IsKey(x.Key) {
			return part{}, false
		}
		p.row = x.Key
		return p, true
	case *syntax.Field:
		if name, ok := x.X.(*syntax.Name); ok && !hidden(name.Name) {
			if p, ok := tablePart(s.throughUse(x, nil), false); ok {
				return p, true
			}
		}
		p, ok := s.partWithin(x.X, hidden, deep-1)
		if !ok || p.column != "" {
			return part{}, false
		}
		p.column = x.Name.Name
		return p, true
	}
	return part{}, false
}

func tablePart(d *program.Def, hidden bool) (part, bool) {
	if d == nil || hidden {
		return part{}, false
	}
	_, ok := d.Body.(*program.Data)
	return part{table: d}, ok
}

// cells are the worked cells in it.
func (p part) cells() []*program.Def {
	data := p.table.Body.(*program.Data)
	if p.column == "" && p.row == nil || len(data.Worked) == 0 {
		return data.Worked
	}
	var list []*program.Def
	heads := data.Headings()
	for _, d := range data.Worked {
		c := d.Body.(*program.Cell)
		if (p.column == "" || heads[c.Column] == p.column) && p.holds(data.Source, c.Row) {
			list = append(list, d)
		}
	}
	return list
}

// holds reports whether a row is the one that is picked, if one is.
func (p part) holds(t *syntax.Table, row int) bool {
	switch key := p.row.(type) {
	case *syntax.Number:
		return key.Value == float64(row+1)
	case *syntax.Text:
		return len(t.Rows[row]) > 0 && t.Rows[row][0].Text == key.Value
	}
	return true
}

// inPart checks a field or an element, and notes what of a table is looked at: the
// outermost of them knows best.
func (c *checker) inPart(e syntax.Expr, check func() program.Node) program.Node {
	if c.part != nil {
		return check()
	}
	p, ok := c.sheet.partOf(e, func(name string) bool { return c.hides(name) })
	if !ok {
		return check()
	}
	c.part = &p
	defer func() { c.part = nil }()
	return check()
}

// withCells gives a reference the worked cells that are looked at; it waits for one
// that is in error.
func (c *checker) withCells(ref *program.Ref) program.Node {
	p := part{table: ref.Def}
	if c.part != nil && c.part.table == ref.Def {
		p = *c.part
	}
	ref.Cells = p.cells()
	for _, d := range ref.Cells {
		if !d.OK() || d.Type == nil {
			return c.wait(d.Name)
		}
	}
	return ref
}
