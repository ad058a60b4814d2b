// Package sample has functions with every shape of input and result that the
// catalogue reads. They work nothing of use; tests call them.
//
// Validity: anything.
// Source: none, an invented example.
package sample

import (
	"inkwing/evaluate/library/model"
)

// Store is a record, in and out.
type Store struct {
	Capacitance float64  `unit:"F" range:"(0,)" help:"of the whole pack" show:"1"`
	Resistance  *float64 `unit:"mΩ" help:"in series"`
	Cells       int      `range:"[1,)" default:"1"`
}

// Point is a row, in and out.
type Point struct {
	Time    float64 `unit:"s"`
	Voltage float64 `unit:"V" name:"U"`
}

// Form is a text of its own type.
type Form string

// Setting is embedded in an input.
type Setting struct {
	Ambient float64 `unit:"°C" default:"20 °C" range:"[-40,85]"`
	Warm    bool    `default:"true"`
}

// EveryShapeInput has every kind of parameter.
type EveryShapeInput struct {
	Store Store `help:"any record with these fields"`
	Setting
	Current *float64  `unit:"A" choose:"load" range:"(0,)"`
	Power   *float64  `unit:"W" choose:"load"`
	Steps   *int      `help:"how many"`
	Form    Form      `values:"round square" default:"round"`
	Log     []Point   `help:"a table"`
	Spare   *Store    `help:"a record that may be left out"`
	Times   []float64 `unit:"ms" same:"n"`
	Others  []float64 `unit:"V" same:"n" range:"[0,)" rest:"true"`
}

// EveryShapeResult has every kind of field.
type EveryShapeResult struct {
	Store
	Inner   Store
	Form    Form
	Turns   int
	Warm    bool
	Maybe   *float64 `unit:"V"`
	Times   []float64
	History []Point
	Part    Part
	model.Cautions
}

// Part is a record with cautions of its own.
type Part struct {
	Mass float64 `unit:"g"`
	model.Cautions
}

// EveryShape answers with what went in. It says so too.
//
// Formula: out = in
//
// Example:
//
//	s = every_shape(store)
//	    more
func EveryShape(in EveryShapeInput) (EveryShapeResult, error) {
	out := EveryShapeResult{
		Store: in.Store, Inner: in.Store, Form: in.Form, Warm: in.Warm,
		Maybe: in.Current, Times: in.Times, History: in.Log,
	}
	if in.Steps != nil {
		out.Turns = *in.Steps
	}
	if in.Spare != nil {
		out.Inner = *in.Spare
	}
	out.Part.Raise(model.Caution{ID: "sample-part"})
	out.Raise(model.Caution{ID: "sample", Says: "it is {0}", Values: []model.Value{{Number: in.Ambient, Unit: "K"}}})
	return out, nil
}

// OneValueInput has one parameter.
type OneValueInput struct {
	X float64 `dim:"x" help:"any"`
}

// OneValueResult is the bare value, since its other field is the cautions.
type OneValueResult struct {
	Value float64 `dim:"x^1/2"`
	model.Cautions
}

// OneValue answers with its argument, or an error for one below zero.
//
// Formula: out = in
// Example:
//
//	y = one_value(2)
func OneValue(in OneValueInput) (OneValueResult, error) {
	if in.X < 0 {
		return OneValueResult{}, &model.Error{Field: "x", Says: "it is below zero"}
	}
	return OneValueResult{Value: in.X}, nil
}

// HistoryInput has none.
type HistoryInput struct{}

// HistoryResult is a bare table.
type HistoryResult struct{ Rows []Point }

// History answers with a table.
//
// Formula: none
// Example: h = history()
func History(HistoryInput) (HistoryResult, error) {
	return HistoryResult{[]Point{{1, 10}, {2, 20}}}, nil
}

// Helper is no function of the language: it has neither input nor result.
func Helper(x float64) float64 { return x }
