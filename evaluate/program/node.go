package program

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// A Node is an expression with names resolved, units turned to SI and types
// known. It keeps the place of what the builder wrote.
type Node interface {
	Place() message.Span
	Type() Type
}

// Typed is what every node has: the place of what the builder wrote, and its type.
type Typed struct {
	Span message.Span
	Of   Type
}

// Place is where the builder wrote it.
func (t Typed) Place() message.Span { return t.Span }

// Type is the node's type.
func (t Typed) Type() Type { return t.Of }

// The nodes.
type (
	// Const is a value known beforehand: float64 in SI, bool, string. Unit is
	// what the builder wrote behind a number, the zero unit for nothing.
	Const struct {
		Typed
		Value any
		Unit  units.Unit
	}
	// Ref is the value of a definition or table; of a table, Cells are those of its
	// worked cells that are looked at.
	Ref struct {
		Typed
		Def   *Def
		Cells []*Def
	}
	// Local is a parameter of the builder's own function; Index counts in the
	// innermost Let.
	Local struct {
		Typed
		Param *Param
	}
	// Let works Body with parameters bound to values: a call of the builder's
	// own function.
	Let struct {
		Typed
		Params []*Param
		Values []Node
		Body   Node
	}
	// Op is an operator on scalars, or element by element where some argument
	// is a list.
	Op struct {
		Typed
		Name string // + - * / ^ neg not and or < <= > >= == !=
		At   message.Span
		Args []Node
	}
	// Call is a library function; nil stands for an argument not given.
	Call struct {
		Typed
		Func *library.Function
		Args []Node
		// Each says that the one argument is a list, to be worked one by one.
		Each bool
	}
	// FieldOf is a field of a record.
	FieldOf struct {
		Typed
		X     Node
		Index int
	}
	// ColumnOf is a column of a table, as a list; that of the rows' numbers where
	// Index is -1.
	ColumnOf struct {
		Typed
		X     Node
		Index int
	}
	// ElementOf is a row of a table or an element of a list; Key is a number
	// counted from 1 or a text.
	ElementOf struct {
		Typed
		X, Key Node
	}
	// ListOf is values side by side.
	ListOf struct {
		Typed
		Items []Node
	}
	// Fit turns a record or table into the shape that a parameter wants.
	Fit struct {
		Typed
		X     Node
		Picks []Pick
		Rows  bool // a table is wanted
	}
	// If works one of two.
	If struct {
		Typed
		Cond, Then, Else Node
	}
	// Chosen is some rows of a table, in an order, or one row as a record. Row are the
	// columns that Of names, as parameters of one row.
	Chosen struct {
		Typed
		X   Node
		How syntax.Choice
		Row []RowParam
		Of  Node
	}
	// Joined is one table under another: Columns are the places in Y of X's columns.
	Joined struct {
		Typed
		X, Y    Node
		Columns []int
	}
	// With works X again with some plain values replaced.
	With struct {
		Typed
		X        Node
		Replaces []Replace
	}
	// Uncertain is a value that lies off its nominal by a Deviation, or by that
	// part of itself where Relative is set.
	Uncertain struct {
		Typed
		X         Node
		Deviation *Def
		Relative  bool
	}
	// UncertainCall is the answer of a call that knows its own uncertainty: each of
	// its Fields (-1 for a bare value) lies off its nominal by the Deviation at the
	// same place.
	UncertainCall struct {
		Typed
		X          *Call
		Fields     []int
		Deviations []*Def
	}
	// Vary evaluates Outputs again for each value of one or two variables, as a
	// table.
	Vary struct {
		Typed
		Def     *Def // whose study it is: its limits are tested
		Over    []Variable
		Outputs []Output
	}
	// Solve is the value of a variable at which Left Op Right holds: what the
	// language calls adjust.
	Solve struct {
		Typed
		Def         *Def
		Over        Variable
		Op          string
		Left, Right Node
	}
	// Optimise is the values of up to three variables for the least, or most, of
	// Goal: what the language calls tune.
	Optimise struct {
		Typed
		Def  *Def
		Over []Variable
		Most bool
		Goal Node
	}
)

