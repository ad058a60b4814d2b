package check

import (
	"strconv"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

func (r *reader) cell(column int, c syntax.Cell, row string) any {
	if c.Worked != nil {
		return r.worked(column, c, row)
	}
	text := r.point(column, strings.TrimSpace(c.Text))
	if text == "" || text == "–" || text == "?" || text == "-" {
		what := message.Quote(r.columns[column].Name) + " of " + message.Quote(row)
		if r.read.Keys == nil {
			what = message.Quote(r.columns[column].Name) + " in row " + strconv.Itoa(len(r.read.Cells)+1)
		}
		return program.Unknown{Span: c.Span, What: what, Cell: r.cellName(column, row)}
	}
	q, isNumber := r.columns[column].Type.(program.Quantity)
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
func (r *reader) literal(column int, c syntax.Cell, q program.Quantity, row string) any {
	x, problem := syntax.ParseValue(c.Span.File, c.Text, c.Span.Start)
	if problem != nil {
		return r.bad(column, row, c, message.Quote(strings.TrimSpace(c.Text))+" is no number", r.numberHint(column, c, problem))
	}
	if u, ok := x.(*syntax.Uncertain); ok {
		return r.uncertain(column, c, u, q, row)
	}
	n, ok := x.(*syntax.Number)
	if !ok {
		return r.bad(column, row, c, message.Quote(c.Text)+" is no number", "write a number")
	}
	return r.number(column, c, n, q, row)
}

// numberHint is what mends a cell that is no number.
func (r *reader) numberHint(column int, c syntax.Cell, problem *message.Diagnostic) string {
	text := strings.TrimSpace(c.Text)
	foreign, isForeign := syntax.Foreign(text)
	switch {
	case commaNumber.MatchString(text) && c.Span.File != r.def.Sheet.Name:
		return "the numbers of this file have a decimal comma: replace it by a point"
	case isForeign:
		return foreign
	case commaNumber.MatchString(text):
		return "write " + message.Quote(strings.Replace(text, ",", ".", 1))
	case text[0] >= '0' && text[0] <= '9' && !strings.Contains(text, ",") && strings.HasPrefix(problem.Hint, "write `"):
		return problem.Hint
	}
	return "the column " + message.Quote(r.columns[column].Name) + " holds numbers: write one, with a decimal point, or leave the cell empty"
}

// uncertain reads a cell with a spread: it holds its nominal.
func (r *reader) uncertain(column int, cell syntax.Cell, x *syntax.Uncertain, q program.Quantity, row string) any {
	deviation := r.whole.cells[r.def][cell.Span]
	if deviation == nil {
		return program.Unknown{Span: cell.Span, What: message.Quote(strings.TrimSpace(cell.Text))}
	}
	s := r.whole.of(r.def)
	s.deviations[x] = []*program.Def{deviation}
	c := r.whole.checker(r.def)
	c.unit = &r.units[column]
	value, ok := c.uncertain(x).(*program.Uncertain)
	if !ok {
		// One mistake, one message: what uses the cell fails at the same place.
		u := r.told(column, row, cell).(program.Unknown)
		u.Span = s.Problems[len(s.Problems)-1].Span
		return u
	}
	if !program.Same(q, value.Type()) {
		deviation.Body = &program.Deviation{}
		return r.bad(column, row, cell, value.Type().String()+" where "+q.String()+" is wanted", "the column is in "+r.units[column].String())
	}
	source := deviation.Body.(*program.Deviation).Source
	source.Name, source.Words = r.cellName(column, row), false
	r.read.Uncertain = append(r.read.Uncertain, program.UncertainCell{Row: len(r.read.Cells), Column: column, Value: value})
	return value.X.(*program.Const).Value
}

func (r *reader) number(column int, c syntax.Cell, n *syntax.Number, q program.Quantity, row string) any {
	if n.Unit == nil {
		return r.units[column].ToSI(n.Value)
	}
	u, err := units.Parse(n.Unit.Text)
	if err != nil {
		summary, hint := UnitError(err)
		return r.bad(column, row, c, summary, hint)
	}
	if u.Kind.Dim != q.Dim || u.Kind.Point != q.Point || !program.MarksAgree(u.Kind.Mark, q.Mark) {
		return r.bad(column, row, c, u.Kind.String()+" where "+q.String()+" is wanted", "the column is in "+r.units[column].String())
	}
	return u.ToSI(n.Value)
}

// cellName is the row and column of a cell, as a builder would write it.
func (r *reader) cellName(column int, row string) string {
	key := strconv.Itoa(len(r.read.Cells) + 1)
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
	return program.Unknown{Span: c.Span, What: message.Quote(strings.TrimSpace(c.Text)), Cell: r.cellName(column, row), Told: true}
}

// say tells what is wrong with a cell. A file of data is told once a column: what
// is wrong with its first row is wrong with a thousand.
func (r *reader) say(column int, c syntax.Cell, summary, hint string) {
	s := r.whole.of(r.def)
	if c.Span.File == s.Name {
		s.fail(c.Span, summary, hint)
		return
	}
	if _, again := r.wrong[column]; again {
		r.more[column]++
		return
	}
	r.wrong[column] = len(s.Problems)
	s.fail(c.Span, summary, hint)
}

// count adds to what is told of a column how many of its cells are wrong.
func (r *reader) count() {
	for column, n := range r.more {
		cells := strconv.Itoa(n) + " more cells of its column"
		if n == 1 {
			cells = "one more cell of its column"
		}
		r.def.Sheet.Problems[r.wrong[column]].Summary += "; nor can " + cells + " be read"
	}
}
