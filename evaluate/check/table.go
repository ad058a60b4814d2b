package check

import (
	"regexp"
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
	first := 0
	if t.Columns != nil && !r.isData(t.Head) {
		first = 0
	} else if t.Columns != nil {
		rows.cells = append(rows.cells, r.row(t.Head))
	}
	for _, cells := range t.Rows[first:] {
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

// isData says whether a CSV file without headings begins with data at once: all
// its number columns read as numbers.
func (r *reader) isData(cells []syntax.Cell) bool {
	for i, c := range cells {
		if _, text := r.columns[i].Type.(Text); text {
			continue
		}
		if _, err := strconv.ParseFloat(strings.TrimSpace(c.Text), 64); err != nil {
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

func (r *reader) cell(column int, c syntax.Cell, row string) any {
	text := strings.TrimSpace(c.Text)
	if text == "" || text == "–" || text == "?" || text == "-" {
		what := quote(r.columns[column].Name) + " of " + quote(row)
		if r.read.Keys == nil {
			what = quote(r.columns[column].Name) + " in row " + strconv.Itoa(len(r.read.cells)+1)
		}
		return Unknown{Span: c.Span, What: what, Cell: r.cellName(column, row)}
	}
	q, isNumber := r.columns[column].Type.(Quantity)
	if !isNumber {
		return c.Text
	}
	if x, err := strconv.ParseFloat(text, 64); err == nil && plainNumber(text) {
		return r.units[column].ToSI(x)
	}
	return r.literal(column, c, q, row)
}

// plainNumber keeps out what ParseFloat reads beyond decimal numbers.
func plainNumber(text string) bool {
	return strings.Trim(text, "0123456789+-.eE") == ""
}

// literal reads a cell with a unit of its own or a ± part.
func (r *reader) literal(column int, c syntax.Cell, q Quantity, row string) any {
	x, problem := syntax.ParseValue(c.Span.File, c.Text, c.Span.Start)
	if problem != nil {
		return r.bad(column, row, c, quote(strings.TrimSpace(c.Text))+" is no number", r.numberHint(column, c, problem))
	}
	if u, ok := x.(*syntax.Uncertain); ok {
		return r.unsure(column, c, u, q, row)
	}
	n, ok := x.(*syntax.Number)
	if !ok {
		return r.bad(column, row, c, quote(c.Text)+" is no number", "write a number")
	}
	return r.number(column, c, n, q, row)
}

// decimalComma is a number as half of the world writes it.
var decimalComma = regexp.MustCompile(`^[-+]?[0-9]+,[0-9]+$`)

// numberHint is what mends a cell that is no number.
func (r *reader) numberHint(column int, c syntax.Cell, problem *message.Diagnostic) string {
	text := strings.TrimSpace(c.Text)
	switch {
	case decimalComma.MatchString(text) && c.Span.File != r.def.Sheet.Name:
		return "the numbers of this file have a decimal comma: replace it by a point"
	case decimalComma.MatchString(text):
		return "write " + quote(strings.Replace(text, ",", ".", 1))
	case text[0] >= '0' && text[0] <= '9' && !strings.Contains(text, ",") && strings.HasPrefix(problem.Hint, "write `"):
		return problem.Hint
	}
	return "the column " + quote(r.columns[column].Name) + " holds numbers: write one, with a decimal point, or leave the cell empty"
}

// unsure reads a cell with a spread: it holds its middle.
func (r *reader) unsure(column int, cell syntax.Cell, x *syntax.Uncertain, q Quantity, row string) any {
	offset := r.def.unsure[cell.Span]
	if offset == nil {
		return Unknown{Span: cell.Span, What: quote(strings.TrimSpace(cell.Text))}
	}
	s := r.def.Sheet
	s.offsets[x] = []*Def{offset}
	c := &checker{def: r.def, sheet: s, unit: &r.units[column]}
	off, ok := c.uncertain(x).(*Off)
	if !ok {
		// One mistake, one message: what uses the cell fails at the same place.
		u := r.told(column, row, cell).(Unknown)
		u.Span = s.problems[len(s.problems)-1].Span
		return u
	}
	if !same(q, off.Type()) {
		offset.Doubt = nil
		return r.bad(column, row, cell, off.Type().String()+" where "+q.String()+" is wanted", "the column is in "+r.units[column].String())
	}
	offset.Doubt.Name = r.cellName(column, row)
	r.read.Unsure = append(r.read.Unsure, UnsureCell{len(r.read.cells), column, off})
	return middle(off).(*Const).Value
}

// cellName is the row and column of a cell, as a builder would write it.
func (r *reader) cellName(column int, row string) string {
	key := strconv.Itoa(len(r.read.cells) + 1)
	if r.read.Keys != nil {
		key = strconv.Quote(row)
	}
	return r.def.Name + "[" + key + "]." + r.columns[column].Name
}

// bad says what is wrong with a cell and leaves it unknown, so that the rest of
// the table can be used.
func (r *reader) bad(column int, row string, c syntax.Cell, summary, hint string) any {
	r.say(column, c, summary, hint)
	return r.told(column, row, c)
}

// told is a cell of which is said what is wrong.
func (r *reader) told(column int, row string, c syntax.Cell) any {
	return Unknown{Span: c.Span, What: quote(strings.TrimSpace(c.Text)), Cell: r.cellName(column, row), Told: true}
}

// say tells what is wrong with a cell. A file of data is told once a column: what
// is wrong with its first row is wrong with a thousand.
func (r *reader) say(column int, c syntax.Cell, summary, hint string) {
	s := r.def.Sheet
	if c.Span.File == s.Name {
		s.fail(c.Span, summary, hint)
		return
	}
	if _, again := r.wrong[column]; again {
		r.more[column]++
		return
	}
	r.wrong[column] = len(s.problems)
	s.fail(c.Span, summary, hint)
}

// count adds to what is told of a column how many of its cells are wrong.
func (r *reader) count() {
	for column, n := range r.more {
		cells := strconv.Itoa(n) + " more cells of its column"
		if n == 1 {
			cells = "one more cell of its column"
		}
		r.def.Sheet.problems[r.wrong[column]].Summary += "; nor can " + cells + " be read"
	}
}

func (r *reader) number(column int, c syntax.Cell, n *syntax.Number, q Quantity, row string) any {
	if n.Unit == nil {
		return r.units[column].ToSI(n.Value)
	}
	u, err := units.Parse(n.Unit.Text)
	if err != nil {
		summary, hint := unitSays(err)
		return r.bad(column, row, c, summary, hint)
	}
	if u.Kind.Dim != q.Dim || u.Kind.Point != q.Point || !marksAgree(u.Kind.Mark, q.Mark) {
		return r.bad(column, row, c, u.Kind.String()+" where "+q.String()+" is wanted", "the column is in "+r.units[column].String())
	}
	return u.ToSI(n.Value)
}
