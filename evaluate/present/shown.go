package present

import (
	"strconv"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/show"
	"inkwing/evaluate/study"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
	"inkwing/units"
)

// shown presents what a show lists.
func (p *presenter) shown(d *program.Def, b *program.Show) {
	state, waits := p.w.State(d)
	switch state {
	case report.Failed:
		return
	case report.Waiting:
		p.table(d, report.Table{Verb: "show", State: report.Waiting, Waits: waits})
		return
	}
	l := &listing{w: p.w, def: d, show: b, what: study.ShownOf(b, p.w.Machine.Value(d)), name: listedName(d)}
	t := l.table()
	t.Span = d.Stmt.Place()
	p.addTable(d.Block, t)
}

// listedName is what is shown, without what chooses among its rows.
func listedName(d *program.Def) string {
	of := d.Stmt.(*syntax.Show).Of
	for {
		chosen, ok := of.(*syntax.Chosen)
		if !ok {
			return syntax.Source(of)
		}
		of = chosen.X
	}
}

// A listing is what a show lists, on its way to a table.
type listing struct {
	w    *working.Evaluation
	def  *program.Def
	show *program.Show
	what *study.Shown
	name string
}

func (l *listing) table() report.Table {
	switch l.show.Of.Type().(type) {
	case *program.Table:
		return l.rows()
	case program.List:
		return l.elements()
	}
	return l.fields()
}

// fields has a row for each field of a record, or for a single value.
func (l *listing) fields() report.Table {
	t := report.Table{Verb: "show", Columns: []report.Column{{Head: "Quantity", Code: true}, {Head: "Value", Number: true}}}
	for k, c := range l.show.Columns {
		v := l.what.Cells[0][k]
		shown, ok := show.Uncertain(c.Type, v, l.w.Leaf(l.def, k), c.Unit, digits(l.w, c.Name))
		if !ok {
			shown = "—"
		}
		t.Rows, t.Values = append(t.Rows, []string{c.Name, shown}), append(t.Values, []any{c.Name, known(v)})
	}
	return t
}

// elements counts a list's values.
func (l *listing) elements() report.Table {
	t := l.rows()
	t.Columns = append([]report.Column{{Head: "No.", Number: true}}, t.Columns...)
	for i := range t.Rows {
		t.Rows[i] = append([]string{strconv.Itoa(i + 1)}, t.Rows[i]...)
		t.Values[i] = append([]any{float64(i + 1)}, t.Values[i]...)
	}
	return t
}

// rows has a row for each one chosen, and the totals below.
func (l *listing) rows() report.Table {
	t := report.Table{Verb: "show", Name: l.name, Notes: l.notes()}
	columns := make([]unitColumn, len(l.show.Columns))
	for k := range columns {
		columns[k] = l.column(k)
		t.Columns = append(t.Columns, columns[k].Column)
	}
	texts := l.texts(columns)
	for i, cells := range l.what.Cells {
		values := make([]any, len(cells))
		for k, v := range cells {
			values[k] = known(v)
		}
		t.Rows, t.Values = append(t.Rows, texts[i]), append(t.Values, values)
	}
	if l.what.Totals != nil {
		l.total(&t, texts[len(l.what.Cells)])
	}
	return t
}

// texts are the cells by row and column, those of the totals last.
func (l *listing) texts(columns []unitColumn) [][]string {
	rows := l.what.Cells
	if l.what.Totals != nil {
		rows = append(rows[:len(rows):len(rows)], l.what.Totals)
	}
	texts := make([][]string, len(rows))
	for k, c := range columns {
		cells := make([]any, len(rows))
		for i, row := range rows {
			cells[i] = l.cell(c, row[k], i*len(columns)+k)
		}
		for i, text := range inColumn(c.unit, c.digits, cells) {
			texts[i] = append(texts[i], text)
		}
	}
	return texts
}

// total is the last row: what is added up, under the word in the first column that
// has room for it.
func (l *listing) total(t *report.Table, texts []string) {
	values := make([]any, len(texts))
	label := -1
	for k, v := range l.what.Totals {
		if values[k] = v; v == nil {
			texts[k] = ""
			if label < 0 {
				label = k
			}
		}
	}
	if label < 0 {
		t.Notes = append(t.Notes, "The last row is the total.")
	} else {
		texts[label], values[label] = "total", "total"
	}
	t.Rows, t.Values = append(t.Rows, texts), append(t.Values, values)
}

// A unitColumn is a column with the unit that its numbers are in.
type unitColumn struct {
	report.Column
	unit   units.Unit
	digits int
}

func (l *listing) column(k int) unitColumn {
	c := l.show.Columns[k]
	out := unitColumn{unit: c.Unit, digits: digits(l.w, l.name+"."+c.Name)}
	if q, isNumber := c.Type.(program.Quantity); isNumber {
		out.Number, out.SIUnit = true, q.Dim.SIUnit()
		if out.unit.IsZero() {
			out.unit = show.FittingUnit(c.Type, l.values(k))
		}
	}
	out.Head = show.Heading(c.Name, out.unit)
	return out
}

// values are all of a column.
func (l *listing) values(k int) []any {
	list := make([]any, 0, len(l.what.Cells))
	for _, cells := range l.what.Cells {
		list = append(list, cells[k])
	}
	return list
}

// cell is a value of a column, as a text with its interval if it has one.
func (l *listing) cell(c unitColumn, v any, leaf int) any {
	x, isNumber := v.(float64)
	if u := l.w.Leaf(l.def, leaf); isNumber && u.Expanded > 0 && !l.what.Sampled {
		return withInterval(x, u.Expanded, c.unit)
	}
	return v
}

// notes say what of the rows does not stand here.
func (l *listing) notes() (notes []string) {
	if more := l.what.Rows - len(l.what.Cells); more > 0 {
		notes = append(notes, "Not shown: "+message.Rows(more)+" more; `first "+strconv.Itoa(program.MaxShownFirst)+"` shows up to so many.")
	}
	if n := l.what.Left; n > 0 {
		notes = append(notes, "Left out: "+message.Rows(n)+" of which it is not known.")
	}
	if l.what.Rows == 0 {
		notes = append(notes, "No row is left.")
	}
	return notes
}
