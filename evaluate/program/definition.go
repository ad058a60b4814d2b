package program

import (
	"slices"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// A Def is one numbered definition.
type Def struct {
	ID    int
	Sheet *Sheet
	Name  string       // empty for one that nothing can name
	Place message.Span // of the name
	Stmt  syntax.Statement
	Block int
	Body  Body
	Type  Type // nil where Failed or Waits says why

	// Dependencies are the definitions that must be evaluated before it.
	Dependencies []int

	// Failed reports that its own line is in error; Waits names what it waits for
	// because that failed.
	Failed bool
	Waits  string
}

// OK reports whether the definition can be evaluated.
func (d *Def) OK() bool { return !d.Failed && d.Waits == "" }

// Node is the one expression that a value, a study or a budget is; nil for any
// other definition, and for one that is not OK.
func (d *Def) Node() Node {
	switch b := d.Body.(type) {
	case *Value:
		return b.Node
	case *Study:
		return b.Node
	case *Budget:
		return b.Of
	case *Cell:
		return b.Node
	case *Argument:
		return b.Node
	}
	return nil
}

// IsInput reports whether the definition is a plain value: one that a builder
// would change, not one that is worked from others.
func (d *Def) IsInput() bool {
	switch b := d.Body.(type) {
	case *Value:
		return b.Input
	case *Argument:
		return b.Input
	case *Cell:
		return b.Of == nil
	}
	return false
}

// Unit is the unit of the definition's bracket or of its column, the zero unit for
// none.
func (d *Def) Unit() units.Unit {
	switch b := d.Body.(type) {
	case *Value:
		return b.Unit
	case *Study:
		return b.Unit
	case *Cell:
		if t, ok := b.Table.Type.(*Table); ok {
			return t.Columns[b.Column].Unit
		}
	}
	return units.Unit{}
}

// Written is the unit that a value is shown or written in, the zero unit for
// none.
func (d *Def) Written() units.Unit {
	if !d.Unit().IsZero() {
		return d.Unit()
	}
	switch n := Nominal(d.Node()).(type) {
	case *Const:
		return n.Unit
	case *Ref:
		if Is[*Argument](d) {
			return n.Def.Written()
		}
	}
	if v, ok := d.Body.(*Value); ok {
		return v.lasting
	}
	return units.Unit{}
}

// Shown is the definition's name as a sheet would write it: parts.n_series for
// one of a used sheet.
func (d *Def) Shown(from *Sheet) string {
	if d.Sheet == from {
		return d.Name
	}
	if under, ok := from.Under(d.Sheet); ok {
		return under + "." + d.Name
	}
	return d.Name
}

// Touches reports whether a study's variables bear on a node.
func (s *Study) Touches(n Node) bool {
	return slices.ContainsFunc(Refs(n), func(id int) bool { return s.Touched[id] })
}

// Is reports whether a definition is of a kind.
func Is[B Body](d *Def) bool {
	_, ok := d.Body.(B)
	return ok
}

// Rows are those of a data table; nil for any other definition, and for a table
// that could not be read.
func (d *Def) Rows() *Rows {
	if t, ok := d.Body.(*Data); ok {
		return t.Rows
	}
	return nil
}
