package check

import (
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// A Drawing is a chart's statement, checked: lines against X, out of sources.
type Drawing struct {
	X       Line
	Lines   []Line
	Sources []Source
}

// A Line is a column's name in a chart, with its kind and the unit of its axis.
type Line struct {
	Name string
	Kind units.Kind
	Unit units.Unit // the zero unit when not said
	span message.Span
	unit message.Span // of what is in the brackets
}

// A Source is a table that a chart draws from.
type Source struct {
	Node     Node
	Name     string // as written
	Measured bool   // a table of the file or a CSV file, else worked
	X        int
	Columns  []int // by the chart's lines; -1 for a column that it has not
}

// Tables are the nodes of the sources.
func (d *Drawing) Tables() []Node {
	nodes := make([]Node, len(d.Sources))
	for i, s := range d.Sources {
		nodes[i] = s.Node
	}
	return nodes
}

// checkChart finds each line's column in the sources. A source serves with the
// columns that it has; each must have the one that all are drawn against.
func (d *Def) checkChart(x *syntax.Chart) {
	c := &checker{def: d, sheet: d.Sheet}
	drawing := c.drawing(x)
	c.finish()
	if drawing != nil {
		d.Drawing, d.Type = drawing, Truth{}
	}
}

func (c *checker) drawing(x *syntax.Chart) *Drawing {
	tables := c.tables(x.From)
	if tables == nil {
		return nil
	}
	out := &Drawing{X: c.line(x.Against)}
	for _, l := range x.Lines {
		out.Lines = append(out.Lines, c.line(l))
		if c.twice(out.Lines) {
			return nil
		}
	}
	for i, n := range tables {
		name, _ := Dotted(x.From[i])
		s := Source{Node: n, Name: name, Measured: measured(n), Columns: make([]int, len(out.Lines))}
		if !c.source(out, &s, i == 0) {
			return nil
		}
		out.Sources = append(out.Sources, s)
	}
	if !c.allFound(out) || !c.oneUnit(out) {
		return nil
	}
	return out
}

// tables checks what stands behind from.
func (c *checker) tables(from []syntax.Expr) []Node {
	nodes := c.exprs(from)
	for i, n := range nodes {
		if _, ok := n.Type().(*Table); !ok {
			c.fail(from[i].Place(), "a chart is drawn from a table, this is "+n.Type().String(), c.tableHint(from[i], n))
			return nil
		}
	}
	return nodes
}

// tableHint points from a record to its table.
func (c *checker) tableHint(e syntax.Expr, n Node) string {
	name, _ := Dotted(e)
	if r, ok := n.Type().(*Record); ok {
		for _, f := range r.Fields {
			if _, table := f.Type.(*Table); table {
				return "its table is " + quote(name+"."+f.Name)
			}
		}
	}
	return "name a table of this worksheet, a CSV file in use, a history such as " + quote("ride.history") + ", or what a vary goes under"
}

func (c *checker) line(x syntax.Output) Line {
	name, _ := Dotted(x.Of)
	l := Line{Name: name, span: x.Of.Place(), unit: x.Of.Place()}
	l.Unit, _ = c.bracket(x.Unit)
	if x.Unit != nil {
		l.unit = x.Unit.Span
	}
	return l
}

// twice says so where the last line stands before it too.
func (c *checker) twice(lines []Line) bool {
	last := lines[len(lines)-1]
	for _, l := range lines[:len(lines)-1] {
		if l.Name == last.Name {
			c.fail(last.span, "the column "+quote(last.Name)+" is drawn twice", "take one of the two out")
			return true
		}
	}
	return false
}

// measured reports whether a table is the builder's own data.
func measured(n Node) bool {
	ref, ok := n.(*Ref)
	if !ok {
		return false
	}
	return ref.Def.Role == Data || ref.Def.Node != nil && measured(ref.Def.Node)
}

// source finds a source's columns. The first one says what the axis is.
func (c *checker) source(d *Drawing, s *Source, first bool) bool {
	columns := s.Node.Type().(*Table).Columns
	if s.X = find(columns, d.X.Name); s.X < 0 {
		c.noColumn(s, &d.X, columns)
		return false
	}
	if !c.column(&d.X, &columns[s.X], s, first) {
		return false
	}
	any := false
	for i := range d.Lines {
		l := &d.Lines[i]
		s.Columns[i] = find(columns, l.Name)
		if s.Columns[i] < 0 {
			continue
		}
		any = true
		if !c.column(l, &columns[s.Columns[i]], s, !foundIn(d.Sources, i)) {
			return false
		}
	}
	if !any && len(d.Lines) > 1 {
		c.fail(s.Node.Place(), quote(s.Name)+" has none of the columns drawn here", "it has "+fieldNames(columns))
	}
	return any || len(d.Lines) == 1
}

// foundIn reports whether one of the sources has a line's column.
func foundIn(sources []Source, line int) bool {
	for _, s := range sources {
		if s.Columns[line] >= 0 {
			return true
		}
	}
	return false
}

// column holds a column to its line: the first gives it its kind.
func (c *checker) column(l *Line, f *Field, s *Source, first bool) bool {
	q, ok := f.Type.(Quantity)
	switch {
	case !ok:
		c.fail(l.span, "the column "+quote(l.Name)+" of "+quote(s.Name)+" holds "+plural(f.Type)+", and a chart draws numbers", "give its heading a unit, such as [V], or [1] for pure numbers")
		return false
	case !first && !(q.Dim == l.Kind.Dim && q.Point == l.Kind.Point && marksAgree(q.Mark, l.Kind.Mark)):
		c.fail(s.Node.Place(), "the column "+quote(l.Name)+" is "+q.String()+" in "+quote(s.Name)+", and "+l.Kind.String()+" in the source before it", "draw the two in charts of their own")
		return false
	case first && !l.Unit.IsZero() && !unitFits(q, l.Unit):
		c.fail(l.unit, "the column "+quote(l.Name)+" is "+q.String()+", and "+l.Unit.Kind.String()+" is asked for", "write another unit, or leave the bracket out")
		return false
	}
	if first {
		l.Kind = q.Kind
		if l.Unit.IsZero() {
			l.Unit = f.Unit
		}
	}
	return true
}

func plural(t Type) string {
	switch t.(type) {
	case Text:
		return "texts"
	case Truth:
		return "truths (yes or no)"
	}
	return "no single numbers"
}

func unitFits(q Quantity, u units.Unit) bool {
	return q.Dim == u.Kind.Dim && (q.Point == u.Kind.Point || u.String() == "K") && marksAgree(q.Mark, u.Kind.Mark)
}

// noColumn says that a source has no such column, with the nearest that it has.
func (c *checker) noColumn(s *Source, l *Line, columns []Field) {
	names := make([]string, len(columns))
	for i, f := range columns {
		names[i] = f.Name
	}
	hint := "it has " + fieldNames(columns)
	if near := message.Nearest(l.Name, names); near != "" {
		hint = didYouMean(near, hint)
	}
	c.fail(l.span, "no column "+quote(l.Name)+" in "+quote(s.Name), hint)
}

// allFound sees that each line has a source.
func (c *checker) allFound(d *Drawing) bool {
	for i := range d.Lines {
		if foundIn(d.Sources, i) {
			continue
		}
		var names []string
		var columns []Field
		for _, s := range d.Sources {
			names = append(names, s.Name)
			columns = append(columns, s.Node.Type().(*Table).Columns...)
		}
		c.noColumn(&Source{Name: strings.Join(names, "` or `")}, &d.Lines[i], columns)
		return false
	}
	return true
}

// oneUnit sees that lines which share a panel are asked for in one unit.
func (c *checker) oneUnit(d *Drawing) bool {
	for i := range d.Lines {
		for j := range d.Lines[:i] {
			a, b := &d.Lines[j], &d.Lines[i]
			if !a.SharesPanel(b) || a.unit == a.span || b.unit == b.span || a.Unit.String() == b.Unit.String() {
				continue
			}
			c.fail(b.unit, quote(b.Name)+" shares its panel with "+quote(a.Name)+", which is in "+a.Unit.String(), "write the same unit for both")
			return false
		}
	}
	return true
}

// SharesPanel reports whether two lines are of one dimension and so drawn on one
// scale.
func (l *Line) SharesPanel(m *Line) bool {
	return l.Kind.Dim == m.Kind.Dim && l.Kind.Point == m.Kind.Point && marksAgree(l.Kind.Mark, m.Kind.Mark)
}
