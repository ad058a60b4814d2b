package program

import (
	"cmp"
	"slices"
	"sort"
	"strconv"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

// Bounds of a program, each said in the message that names it.
const (
	MaxRows   = 100_000   // rows of a table
	MaxCells  = 2_000_000 // cells of all tables, a file counted as often as it is used
	MaxPoints = 10_000    // rows that a vary or stepped tune may have
	MaxVaried = 200_000   // cells of the tables that all vary of a sheet make
)

// Rows is a data table read: what stands in each row and column.
type Rows struct {
	Cells [][]any // by row; float64 in SI, string or Unknown
	Keys  map[string]int
	// Uncertain are the cells that have a spread.
	Uncertain []UncertainCell
}

// An UncertainCell is a cell that lies off its nominal by a deviation.
type UncertainCell struct {
	Row, Column int
	Value       *Uncertain
}

// With is the table with so much in place of some cells' values.
func (r *Rows) With(values map[UncertainCell]float64) *Rows {
	out := &Rows{Cells: slices.Clone(r.Cells), Keys: r.Keys, Uncertain: r.Uncertain}
	for cell, x := range values {
		row := slices.Clone(out.Cells[cell.Row])
		row[cell.Column] = x
		out.Cells[cell.Row] = row
	}
	return out
}

// Filled is the table with values in its worked cells; one without a value stays
// as it is.
func (r *Rows) Filled(cells []*Def, value func(*Def) any) *Rows {
	out := &Rows{Cells: slices.Clone(r.Cells), Keys: r.Keys, Uncertain: r.Uncertain}
	copied := -1
	for _, d := range cells {
		at := d.Body.(*Cell)
		v := value(d)
		if v == nil {
			continue
		}
		if at.Row != copied {
			copied = at.Row
			out.Cells[at.Row] = slices.Clone(out.Cells[at.Row])
		}
		out.Cells[at.Row][at.Column] = v
	}
	return out
}

// Headings are the names of the columns, put together once: each line that looks at the
// table asks for them.
func (d *Data) Headings() []string {
	if d.heads == nil {
		d.heads = d.Source.Headings()
	}
	return d.heads
}

// Named are the headings as a set.
func (d *Data) Named() map[string]bool {
	if d.named == nil {
		d.named = map[string]bool{}
		for _, name := range d.Headings() {
			d.named[name] = true
		}
	}
	return d.named
}

// Ahead is how many rows stand where a file has its headings: one, where it has none
// and begins with data.
func (d *Data) Ahead() int {
	if d.Rows == nil {
		return 0
	}
	return len(d.Rows.Cells) - len(d.Source.Rows)
}

// RowKey is the key of a row below the headings as a builder would write it: its first
// cell, or its number.
func (d *Data) RowKey(row int) string {
	if _, numbers := d.Source.ColumnUnit(0); numbers {
		return strconv.Itoa(row + 1 + d.Ahead())
	}
	return d.Source.RowKey(row)
}

// HasCommas reports whether the numbers of a column have decimal commas.
func (d *Data) HasCommas(column int) bool { return column < len(d.Commas) && d.Commas[column] }

// WorkedAt is the worked cell at a place, nil where none is.
func (d *Data) WorkedAt(row, column int) *Def {
	i, ok := slices.BinarySearchFunc(d.Worked, [2]int{row, column}, func(c *Def, at [2]int) int {
		cell := c.Body.(*Cell)
		return cmp.Or(cmp.Compare(cell.Row, at[0]), cmp.Compare(cell.Column, at[1]))
	})
	if !ok {
		return nil
	}
	return d.Worked[i]
}

// Unknown stands for an empty cell: an error only where it is used.
type Unknown struct {
	Span message.Span
	What string // "resistance of B60"
	Cell string // the same as a builder would write it
	Told bool   // what is wrong with it has been said
	// Of what a study could not evaluate, Span is empty.
	Why, Hint string
}

// Len is the number of rows.
func (r *Rows) Len() int { return len(r.Cells) }

// Row finds a row by its key.
func (r *Rows) Row(key string) (int, bool) {
	i, ok := r.Keys[key]
	return i, ok
}

// Cell is the value in a row and column, both from 0.
func (r *Rows) Cell(row, column int) any { return r.Cells[row][column] }

// maxRowText is about how many bytes of a row are told: each of its thousands of cells
// may be in error.
const maxRowText = 200

// rowText is a row as text; of a long one what stands around a cell.
func rowText(row []syntax.Cell, cell int) string {
	from, to, room := cell, cell+1, maxRowText-len(row[cell].Text)
	for room > 0 && (from > 0 || to < len(row)) {
		if from > 0 {
			from--
			room -= len(row[from].Text) + len(" | ")
		}
		if to < len(row) {
			room -= len(row[to].Text) + len(" | ")
			to++
		}
	}
	var texts []string
	if from > 0 {
		texts = append(texts, "…")
	}
	for _, c := range row[from:to] {
		texts = append(texts, c.Text)
	}
	if to < len(row) {
		texts = append(texts, "…")
	}
	return strings.Join(texts, " | ")
}

// RowText is the table row or heading on which a place stands, as text.
func (d *Data) RowText(at message.Span) (string, bool) {
	rows := d.Source.Rows
	if i := sort.Search(len(rows), func(i int) bool { return len(rows[i]) > 0 && rows[i][0].Span.Start > at.Start }); i > 0 {
		rows = rows[i-1 : i]
	} else {
		rows = [][]syntax.Cell{d.Source.Head}
	}
	for _, row := range rows {
		if len(row) > 0 && row[0].Span.File == at.File && row[0].Span.Start <= at.Start && at.Start <= row[len(row)-1].Span.End {
			cell := sort.Search(len(row), func(i int) bool { return row[i].Span.Start > at.Start }) - 1
			return rowText(row, cell), true
		}
	}
	return "", false
}
