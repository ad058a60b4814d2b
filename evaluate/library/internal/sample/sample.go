// Package sample has functions with every shape of input and result that the
// catalogue reads. They work nothing of use; tests call them.
//
// Validity: anything.
// Source: none, an invented example.
package sample

import (
	"context"

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

// Part is a record within a record.
type Part struct {
	Mass float64 `unit:"g"`
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
	out.Raise(model.Caution{ID: "sample", Summary: "it is {0}", Values: []model.Value{model.In(in.Ambient, "K")}})
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
		return OneValueResult{}, &model.Error{Field: "x", Summary: "it is below zero"}
	}
	return OneValueResult{Value: in.X}, nil
}

// LineInput has two columns.
type LineInput struct {
	Xs []float64 `dim:"x" points:"kept" same:"n"`
	Ys []float64 `dim:"y" points:"kept" same:"n"`
}

// Worked is embedded in a result, and has its spread.
type Worked struct {
	Slope float64 `dim:"y/x" estimated:"true"`
	model.Estimate
}

// LineResult speaks of two of its three fields.
type LineResult struct {
	Scatter float64 `dim:"y"`
	Worked
	Start *float64 `dim:"y" points:"kept" estimated:"true"`
	model.Cautions
}

// Line answers with how many values there are, as sure as there are many.
//
// Formula: none
// Example: l = line([1, 2], [3, 4])
func Line(in LineInput) (LineResult, error) {
	if len(in.Xs) == 0 {
		return LineResult{}, &model.Error{Field: "xs", Summary: "it is empty"}
	}
	n := float64(len(in.Xs))
	spread := model.Estimate{Covariance: [][]float64{{n, -1}, {-1, 2 * n}}, DegreesOfFreedom: n}
	return LineResult{Scatter: 0.5, Worked: Worked{n, spread}, Start: &n}, nil
}

// ObservedInput has a column.
type ObservedInput struct {
	Values []float64 `dim:"x" rest:"true"`
}

// ObservedResult is a bare value with its spread.
type ObservedResult struct {
	model.Estimate
	Value float64 `dim:"x" estimated:"true"`
}

// Observed answers with the last value.
//
// Formula: none
// Example: x = observed(1, 2)
func Observed(in ObservedInput) (ObservedResult, error) {
	last := in.Values[len(in.Values)-1]
	return ObservedResult{Value: last, Estimate: model.Estimate{Covariance: [][]float64{{last}}, Readings: in.Values}}, nil
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

// PatientInput has nothing to wait for.
type PatientInput struct {
	X float64 `unit:"1"`
}

// PatientResult is what came.
type PatientResult struct {
	X float64 `unit:"1"`
}

// Patient iterates for as long as the run may, so it takes the run's context.
//
// Formula: none
//
// Example:
//
//	p = patient(1)
func Patient(ctx context.Context, in PatientInput) (PatientResult, error) {
	return PatientResult(in), ctx.Err()
}