// A Variable of a study, with what it runs over: From to To, in steps of By if
// that is given, or the values of In: a list, or the rows of a table.
type Variable struct {
	Def          *Def
	Name         string // as written: parts.n_series
	From, To, By Node
	In           Node
}

// Column is what a variable's column holds: its values, or the key or number of
// each row.
func (v Variable) Column() Type {
	if _, isRow := v.Def.Type.(*Record); !isRow {
		return v.Def.Type
	}
	if t, ok := v.In.Type().(*Table); ok && t.Keyed {
		return Text{}
	}
	return Number
}

// An Output of a study: its column's name and the unit shown.
type Output struct {
	Node Node
	Name string     // as written: ride.time
	Unit units.Unit // the zero unit when not said
}

// A Pick is where a field of the wanted shape comes from.
type Pick struct {
	Param   *library.Param
	Index   int    // in the given record, -1 for none
	Default any    // then
	Nested  []Pick // for a record in the record
}

// A Param is a parameter of one call of the builder's own function. It is
// never used by two calls.
type Param struct {
	Name string
	Type Type
}

// A RowParam is a column as it stands in the row that is looked at.
type RowParam struct {
	Param  *Param
	Column int
}

// A Replace is one plain value with what it is replaced by.
type Replace struct {
	Def   *Def
	Value Node
}

// Children are the direct parts of a node, those not given left out.
func Children(n Node) []Node {
	switch x := n.(type) {
	case *Let:
		return append(append([]Node{}, x.Values...), x.Body)
	case *Op:
		return x.Args
	case *Call:
		var list []Node
		for _, a := range x.Args {
			if a != nil {
				list = append(list, a)
			}
		}
		return list
	case *FieldOf:
		return []Node{x.X}
	case *ColumnOf:
		return []Node{x.X}
	case *ElementOf:
		return []Node{x.X, x.Key}
	case *ListOf:
		return x.Items
	case *Fit:
		return []Node{x.X}
	case *Chosen:
		return []Node{x.X, x.Of}
	case *Joined:
		return []Node{x.X, x.Y}
	case *If:
		return []Node{x.Cond, x.Then, x.Else}
	case *With:
		list := []Node{x.X}
		for _, r := range x.Replaces {
			list = append(list, r.Value)
		}
		return list
	case *Uncertain:
		return []Node{x.X}
	case *UncertainCall:
		return []Node{x.X}
	}
	return studied(n)
}

// Refs lists the definitions that a node names, those within the builder's own
// functions too.
func Refs(n Node) []int { return refs(n, nil) }

func refs(n Node, list []int) []int {
	switch x := n.(type) {
	case *Ref:
		list = append(list, x.Def.ID)
		for _, d := range x.Cells {
			list = append(list, d.ID)
		}
		return list
	case *Uncertain:
		list = append(list, x.Deviation.ID)
	case *UncertainCall:
		for _, d := range x.Deviations {
			list = append(list, d.ID)
		}
	}
	for _, child := range Children(n) {
		list = refs(child, list)
	}
	return list
}

// studied are the parts of a study.
func studied(n Node) []Node {
	switch x := n.(type) {
	case *Vary:
		list := swept(x.Over...)
		for _, o := range x.Outputs {
			list = append(list, o.Node)
		}
		return list
	case *Solve:
		return append(swept(x.Over), x.Left, x.Right)
	case *Optimise:
		return append(swept(x.Over...), x.Goal)
	}
	return nil
}

func swept(over ...Variable) []Node {
	var list []Node
	for _, o := range over {
		for _, n := range []Node{o.From, o.To, o.By, o.In} {
			if n != nil {
				list = append(list, n)
			}
		}
	}
	return list
}
