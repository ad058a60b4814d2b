package report

import "inkwing/evaluate/message"

// A Chart is a drawing beside the file. Its numbers are in the units of its
// axes.
type Chart struct {
	Span   message.Span
	State  State
	Waits  string
	Title  string
	Slug   string // of the file, without ending; no two of a sheet are alike
	File   string // its path from the sheet's folder, put in by whoever keeps the file
	Alt    string // what it shows, in words
	X      Axis
	Bars   bool     // what stands at each label is a bar, and no point
	Labels []string // what stands at 1, 2, … of X in place of numbers; nil for numbers
	Panels []Panel  // one a dimension, from the top
}

// An Axis is a quantity and its unit; an empty unit is a pure number.
type Axis struct{ Name, Unit string }

// A Panel is the lines that share a scale.
type Panel struct {
	Name   string // of its lines: "V", "V, U"
	Unit   string
	Series []Series
	Rules  []Rule
}

// A Series is one line, or the points of a measurement.
type Series struct {
	Name   string
	Points bool
	X, Y   []float64
	U      []float64 // expanded uncertainty of each Y; nil for none
}

// A Rule is a limit of the builder's own at a height of its panel.
type Rule struct {
	Name string
	At   float64
}
