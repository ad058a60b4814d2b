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
	// Off is a value that stands off its middle by an Offset, or by that part of
	// itself.
	Off struct {
		typed
		X      Node
		Offset *Def
		Part   bool
	}
	// Carry is the answer of a call that says how sure it is: each of its Fields
	// (-1 for a bare value) stands off its middle by the Offset at the same place.
	Carry struct {
		typed
		X       *Call
		Fields  []int
		Offsets []*Def
	}
	// Vary works Outputs again for each value of one or two variables, as a table.
	Vary struct {
		typed
		Def     *Def // whose study it is: its Limits are tested
		Over    []Over
		Outputs []Out
	}
	// Adjust is the value of a variable at which Left Op Right holds.
	Adjust struct {
		typed
		Def         *Def
		Over        Over
		Op          string
		Left, Right Node
	}
	// Tune is the values of up to three variables for the least, or most, of Of.
	Tune struct {
		typed
		Def  *Def
		Over []Over
		Most bool
		Of   Node
	}
)

// An Over is what a variable of a study runs over: From to To, in steps of By if
// that is given, or the values of In: a list, or the rows of a table.
type Over struct {
	Def          *Def
	Name         string // as written: parts.n_series
	From, To, By Node
	In           Node
}

// An Out is one output of a study: its column's name and the unit shown.
type Out struct {
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
	case *Off:
		return []Node{x.X}
	case *Carry:
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
		return append(list, x.Def.ID)
	case *Off:
		list = append(list, x.Offset.ID)
	case *Carry:
		for _, d := range x.Offsets {
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
	case *Adjust:
		return append(swept(x.Over), x.Left, x.Right)
	case *Tune:
		return append(swept(x.Over...), x.Of)
	}
	return nil
}

func swept(over ...Over) []Node {
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
