package check

import (
	"strconv"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// reader reads one table.
type reader struct {
	whole   *analysis
	def     *program.Def
	data    *program.Data
	columns []program.Field
	known   map[string]bool // the names of those
	units   []units.Unit
	read    *program.Rows // so far
	wrong   map[int]int   // by column of a data file: the problem told
	more    map[int]int   // by column: cells that are wrong as well
	comma   []bool        // by column: its numbers have decimal commas
}

// readTable gives a data table its type and values.
func (a *analysis) readTable(d *program.Def, b *program.Data) {
	t := b.Source
	if len(t.Problems) > 0 {
		d.Failed = true
		a.tellTable(d, t)
		return
	}
	if len(t.Rows) > program.MaxRows {
		a.fail(d, d.Place, "the table "+message.Quote(d.Name)+" has more than 100,000 rows", "thin it out, or split it")
		return
	}
	if !a.takes(d, len(t.Rows)*len(t.Head)) {
		return
	}
	r := &reader{whole: a, def: d, data: b, wrong: map[int]int{}, more: map[int]int{}}
	if !r.heads(t) {
		return
	}
	r.commas(t)
	b.Commas = r.comma
	r.rows(t)
	r.count()
}

// takes reports whether a table's cells can be read too, and says once that they
// cannot.
func (a *analysis) takes(d *program.Def, cells int) bool {
	before := a.read
	if a.read += cells; a.read <= program.MaxCells {
		return true
	}
	if before <= program.MaxCells {
		a.fail(d, d.Place, "with the table "+message.Quote(d.Name)+" more than 2,000,000 cells are in use", "leave out the columns and rows that nothing uses, or use the file once")
	}
	d.Failed = true
	return false
}

// tellTable tells what was wrong with a table before it was read: of a file of
// data the first, and how many there are.
func (a *analysis) tellTable(d *program.Def, t *syntax.Table) {
	s := a.of(d)
	if n := len(t.Problems); t.Problems[0].Span.File != d.Sheet.Name && n > 1 {
		p := t.Problems[0]
		p.Summary += "; " + strconv.Itoa(n-1) + " more rows are not like it either"
		s.say(p)
		return
	}
	for _, p := range t.Problems {
		s.say(p)
	}
}

func (r *reader) fail(at message.Span, summary, hint string) { r.whole.fail(r.def, at, summary, hint) }

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
	_, unit, has := syntax.CutUnit(h.Text)
	name := h.Heading()
	if name == "" {
		r.fail(h.Span, "a column of "+message.Quote(r.def.Name)+" has no name", "write a heading such as mass [g]")
		return
	}
	r.column(h.Span, name, unit, has)
}

// named takes the columns from a use statement.
func (r *reader) named(t *syntax.Table) bool {
	if len(t.Columns) != len(t.Head) {
		r.fail(t.Columns[0].Name.Span, "the file has "+strconv.Itoa(len(t.Head))+" columns, "+strconv.Itoa(len(t.Columns))+" are named", "name every column, in order")
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
	if r.known == nil {
		r.known = map[string]bool{}
	}
	if r.known[name] {
		r.fail(at, "the column "+message.Quote(name)+" stands twice", "give one of the two another heading")
		return
	}
	var typ program.Type = program.Text{}
	var u units.Unit
	if has {
		var err error
		if u, err = units.Parse(strings.TrimSpace(unit)); err != nil {
			summary, hint := UnitError(err)
			r.fail(at, "in the heading of "+message.Quote(name)+": "+summary, hint)
			return
		}
		typ = program.Quantity{Kind: u.Kind}
	}
	r.columns = append(r.columns, program.Field{Name: name, Type: typ, Unit: u})
	r.known[name] = true
	r.units = append(r.units, u)
}

func (r *reader) rows(t *syntax.Table) {
	_, keyed := r.columns[0].Type.(program.Text)
	rows := &program.Rows{}
	r.read = rows
	if keyed {
		rows.Keys = map[string]int{}
	}
	if t.Columns != nil && r.isData(t.Head) {
		rows.Cells = append(rows.Cells, r.row(t.Head))
	}
	for _, cells := range t.Rows {
		rows.Cells = append(rows.Cells, r.row(cells))
		if keyed {
			r.key(rows, cells[0])
		}
	}
	if r.def.Failed {
		return
	}
	r.data.Rows = rows
	r.def.Type = &program.Table{Columns: r.columns, Keyed: keyed}
}

// isData reports whether a CSV file without headings begins with data at once: all
// its number columns read as numbers.
func (r *reader) isData(cells []syntax.Cell) bool {
	for i, c := range cells {
		if _, text := r.columns[i].Type.(program.Text); text {
			continue
		}
		if _, err := strconv.ParseFloat(r.point(i, strings.TrimSpace(c.Text)), 64); err != nil {
			return false
		}
	}
	return true
}

func (r *reader) key(rows *program.Rows, c syntax.Cell) {
	if _, twice := rows.Keys[c.Text]; twice {
		r.fail(c.Span, "the key "+message.Quote(c.Text)+" stands twice in "+message.Quote(r.def.Name), "rows are found by their first cell: make them differ")
		return
	}
	rows.Keys[c.Text] = len(rows.Cells) - 1
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
