package check

import (
	"slices"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

// maxOffsets bounds the uncertain inputs of a sheet with all that it uses: each
// of them is a working of everything that depends on it, and more.
const maxOffsets = 1000

// offsets numbers the offsets of a sheet: a leaf of the graph for each ± and
// within, and for each field of a call's answer that knows its spread. They are
// numbered before anything is checked, since the graph orders the checking.
func (c *collector) offsets(s *Sheet) {
	for _, d := range slices.Clone(s.Defs) {
		for _, e := range expressions(d.Stmt) {
			c.offsetsIn(d, e)
		}
	}
}

// expressions are those of a statement in which an uncertain value may stand.
func expressions(stmt syntax.Statement) []syntax.Expr {
	switch x := stmt.(type) {
	case *syntax.Definition:
		return []syntax.Expr{x.Value}
	case *syntax.Limit:
		return []syntax.Expr{x.Bound}
	case *syntax.Measured:
		return []syntax.Expr{x.Value}
	}
	return nil
}

func (c *collector) offsetsIn(d *Def, e syntax.Expr) {
	switch x := e.(type) {
	case *syntax.Vary, *syntax.Adjust, *syntax.Tune:
		return // an input of a study is not uncertain: it is what varies
	case *syntax.Uncertain:
		c.offset(d, x, 1)
	case *syntax.Call:
		c.offset(d, x, spreads(d.Sheet, x))
	}
	for _, child := range syntax.Children(e) {
		c.offsetsIn(d, child)
	}
}

// spreads is how many fields of a call's answer know their spread.
func spreads(s *Sheet, x *syntax.Call) int {
	if s.Functions[x.Func.Name] != nil {
		return 0
	}
	f, ok := library.Lookup(x.Func.Name)
	if !ok || f.Spread == nil {
		return 0
	}
	return len(f.Spreads)
}

func (c *collector) offset(owner *Def, e syntax.Expr, n int) {
	for range n {
		if c.tooMany(owner, e.Place()) {
			return
		}
		d := c.add(owner.Sheet, &Def{Role: Offset, Place: e.Place(), Block: owner.Block, Stmt: owner.Stmt})
		owner.Sheet.offsets[e] = append(owner.Sheet.offsets[e], d)
	}
}

// tooMany says once that there are more uncertain inputs than can be worked.
func (c *collector) tooMany(owner *Def, at message.Span) bool {
	c.uncertain++
	if c.uncertain == maxOffsets+1 {
		owner.fail(at, "there are more than 1000 uncertain inputs here", "give a column one shared spread: `log.U ± 0.01 V`")
	}
	return c.uncertain > maxOffsets
}

// cellOffsets numbers the offsets of the cells that have a spread.
func (c *collector) cellOffsets(d *Def) {
	for _, row := range d.cells.Rows {
		for _, cell := range row {
			if !mayDoubt(cell.Text) || c.tooMany(d, cell.Span) {
				continue
			}
			if d.unsure == nil {
				d.unsure = map[message.Span]*Def{}
			}
			d.unsure[cell.Span] = c.add(d.Sheet, &Def{Role: Offset, Place: cell.Span, Block: d.Block, Stmt: d.Stmt})
		}
	}
}

func mayDoubt(cell string) bool {
	return strings.Contains(cell, "±") || strings.Contains(cell, "+/-") || strings.Contains(cell, "within ")
}

// cellOffsets are those of a table's cells.
func (d *Def) cellOffsets() []*Def {
	list := make([]*Def, 0, len(d.unsure))
	for _, cell := range d.unsure {
		list = append(list, cell)
	}
	slices.SortFunc(list, func(a, b *Def) int { return a.ID - b.ID })
	return list
}

// carry lets a call's answer stand off its middle by the offsets of the fields
// that know their spread.
func (c *checker) carry(x *syntax.Call, call *Call) Node {
	offsets := c.sheet.offsets[x]
	if len(offsets) == 0 || call.Each || len(offsets) != len(call.Func.Spreads) {
		return call
	}
	node := &Carry{typed{x.Span, call.Type()}, call, call.Func.Spreads, offsets}
	for i, d := range offsets {
		d.Doubt = &Doubt{Name: c.carryName(call, i), Owner: c.def, Carry: node, Field: i}
		if at := call.Func.Spreads[i]; at >= 0 {
			d.Doubt.Unit = node.Type().(*Record).Fields[at].Unit
		}
	}
	return node
}

// carryName is the quantity or its field.
func (c *checker) carryName(call *Call, field int) string {
	name := c.def.Name
	if name == "" {
		name = call.Func.Name
	}
	at := call.Func.Spreads[field]
	if at < 0 {
		return name
	}
	return name + "." + call.Func.Result.Params[at].Name
}
