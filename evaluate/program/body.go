package program

import (
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// A Body is what a definition is: *Value, *Study, *Data, *Cell, *Argument, *Limit,
// *Measurement, *Budget, *Show, *Chart, *Deviation or *Function. Its type is known from the statement
// and stands for a line in error too; what is in it only where the line is right.
type Body interface {
	// Operands are the expressions that the definition is evaluated by.
	Operands() []Node
}

type (
	// Value is name = expression.
	Value struct {
		Node  Node
		Unit  units.Unit // of the bracket; the zero unit for none
		Input bool       // a plain value
		// Converted reports that a plain value is shown in another unit than the one
		// it is written in: then it is a result too.
		Converted bool
		lasting   units.Unit // what it keeps from others, see LastingUnit
		count     bool       // a pure number that is no angle
	}
	// Study is a vary, adjust or tune, with a name or without.
	Study struct {
		Node    Node // *Vary, *Solve or *Optimise
		Unit    units.Unit
		Touched map[int]bool // by number: its variables and what depends on them
		// Limits are those that its variables touch: evaluated before it, and tested
		// again at each of its values.
		Limits []*Def
	}
	// Data is a table of the file or a CSV file.
	Data struct {
		Source *syntax.Table
		Rows   *Rows
		Commas []bool // by column: its numbers have decimal commas
		Worked []*Def // its cells that are worked, row by row
		heads  []string
		named  map[string]bool
	}
	// Cell is a cell of a data table that holds what a quantity comes to, or that is
	// typed and changed by a what-if. Column and Row count from 0.
	Cell struct {
		Table       *Def
		Row, Column int
		Of          *syntax.Worked // nil for one that is typed
		Node        Node
	}
	// Argument is a value in a call that is changed there by a what-if, and so is a
	// definition of its own.
	Argument struct {
		Value syntax.Expr
		Node  Node
		Input bool // not an element picked from a list
	}
	// Limit is a chain of comparisons that is to hold.
	Limit struct {
		Sides []Node
		Ops   []string // between the sides
	}
	// Measurement is measured a = value, which may be a list of trials.
	Measurement struct{ Of, Measured Node }
	// Budget is budget a. Its interval is to be that many standard uncertainties wide
	// to either side, or to hold that part of all values; 0 where neither is said.
	Budget struct {
		Of            Node
		Factor, Level float64
	}
	// Function is one of the builder's own. It is put in place of its calls, and
	// never evaluated by itself.
	Function struct{ Stmt *syntax.Function }
)

// Operands are its expression.
func (v *Value) Operands() []Node { return []Node{v.Node} }

// Operands are the study.
func (s *Study) Operands() []Node { return []Node{s.Node} }

// Operands are none: a table is read.
func (d *Data) Operands() []Node { return nil }

// Operands are what it holds.
func (c *Cell) Operands() []Node { return []Node{c.Node} }

// Operands are what is given.
func (a *Argument) Operands() []Node { return []Node{a.Node} }

// Operands are its sides.
func (l *Limit) Operands() []Node { return l.Sides }

// Operands are what was evaluated and what was measured.
func (m *Measurement) Operands() []Node { return []Node{m.Of, m.Measured} }

// Operands are what it is the budget of.
func (b *Budget) Operands() []Node { return []Node{b.Of} }

// Operands are none.
func (f *Function) Operands() []Node { return nil }
