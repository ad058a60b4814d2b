// Package library is what the language can call: functions of the physics,
// each declared once as a Go function from one struct to another.
//
// [Lookup] finds a function by its name in the language, [All] lists them,
// [Constant] is a constant's value. Signatures are read from the structs' tags
// when a function is first looked up, texts from the doc comments by way of the
// generated catalogue.
package library

//go:generate go run ./catalogue

import (
	"context"
	"slices"

	"inkwing/evaluate/library/model"
	"inkwing/units"
)

// The values that go in and out of a function, besides float64 (in the field's
// own unit converted to coherent SI; whole numbers too), bool and string. A
// field that was not given is nil, which only optional fields may be.
type (
	// List is the values of a list or column.
	List []any
	// Never is an optional quantity of a result that is not reached, however long
	// one waits: [model.Never].
	Never struct{}
	// Record is the values of a record's fields, in the order of its shape.
	Record []any
	// Rows is a table: the value in a row and column, both from 0.
	Rows interface {
		Len() int
		Cell(row, column int) any
	}
)

// A Function is one that the language can call.
type Function struct {
	Name   string // hold_up_time
	Topic  string // energy, generator, glide, plain
	Doc    Doc
	Params []Param // in the order of the Go fields
	Result Shape   // a record, or the bare value of a result with one field
	// Call runs it. The arguments stand in the order of Params, nil for what
	// was not given and has no default. The result fits Result. One that iterates
	// ends with the context's error when the context does.
	Call func(ctx context.Context, in []any) (out any, cautions []model.Caution, err error)
	// Estimate says how sure the answer to these arguments is; nil for a function
	// that cannot say. Estimated are the places of the fields that it speaks of in
	// the result's record, -1 for a bare value.
	Estimate  func(ctx context.Context, in []any) (model.Estimate, error)
	Estimated []int
	// Iterates says that it takes a context, since a call may take long: a simulation.
	Iterates bool
	// Asked are the fields of the result that are worked for themselves alone.
	Asked []Asked
}

// Asked is fields of a result, by their places, that take work of their own: a call that
// leaves them out, by their name, is quicker.
type Asked struct {
	Name   string
	Fields []int
}

// LeftOut stands for a field that a call left out.
type LeftOut struct{}

// CallWithout is Call with some of Asked left out, by their names: LeftOut stands in
// their places, and no cautions are told.
func (f *Function) CallWithout(ctx context.Context, in []any, names []string) (out any, err error) {
	out, _, err = f.Call(model.LeavingOut(ctx, names), in)
	record, ok := out.(Record)
	if err != nil || !ok {
		return out, err
	}
	for _, a := range f.Asked {
		if slices.Contains(names, a.Name) {
			for _, i := range a.Fields {
				record[i] = LeftOut{}
			}
		}
	}
	return record, nil
}

// Doc is a function's doc comment, taken apart at its labels.
type Doc struct {
	Summary  string // the first sentence
	Text     string // what else stands before the labels
	Formula  string
	Letters  string // what those of the formula are: "C1 cell.capacitance; np parallel; C = capacitance"
	Validity string
	Source   string
	Example  string // a working block's text
}

// Kind is what a value is.
type Kind uint8

// The kinds.
const (
	Quantity Kind = iota // a number with a dimension
	Integer              // a whole number
	Bool                 // yes or no
	Text                 // a text
	ListOf               // a list
	RecordOf             // a record
	Table                // a table: Rows
)

// A Shape is the type of a parameter, field or result.
type Shape struct {
	Kind   Kind
	Unit   units.Unit // of a Quantity, when Dim is empty: the unit of its tag
	Dim    string     // of a Quantity of any dimension: "x", "y", "x^1/2", "y/x", "x*y"
	Points bool       // of a Dim: temperature points may go in, and come out as points; else they are refused
	Params []Param    // the fields of a record, the columns of a table
	Elem   *Shape     // of a list
	Values []string   // of a Text: what it may be; nil for anything
}

// A Param is a parameter of a function, a field of a record or a column.
type Param struct {
	Name     string
	Help     string
	Shape    Shape
	Default  any    // SI value for what is not given; nil for none; of a Dim it is a pure number
	Shown    string // the default as its tag writes it: "20 °C"
	Optional bool   // may be left out although there is no default
	Choose   string // the group of which exactly one is given; with a final ? at most one
	Rest     bool   // takes all remaining positional arguments, as a list
	Same     string // lists of one such group have equal length
	Range    Range
	Headline int // place among the fields that a region shows, from 1; 0 for none
	// Overrides are the inputs that have no bearing, or less, where this one is given.
	Overrides []Override
	Symbol    string // the letter that the trade has for it, as a name writes it: "C", "V_rated"
}

// An Override is an input whose place another one takes.
type Override struct {
	Path   string // "diode_drop", "coil.turns"
	Leaves string // what it bears on still: "resistance and inductance"; empty for nothing
}

// A Range bounds a quantity, in SI. The zero Range bounds nothing.
type Range struct {
	Text              string // as the tag writes it: "[0,)"
	Low, High         float64
	HasLow, HasHigh   bool
	LowOpen, HighOpen bool
}
