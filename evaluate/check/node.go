package check

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/units"
)

// A Node is an expression with names resolved, units turned to SI and types
// known. It keeps the place of what the builder wrote.
type Node interface {
	Place() message.Span
	Type() Type
}

type typed struct {
	span message.Span
	typ  Type
}

// Place is where the builder wrote it.
func (t typed) Place() message.Span { return t.span }

// Type is the node's type.
func (t typed) Type() Type { return t.typ }

// The nodes.
type (
	// Const is a value known beforehand: float64 in SI, bool, string. Unit is
	// what the builder wrote behind a number, the zero unit for nothing.
	Const struct {
		typed
		Value any
		Unit  units.Unit
	}
	// Ref is the value of a definition or table.
	Ref struct {
		typed
		Def *Def
	}
	// Local is a parameter of the builder's own function; Index counts in the
	// innermost Let.
	Local struct {
		typed
		Param *Param
	}
	// Let works Body with parameters bound to values: a call of the builder's
	// own function.
	Let struct {
		typed
		Params []*Param
		Values []Node
		Body   Node
	}
	// Op is an operator on scalars, or element by element where some argument
	// is a list.
	Op struct {
		typed
		Name string // + - * / ^ neg not and or < <= > >= == !=
		At   message.Span
		Args []Node
	}
	// Call is a library function; nil stands for an argument not given.
	Call struct {
		typed
		Func *library.Function
		Args []Node
		// Each says that the one argument is a list, to be worked one by one.
		Each bool
	}
	// FieldOf is a field of a record.
	FieldOf struct {
		typed
		X     Node
		Index int
	}
	// ColumnOf is a column of a table, as a list.
	ColumnOf struct {
		typed
		X     Node
		Index int
	}
	// ElementOf is a row of a table or an element of a list; Key is a number
	// counted from 1 or a text.
	ElementOf struct {
		typed
		X, Key Node
	}
	// ListOf is values side by side.
	ListOf struct {
		typed
		Items []Node
	}
	// Fit turns a record or table into the shape that a parameter wants.
	Fit struct {
		typed
		X     Node
		Picks []Pick
		Rows  bool // a table is wanted
	}
	// If works one of two.
	If struct {
		typed
		Cond, Then, Else Node
	}
	// With works X again with some plain values replaced.
	With struct {
		typed
		X        Node
		Replaces []Replace
	}
)

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
	case *If:
		return []Node{x.Cond, x.Then, x.Else}
	case *With:
		list := []Node{x.X}
		for _, r := range x.Replaces {
			list = append(list, r.Value)
		}
		return list
	}
	return nil
}
