package check

import (
	"slices"
	"strconv"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// Rows is a data table read: what stands in each row and column.
type Rows struct {
	cells [][]any // by row; float64 in SI, string or Unknown
	Keys  map[string]int
	// Unsure are the cells that have a spread.
	Unsure []UnsureCell
}

// An UnsureCell is a cell that stands off its middle by an offset.
type UnsureCell struct {
	Row, Column int
	Off         *Off
}

// With is the table with so much in place of some cells' values.
func (r *Rows) With(values map[UnsureCell]float64) *Rows {
	out := &Rows{cells: slices.Clone(r.cells), Keys: r.Keys, Unsure: r.Unsure}
	for cell, x := range values {
		row := slices.Clone(out.cells[cell.Row])
		row[cell.Column] = x
		out.cells[cell.Row] = row
	}
	return out
}

// Unknown stands for an empty cell: an error only where it is used.
type Unknown struct {
	Span message.Span
	What string // "resistance of B60"
	Cell string // the same as a builder would write it
	Told bool   // what is wrong with it has been said
	// Of what a study could not work, Span is empty.
	Why, Mend string
}

// Len is the number of rows.
func (r *Rows) Len() int { return len(r.cells) }

// Row finds a row by its key.
func (r *Rows) Row(key string) (int, bool) {
	i, ok := r.Keys[key]
	return i, ok
}

// Cell is the value in a row and column, both from 0.
func (r *Rows) Cell(row, column int) any { return r.cells[row][column] }

// reader reads one table.
type reader struct {
	def     *Def
	columns []Field
	units   []units.Unit
	read    *Rows       // so far
	wrong   map[int]int // by column of a data file: the problem told
	more    map[int]int // by column: cells that are wrong as well
	comma   []bool      // by column: its numbers have decimal commas
}

// readTable gives a data table its type and values.
func readTable(d *Def) {
	t := d.cells
	if len(t.Problems) > 0 {
		d.Failed = true
		if n := len(t.Problems); t.Problems[0].Span.File != d.Sheet.Name && n > 1 {
			p := t.Problems[0]
			p.Summary += "; " + strconv.Itoa(n-1) + " more rows are not like it either"
			d.Sheet.say(p)
			return
		}
		for _, p := range t.Problems {
			d.Sheet.say(p)
		}
		return
	}
	if len(t.Rows) > MaxRows {
		d.fail(d.Place, "the table "+quote(d.Name)+" has more than 100,000 rows", "thin it out, or split it")
		return
	}
	r := &reader{def: d, wrong: map[int]int{}, more: map[int]int{}}
	if !r.heads(t) {
		return
	}
	r.commas(t)
	r.rows(t)
	r.count()
}

func (d *Def) fail(at message.Span, summary, hint string) {
	d.Failed = true
	d.Sheet.fail(at, summary, hint)
}

func (r *reader) heads(t *syntax.Table) bool {
	heads := t.Head
	if t.Columns != nil {
		return r.named(t)
	}
	for _, h := range heads {
		r.head(h)
	}
	return !r.def.Failed
}

// head reads "mass [g]".
func (r *reader) head(h syntax.Cell) {
	name, unit, has := cutUnit(h.Text)
	name = syntax.Canonical(strings.ReplaceAll(strings.Join(strings.Fields(name), "_"), "\u00a0", "_"))
	if name == "" {
		r.def.fail(h.Span, "a column of "+quote(r.def.Name)+" has no name", "write a heading such as mass [g]")
		return
	}
	r.column(h.Span, name, unit, has)
}

// named takes the columns from a use statement.
func (r *reader) named(t *syntax.Table) bool {
	if len(t.Columns) != len(t.Head) {
		r.def.fail(t.Columns[0].Name.Span, "the file has "+strconv.Itoa(len(t.Head))+" columns, "+strconv.Itoa(len(t.Columns))+" are named", "name every column, in order")
		return false
	}
	for _, p := range t.Columns {
		text, has := "", false
		if p.Unit != nil {
			text, has = p.Unit.Text, true
		}
		r.column(p.Name.Span, p.Name.Name, text, has)
	}
	return !r.def.Failed
}

func (r *reader) column(at message.Span, name, unit string, has bool) {
	if find(r.columns, name) >= 0 {
		r.def.fail(at, "the column "+quote(name)+" stands twice", "give one of the two another heading")
		return
	}
	var typ Type = Text{}
	var u units.Unit
	if has {
		var err error
		if u, err = units.Parse(strings.TrimSpace(unit)); err != nil {
			summary, hint := unitSays(err)
			r.def.fail(at, "in the heading of "+quote(name)+": "+summary, hint)
			return
		}
		typ = Quantity{Kind: u.Kind}
	}
	r.columns = append(r.columns, Field{Name: name, Type: typ})
	r.units = append(r.units, u)
}

// cutUnit parts "mass [g]" into name and unit.
func cutUnit(head string) (name, unit string, has bool) {
	open := strings.LastIndexByte(head, '[')
	if open < 0 || !strings.HasSuffix(strings.TrimSpace(head), "]") {
		return head, "", false
	}
	rest := strings.TrimSpace(head[open+1:])
	return head[:open], strings.TrimSuffix(rest, "]"), true
}

func (r *reader) rows(t *syntax.Table) {
	_, keyed := r.columns[0].Type.(Text)
	rows := &Rows{}
	r.read = rows
	if keyed {
		rows.Keys = map[string]int{}
	}
	if t.Columns != nil && r.isData(t.Head) {
		rows.cells = append(rows.cells, r.row(t.Head))
	}
	for _, cells := range t.Rows {
		rows.cells = append(rows.cells, r.row(cells))
		if keyed {
			r.key(rows, cells[0])
		}
	}
	if r.def.Failed {
		return
	}
	r.def.Rows = rows
	r.def.Type = &Table{Columns: r.columns, Keyed: keyed}
}

// isData reports whether a CSV file without headings begins with data at once: all
// its number columns read as numbers.
func (r *reader) isData(cells []syntax.Cell) bool {
	for i, c := range cells {
		if _, text := r.columns[i].Type.(Text); text {
			continue
		}
		if _, err := strconv.ParseFloat(r.point(i, strings.TrimSpace(c.Text)), 64); err != nil {
			return false
		}
	}
	return true
}

func (r *reader) key(rows *Rows, c syntax.Cell) {
	if _, twice := rows.Keys[c.Text]; twice {
		r.def.fail(c.Span, "the key "+quote(c.Text)+" stands twice in "+quote(r.def.Name), "rows are found by their first cell: make them differ")
		return
	}
	rows.Keys[c.Text] = len(rows.cells) - 1
}

func (r *reader) row(cells []syntax.Cell) []any {
	values := make([]any, len(r.columns))
	for i, c := range cells {
		if i < len(values) {
			values[i] = r.cell(i, c, cells[0].Text)
		}
	}
	return values
}
