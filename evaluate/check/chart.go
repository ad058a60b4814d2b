package check

import (
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// chart finds each line's column in the tables. A table serves with the columns
// that it has; each must have the one that all are drawn against.
func (a *analysis) chart(d *program.Def, chart *program.Chart, x *syntax.Chart) {
	c := a.checker(d)
	if c.drawn(chart, x) {
		d.Type = program.Bool{}
	}
	c.finish()
}

func (c *checker) drawn(out *program.Chart, x *syntax.Chart) bool {
	tables := c.tables(x.From)
	if tables == nil {
		return false
	}
	out.X = c.line(x.Against)
	for _, l := range x.Lines {
		out.Lines = append(out.Lines, c.line(l))
		if c.twice(out.Lines) {
			return false
		}
	}
	for i, n := range tables {
		name, _ := syntax.Dotted(x.From[i])
		t := program.ChartTable{Node: n, Name: name, Measured: c.whole.isMeasured(n), Columns: make([]int, len(out.Lines))}
		if !c.source(out, &t, i == 0) {
			return false
		}
		out.Tables = append(out.Tables, t)
	}
	return c.allFound(out) && c.oneUnit(out)
}

// tables checks what stands behind from.
func (c *checker) tables(from []syntax.Expr) []program.Node {
	nodes := c.exprs(from)
	for i, n := range nodes {
		if _, ok := n.Type().(*program.Table); !ok {
			c.fail(from[i].Place(), "a chart is drawn from a table, this is "+n.Type().String(), c.tableHint(from[i], n))
			return nil
		}
	}
	return nodes
}

// tableHint points from a record to its table.
func (c *checker) tableHint(e syntax.Expr, n program.Node) string {
	name, _ := syntax.Dotted(e)
	if r, ok := n.Type().(*program.Record); ok {
		for _, f := range r.Fields {
			if _, table := f.Type.(*program.Table); table {
				return "its table is " + message.Quote(name+"."+f.Name)
			}
		}
	}
	return "name a table of this worksheet, a CSV file in use, a history such as " + message.Quote("ride.history") + ", or what a vary goes under"
}

func (c *checker) line(x syntax.Output) program.Line {
	name, _ := syntax.Dotted(x.Of)
	l := program.Line{Name: name, Span: x.Of.Place(), Bracket: x.Of.Place()}
	l.Unit, _ = c.bracket(x.Unit)
	if x.Unit != nil {
		l.Bracket = x.Unit.Span
	}
	return l
}

// twice says so where the last line stands before it too.
func (c *checker) twice(lines []program.Line) bool {
	last := lines[len(lines)-1]
	for _, l := range lines[:len(lines)-1] {
		if l.Name == last.Name {
			c.fail(last.Span, "the column "+message.Quote(last.Name)+" is drawn twice", "take one of the two out")
			return true
		}
	}
	return false
}

// isMeasured reports whether a table is the builder's own data.
func (a *analysis) isMeasured(n program.Node) bool {
	switch x := n.(type) {
	case *program.Chosen:
		return a.isMeasured(x.X)
	case *program.Joined:
		return a.isMeasured(x.X) && a.isMeasured(x.Y)
	case *program.Ref:
		return a.isData(x.Def)
	}
	return false
}

// isData reports whether a definition is the builder's own data, or rows of that. It asks
// each definition once: of two tables under one another both may come from one.
func (a *analysis) isData(d *program.Def) bool {
	known, asked := a.measured[d]
	if !asked {
		known = program.Is[*program.Data](d) || d.Node() != nil && a.isMeasured(d.Node())
		a.measured[d] = known
	}
	return known
}

// source finds a source's columns. The first one says what the axis is.
func (c *checker) source(d *program.Chart, s *program.ChartTable, first bool) bool {
	columns := s.Node.Type().(*program.Table).Columns
	if s.X = c.whole.place(columns, d.X.Name); s.X < 0 {
		c.noColumn(s, &d.X, columns)
		return false
	}
	if !c.axis(d, s, &columns[s.X], first) {
		return false
	}
	any := false
	for i := range d.Lines {
		l := &d.Lines[i]
		s.Columns[i] = c.whole.place(columns, l.Name)
		if s.Columns[i] < 0 {
			continue
		}
		any = true
		if !c.column(l, &columns[s.Columns[i]], s, !foundIn(d.Tables, i)) {
			return false
		}
	}
	if !any && len(d.Lines) > 1 {
		c.fail(s.Node.Place(), message.Quote(s.Name)+" has none of the columns drawn here", "it has "+program.FieldNames(columns))
	}
	return any || len(d.Lines) == 1
}

// axis holds what all is drawn against to what it is in the first source: numbers, or
// texts, at which bars stand.
func (c *checker) axis(d *program.Chart, s *program.ChartTable, f *program.Field, first bool) bool {
	text := isText(f.Type)
	if first {
		d.X.Names = text
	}
	switch {
	case text != d.X.Names:
		c.fail(s.Node.Place(), "the column "+message.Quote(d.X.Name)+" holds "+columnKind(text)+" in "+message.Quote(s.Name)+", and "+columnKind(!text)+" in the source before it", "draw the two in charts of their own")
		return false
	case !text:
		return c.column(&d.X, f, s, first)
	case !d.X.Unit.IsZero():
		c.fail(d.X.Bracket, "the column "+message.Quote(d.X.Name)+" holds texts, which have no unit", "leave the bracket out")
		return false
	}
	return true
}

func columnKind(text bool) string {
	if text {
		return "texts"
	}
	return "numbers"
}

// foundIn reports whether one of the sources has a line's column.
func foundIn(sources []program.ChartTable, line int) bool {
	for _, s := range sources {
		if s.Columns[line] >= 0 {
			return true
		}
	}
	return false
}

// column holds a column to its line: the first gives it its kind.
func (c *checker) column(l *program.Line, f *program.Field, s *program.ChartTable, first bool) bool {
	q, ok := f.Type.(program.Quantity)
	switch {
	case !ok:
		c.fail(l.Span, "the column "+message.Quote(l.Name)+" of "+message.Quote(s.Name)+" holds "+plural(f.Type)+", and a chart draws numbers", "give its heading a unit, such as [V], or [1] for pure numbers")
		return false
	case !first && !(q.Dim == l.Kind.Dim && q.Point == l.Kind.Point && program.MarksAgree(q.Mark, l.Kind.Mark)):
		c.fail(s.Node.Place(), "the column "+message.Quote(l.Name)+" is "+q.String()+" in "+message.Quote(s.Name)+", and "+l.Kind.String()+" in the source before it", "draw the two in charts of their own")
		return false
	case first && !l.Unit.IsZero() && !unitFits(q, l.Unit):
		c.fail(l.Bracket, "the column "+message.Quote(l.Name)+" is "+q.String()+", and "+l.Unit.Kind.String()+" is asked for", "write another unit, or leave the bracket out")
		return false
	}
	if first {
		l.Kind = q.Kind
		if l.Unit.IsZero() && (!s.Measured || f.Unit.Kind.Dim.IsNumber() || f.Unit.Kind.Dim.HasMoney()) {
			l.Unit = f.Unit // of a heading only a share's, such as %
		}
	}
	return true
}

func plural(t program.Type) string {
	switch t.(type) {
	case program.Text:
		return "texts"
	case program.Bool:
		return "truths (yes or no)"
	}
	return "no single numbers"
}

func unitFits(q program.Quantity, u units.Unit) bool {
	return q.Dim == u.Kind.Dim && (q.Point == u.Kind.Point || u.String() == "K") && program.MarksAgree(q.Mark, u.Kind.Mark)
}

// noColumn says that a source has no such column, with the nearest that it has.
func (c *checker) noColumn(s *program.ChartTable, l *program.Line, columns []program.Field) {
	hint := "it has " + program.FieldNames(columns)
	if near := c.nearField(l.Name, columns); near != "" {
		hint = didYouMean(near, hint)
	}
	c.fail(l.Span, "no column "+message.Quote(l.Name)+" in "+message.Quote(s.Name), hint)
}

// allFound sees that each line has a source.
func (c *checker) allFound(d *program.Chart) bool {
	for i := range d.Lines {
		if foundIn(d.Tables, i) {
			continue
		}
		var names []string
		columns := d.Tables[0].Node.Type().(*program.Table).Columns
		for k, s := range d.Tables {
			if names = append(names, s.Name); k > 0 && len(columns) <= mostFields {
				columns = slices.Concat(columns, s.Node.Type().(*program.Table).Columns)
			}
		}
		c.noColumn(&program.ChartTable{Name: strings.Join(names, "` or `")}, &d.Lines[i], columns)
		return false
	}
	return true
}

// mostFields is among how many columns of several tables the one is looked for that was
// meant.
const mostFields = 1000

// oneUnit sees that lines which share a panel are asked for in one unit.
func (c *checker) oneUnit(d *program.Chart) bool {
	var asked []*program.Line
	var texts []string
	for i := range d.Lines {
		b := &d.Lines[i]
		if b.Bracket == b.Span {
			continue
		}
		unit := b.Unit.String()
		for j, a := range asked {
			if texts[j] != unit && a.SharesPanel(b) {
				c.fail(b.Bracket, message.Quote(b.Name)+" shares its panel with "+message.Quote(a.Name)+", which is in "+texts[j], "write the same unit for both")
				return false
			}
		}
		asked, texts = append(asked, b), append(texts, unit)
	}
	return true
}
