package program

import (
	"inkwing/evaluate/message"
	"inkwing/units"
)

// A Chart is lines against X, out of tables.
type Chart struct {
	X      Line
	Lines  []Line
	Tables []ChartTable
}

// A Line is a column's name in a chart, with its kind and the unit of its axis.
type Line struct {
	Name    string
	Names   bool // an axis of texts: what stands at each is a bar
	Kind    units.Kind
	Unit    units.Unit // the zero unit when not said
	Span    message.Span
	Bracket message.Span // of what is in the brackets, else of the name
}

// A ChartTable is a table that a chart draws from.
type ChartTable struct {
	Node     Node
	Name     string // as written
	Measured bool   // a table of the file or a CSV file, else worked
	X        int
	Columns  []int // by the chart's lines; -1 for a column that it has not
}

// Operands are the tables.
func (c *Chart) Operands() []Node {
	nodes := make([]Node, len(c.Tables))
	for i, t := range c.Tables {
		nodes[i] = t.Node
	}
	return nodes
}

// SharesPanel reports whether two lines are of one dimension and so drawn on one
// scale.
func (l *Line) SharesPanel(m *Line) bool {
	return l.Kind.Dim == m.Kind.Dim && l.Kind.Point == m.Kind.Point && MarksAgree(l.Kind.Mark, m.Kind.Mark)
}
