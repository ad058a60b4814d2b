package reach

import (
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

// CellOf parts cells["B50"].mass into the table, the row and the column; false for
// any other expression.
func CellOf(x syntax.Expr) (table syntax.Expr, key syntax.Expr, column string, ok bool) {
	field, ok := x.(*syntax.Field)
	if !ok {
		return nil, nil, "", false
	}
	row, ok := field.X.(*syntax.Index)
	if !ok || !syntax.IsKey(row.Key) {
		return nil, nil, "", false
	}
	return row.X, row.Key, field.Name.Name, true
}

// IsReadings reports whether a table is a file of data that a page uses, and none of
// its own.
func IsReadings(t *syntax.Table, page string) bool {
	return t.Columns != nil || len(t.Head) > 0 && t.Head[0].Span.File != page
}

// CellOfPage is [Finder.Cell] for what a statement says: it finds no cell of a file of data,
// since the page would then say something else of the readings than the file does.
func (f *Finder) CellOfPage(t *syntax.Table, page, name string, key syntax.Expr, column string) (row, at int, trouble *Trouble) {
	if IsReadings(t, page) {
		return 0, 0, &Trouble{Summary: message.Quote(name) + " is a file of readings, which are not changed", Hint: "edit the file, or give the value that changes a name of its own"}
	}
	return f.Cell(t, name, 0, key, column)
}

// Cell finds a cell that is typed in a table, counted from 0. The name is what the
// table goes under; ahead is how many of its rows stand where others have headings,
// which are counted, and not found.
func (f *Finder) Cell(t *syntax.Table, name string, ahead int, key syntax.Expr, column string) (row, at int, trouble *Trouble) {
	g := f.grid(t)
	at, known := g.columns[column]
	if !known {
		return 0, 0, &Trouble{Summary: "no column " + message.Quote(column) + " in " + message.Quote(name), Hint: f.meant(column, g.heads, "its columns are ")}
	}
	if n, ok := key.(*syntax.Number); ok && 1 <= n.Value && n.Value <= float64(ahead) {
		return 0, 0, &Trouble{Summary: "row " + syntax.Source(key) + " of " + message.Quote(name) + " stands where a file has its headings, and is not changed", Hint: "put a row of headings above it, or edit the file"}
	}
	if row = g.rowAt(ahead, key); row < 0 || at >= len(t.Rows[row]) {
		return 0, 0, &Trouble{Summary: "no row " + syntax.Source(key) + " in " + message.Quote(name), Hint: f.meant(keyText(key), g.rowNames(), "its rows are ")}
	}
	return row, at, g.typed(name, row, at)
}

// typed reports trouble with a cell that is no plain value.
func (g *grid) typed(name string, row, at int) *Trouble {
	cell := g.Rows[row][at]
	_, numbers := g.ColumnUnit(at)
	address := message.Quote(name + "[" + g.RowKey(row) + "]." + g.heads[at])
	switch {
	case cell.Worked != nil:
		return &Trouble{Summary: address + " is worked: it holds " + message.Quote(syntax.Source(cell.Worked.Of)), Hint: "change that, or what it is worked from"}
	case at == 0 && !numbers:
		return &Trouble{Summary: "a row is found by its first cell, which is not changed", Hint: "change another cell of the row"}
	case IsUnknown(cell):
		return &Trouble{Summary: address + " is not known", Hint: "fill the cell in first", Unknown: true}
	}
	return nil
}

// IsUnknown reports whether nothing stands in a cell.
func IsUnknown(c syntax.Cell) bool {
	switch strings.TrimSpace(c.Text) {
	case "", "–", "?", "-":
		return true
	}
	return false
}

// rowAt is the row that a key or a number means, -1 for none.
func (g *grid) rowAt(ahead int, key syntax.Expr) int {
	if n, ok := key.(*syntax.Number); ok {
		if i := int(n.Value) - ahead; float64(i+ahead) == n.Value && 1 <= i && i <= len(g.Rows) {
			return i - 1
		}
		return -1
	}
	if row, known := g.rows[keyText(key)]; known {
		return row
	}
	return -1
}

func keyText(key syntax.Expr) string {
	if x, ok := key.(*syntax.Text); ok {
		return x.Value
	}
	return syntax.Source(key)
}

// rowNames are the names of all rows, put together when the first is asked for that is
// not there.
func (g *grid) rowNames() []string {
	if g.keys == nil {
		for i := range g.Rows {
			g.keys = append(g.keys, strings.Trim(g.RowKey(i), `"`))
		}
	}
	return g.keys
}

func (f *Finder) meant(word string, names []string, all string) string {
	if near := f.speller.Nearest(word, names); near != "" {
		return "did you mean " + message.Quote(near) + "?"
	}
	return all + message.Names(names)
}
