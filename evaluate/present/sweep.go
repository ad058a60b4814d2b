package present

import (
	"strconv"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/show"
	"inkwing/evaluate/study"
	"inkwing/evaluate/working"
	"inkwing/units"
)

// widest is how many columns a grid may have; a wider one is told row by row.
const widest = 12

// swept is a vary's table: a row for each value, or a grid where one output of
// two variables goes under no name.
func swept(w *working.Evaluation, rough *roughness, short *shortNames, d *program.Def, x *program.Vary) report.Table {
	s := &sweep{w: w, rough: rough, def: d, x: x, rows: w.Machine.Value(d).(*study.Table), t: d.Type.(*program.Table), short: short}
	for i := range s.t.Columns {
		s.units = append(s.units, s.unit(i))
	}
	t := s.long
	if d.Name == "" && len(x.Over) == 2 && len(x.Outputs) == 1 && len(s.rows.Levels[1]) <= widest {
		t = s.grid
	}
	out := s.idle(t())
	named(w, &out, s.rows.Broken)
	return out
}

type sweep struct {
	w     *working.Evaluation
	rough *roughness
	def   *program.Def
	x     *program.Vary
	rows  *study.Table
	t     *program.Table
	units []units.Unit // by column
	short *shortNames
}

// name is a column's, as written.
func (s *sweep) name(column int) string {
	if column < len(s.x.Over) {
		return s.x.Over[column].Name
	}
	return s.x.Outputs[column-len(s.x.Over)].Name
}

// unit is what a column is shown in.
func (s *sweep) unit(column int) units.Unit {
	u := s.t.Columns[column].Unit
	if n := column - len(s.x.Over); u.IsZero() && n >= 0 {
		u = show.UnitOf(s.x.Outputs[n].Node)
	}
	if !u.IsZero() {
		return u
	}
	cells := make([]any, s.rows.Len())
	for i := range cells {
		cells[i] = s.rows.Cell(i, column)
	}
	return show.FittingUnit(s.t.Columns[column].Type, cells)
}

// level writes the values of a variable, which have no interval.
func (s *sweep) level(column int, values []any) []string {
	return inColumn(s.units[column], s.digitsIn(column), values)
}

// column writes all that stands in a column.
func (s *sweep) column(column int) []string {
	cells := make([]any, s.rows.Len())
	for i := range cells {
		cells[i] = s.interval(i, column)
	}
	return inColumn(s.units[column], s.digitsIn(column), cells)
}

// interval is a cell, as a text with its interval where an uncertain input bears on it.
func (s *sweep) interval(row, column int) any {
	v := s.rows.Cell(row, column)
	x, isNumber := v.(float64)
	u := s.w.Leaf(s.def, row*len(s.t.Columns)+column)
	if !isNumber || u.Expanded == 0 {
		return v
	}
	if u.Misleads != "" {
		s.rough.add(s.def.Block, u.Misleads, s.name(column))
	}
	return withInterval(x, u.Expanded, s.units[column])
}

// without says that intervals are left out of a long table.
func (s *sweep) without() []string {
	longest, bears := s.w.Uncertainty.Rows(s.def)
	if !bears || s.rows.Len() <= longest {
		return nil
	}
	return []string{"Intervals are left out: with this many uncertain inputs a table of up to " + strconv.Itoa(longest) + " rows has them."}
}

// idle says which outputs no variable bears on.
func (s *sweep) idle(t report.Table) report.Table {
	var names, over []string
	var outputs []program.Node
	for _, o := range s.x.Outputs {
		outputs = append(outputs, o.Node)
		if !s.def.Body.(*program.Study).Touches(o.Node) {
			names = append(names, message.Quote(o.Name))
		}
	}
	for _, note := range bypasses(s.w, s.def.Body.(*program.Study).Touched, s.x.Over, outputs...) {
		t.Notes = append(t.Notes, note+".")
	}
	if len(names) == 0 {
		return t
	}
	for _, o := range s.x.Over {
		over = append(over, message.Quote(o.Name))
	}
	verb := " does not depend on "
	if len(names) > 1 {
		verb = " do not depend on "
	}
	t.Notes = append(t.Notes, message.Enumerate(names)+verb+strings.Join(over, " or ")+".")
	return t
}

// digitsIn is how many a column is shown with: as said of the table, or of what
// stands in it.
func (s *sweep) digitsIn(column int) int {
	own := s.def.Name + "." + s.t.Columns[column].Name
	for _, name := range []string{own, s.def.Name} {
		if n, ok := s.w.Program.Main.DigitsOf[name]; ok && s.def.Name != "" {
			return n
		}
	}
	return digits(s.w, s.name(column))
}

