package check

import (
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

// chosen checks rows that are chosen, ordered or cut. What is asked of a row sees
// its columns first, then what the sheet names.
func (c *checker) chosen(x *syntax.Chosen) program.Node {
	left := c.table(x.X, string(x.How))
	if left == nil {
		return nil
	}
	t := left.Type().(*program.Table)
	node := &program.Chosen{Typed: typed(x.Span, t), X: left, How: x.How}
	if x.How == syntax.First {
		node.Of = c.countOf(x.Of)
	} else {
		node.Of, node.Row = c.ofRow(x, t)
	}
	if node.Of == nil {
		return nil
	}
	if x.How.IsRow() {
		node.Typed.Of = &program.Record{Fields: t.Columns}
	}
	return node
}

// table checks an expression that is to be a table. A record with one table in it,
// as a function gives that finds the best of several ways, stands for that table.
func (c *checker) table(e syntax.Expr, word string) program.Node {
	node := c.expr(e)
	if node == nil {
		return nil
	}
	if inner := onlyTable(node); inner != nil {
		return inner
	}
	if _, ok := node.Type().(*program.Table); !ok {
		c.fail(e.Place(), message.Quote(word)+" takes rows of a table, this is "+node.Type().String(), c.tableHint(e, node))
		return nil
	}
	return node
}

// onlyTable is the one table in a record; nil for anything else.
func onlyTable(n program.Node) program.Node {
	r, ok := n.Type().(*program.Record)
	if !ok {
		return nil
	}
	at := -1
	for i, f := range r.Fields {
		if _, isTable := f.Type.(*program.Table); isTable {
			if at >= 0 {
				return nil
			}
			at = i
		}
	}
	if at < 0 {
		return nil
	}
	return &program.FieldOf{Typed: typed(n.Place(), r.Fields[at].Type), X: n, Index: at}
}

func (c *checker) countOf(e syntax.Expr) program.Node {
	n := c.expr(e)
	if n == nil {
		return nil
	}
	if q, ok := n.Type().(program.Quantity); !ok || !q.Dim.IsNumber() {
		c.fail(e.Place(), "`first` wants a whole number of rows, this is "+n.Type().String(), "write `first 5`")
		return nil
	}
	return n
}

// ofRow checks what is asked of each row, and lists the columns that it names.
func (c *checker) ofRow(x *syntax.Chosen, t *program.Table) (program.Node, []program.RowParam) {
	row := &rowScope{columns: t.Columns, outer: c.row, params: map[int]*program.Param{}}
	c.row = row
	of := c.expr(x.Of)
	c.row = row.outer
	if of == nil || !c.fitsRow(x, of) {
		return nil, nil
	}
	columns := row.named(locals(of, map[*program.Param]bool{}))
	if len(columns) == 0 {
		c.fail(x.Of.Place(), "this names no column of the table", "it has "+program.FieldNames(t.Columns))
		return nil, nil
	}
	return of, columns
}

// locals are the parameters that an expression names.
func locals(n program.Node, found map[*program.Param]bool) map[*program.Param]bool {
	if x, ok := n.(*program.Local); ok {
		found[x.Param] = true
	}
	for _, child := range program.Children(n) {
		locals(child, found)
	}
	return found
}

// fitsRow sees that what is asked of a row is of a kind by which it can be chosen.
func (c *checker) fitsRow(x *syntax.Chosen, of program.Node) bool {
	_, isNumber := of.Type().(program.Quantity)
	_, isTruth := of.Type().(program.Bool)
	switch {
	case x.How == syntax.Where && !isTruth:
		c.fail(x.Of.Place(), "`where` wants a truth (yes or no), this is "+of.Type().String(), "compare it with something: "+message.Quote(syntax.Source(x.Of)+" > …"))
	case x.How.IsRow() && !isNumber:
		c.fail(x.Of.Place(), of.Type().String()+" has no least or most", "name a column of numbers")
	case (x.How == syntax.Rising || x.How == syntax.Falling) && !isNumber && !isText(of.Type()):
		c.fail(x.Of.Place(), "rows are sorted by numbers or texts, this is "+of.Type().String(), "name a column")
	default:
		return true
	}
	return false
}

// joined checks one table under another; false where these are none.
func (c *checker) joined(x *syntax.Binary, a, b program.Node) (program.Node, bool) {
	above, okA := a.Type().(*program.Table)
	below, okB := b.Type().(*program.Table)
	if x.Op != "+" || !okA || !okB {
		return nil, false
	}
	node := &program.Joined{X: a, Y: b, Columns: make([]int, len(above.Columns))}
	for i, f := range above.Columns {
		at := c.whole.place(below.Columns, f.Name)
		if at < 0 {
			c.lacksColumn(x.Y, f, below)
			return nil, true
		}
		if g := below.Columns[at]; !program.Same(f.Type, g.Type) {
			c.fail(x.Y.Place(), "the column "+message.Quote(f.Name)+" is "+g.Type.String()+" here, and "+f.Type.String()+" in the table before it", "give both columns one unit, or one of them another heading")
			return nil, true
		}
		node.Columns[i] = at
	}
	for _, g := range below.Columns {
		if c.whole.place(above.Columns, g.Name) < 0 {
			c.lacksColumn(x.X, g, above)
			return nil, true
		}
	}
	node.Typed = typed(x.Span, &program.Table{Columns: above.Columns, Keyed: above.Keyed && below.Keyed && node.Columns[0] == 0})
	return node, true
}

// lacksColumn says that one of two tables has no such column.
func (c *checker) lacksColumn(e syntax.Expr, f program.Field, t *program.Table) {
	hint := "tables that stand one under another have the same columns; this one has " + program.FieldNames(t.Columns)
	if near := c.nearField(f.Name, t.Columns); near != "" {
		hint = didYouMean(near, hint)
	}
	c.fail(e.Place(), "no column "+message.Quote(f.Name)+" in this table, which the other has", hint)
}