func (s *sweep) heading(i int) report.Column {
	q, isNumber := s.t.Columns[i].Type.(program.Quantity)
	c := report.Column{Head: show.Heading(s.name(i), s.units[i]), Number: isNumber}
	if isNumber {
		c.SIUnit = q.Dim.SIUnit()
	}
	return c
}

// long has a row for each combination.
func (s *sweep) long() report.Table {
	t := report.Table{Verb: "vary", Notes: s.without()}
	columns := make([][]string, len(s.t.Columns))
	for i := range columns {
		columns[i] = s.column(i)
		t.Columns = append(t.Columns, s.heading(i))
	}
	noted := false
	for i := range s.rows.Len() {
		texts, values := make([]string, len(columns)), make([]any, len(columns))
		for c := range texts {
			texts[c], values[c] = columns[c][i], known(s.rows.Cell(i, c))
		}
		note := s.note(i)
		noted = noted || note != ""
		t.Rows, t.Values = append(t.Rows, append(texts, note)), append(t.Values, append(values, note))
	}
	return noteColumn(t, noted)
}

// known is a cell's value, nil if it has none.
func known(v any) any {
	if _, unknown := v.(program.Unknown); unknown {
		return nil
	}
	return v
}

// noteColumn heads the last column, or takes it off where it is empty.
func noteColumn(t report.Table, noted bool) report.Table {
	if noted {
		t.Columns = append(t.Columns, report.Column{Head: "Note"})
		return t
	}
	for i := range t.Rows {
		t.Rows[i], t.Values[i] = t.Rows[i][:len(t.Columns)], t.Values[i][:len(t.Columns)]
	}
	return t
}

// note says what a row cannot give and which limits it breaks.
func (s *sweep) note(row int) string {
	reason, silent := "", ""
	if f := s.rows.Faults[row]; f != nil {
		reason = "not worked: " + first(f.Summary)
	} else if list := s.rows.Silent[row]; len(list) > 0 {
		silent = s.short.of(s.w, list) + " not worked"
	}
	broken := ""
	if list := s.rows.Broken[row]; len(list) > 0 {
		broken = "breaks " + s.short.of(s.w, list)
	}
	return message.Join(reason, broken, silent)
}

// first is the first part of what is wrong: a row has no room for what would
// mend it.
func first(summary string) string {
	text, _, _ := strings.Cut(summary, "; ")
	return text
}

// grid has a row for each value of the first variable and a column for each of
// the second.
func (s *sweep) grid() report.Table {
	levels := s.rows.Levels
	down, across, cells := s.level(0, levels[0]), s.heads(), s.column(2)
	t := report.Table{Verb: "vary", Columns: []report.Column{s.heading(0)}}
	for _, level := range across {
		c := s.heading(2)
		c.Head = message.Quote(s.name(1) + " = " + level)
		t.Columns = append(t.Columns, c)
	}
	noted := false
	for i := range levels[0] {
		texts, values := []string{down[i]}, []any{known(levels[0][i])}
		for j := range across {
			at := i*len(across) + j
			texts, values = append(texts, cells[at]), append(values, known(s.rows.Cell(at, 2)))
		}
		note := s.across(i, across)
		noted = noted || note != ""
		t.Rows, t.Values = append(t.Rows, append(texts, note)), append(t.Values, append(values, note))
	}
	t.Notes = append(s.without(), "each value is "+show.Heading(s.name(2), s.units[2])+".")
	return noteColumn(t, noted)
}

// across is a grid row's note: what is to be said, and in which columns.
func (s *sweep) across(i int, across []string) string {
	var notes []string
	at := map[string][]string{}
	for j := range across {
		note := s.note(i*len(across) + j)
		if note == "" {
			continue
		}
		if at[note] == nil {
			notes = append(notes, note)
		}
		at[note] = append(at[note], across[j])
	}
	for k, note := range notes {
		if len(at[note]) < len(across) {
			notes[k] = "at " + message.Enumerate(at[note]) + ": " + note
		}
	}
	return strings.Join(notes, "; ")
}

// heads are the values of the second variable, each with its unit.
func (s *sweep) heads() []string {
	texts := s.level(1, s.rows.Levels[1])
	for i, v := range s.rows.Levels[1] {
		if _, isNumber := v.(float64); isNumber {
			texts[i] = s.units[1].Behind(texts[i])
		}
	}
	return texts
}
