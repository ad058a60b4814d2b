package evaluate

import (
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/units"
)

// A Report says what a sheet came to. All texts are ready to be shown: whoever
// prints a report formats no number by itself.
type Report struct {
	Sheet      string
	Quantities []Quantity // of this sheet's own definitions, fields behind their record
	Limits     []Limit
	Cautions   []Caution
	Errors     []message.Diagnostic // sorted by place, at most one a line
	Blocks     []Block              // one for each block of the sheet
	Inline     []Result             // one for each inline value of the sheet
	Uses       []string             // names of all sheets and files used, directly or not
}

// State says how far a quantity came.
type State uint8

// The states.
const (
	Worked  State = iota
	Failed        // its own line is in error
	Waiting       // what it depends on is not worked
)

// A Quantity is a named result, or one field of a record.
type Quantity struct {
	Name     string // "V_full", "store.capacitance"
	Path     string // the sheet that defines it
	Span     message.Span
	Block    int
	State    State
	Waits    string // the name that it waits for
	Value    any    // float64 in coherent SI, bool or string; nil if not worked or not one of these
	SIUnit   string // "V", "m/s"; empty for truths and texts
	Point    bool   // on a temperature scale, where a share means nothing
	Shown    string // "12.5 F", "yes"; "—" if not worked
	Spread   Spread // the zero Spread if nothing uncertain bears on it
	Given    bool   // a plain value
	Note     string
	Headline bool // listed in the block's region
	kind     units.Kind
	unit     units.Unit // given by the builder; zero where one that fits is chosen
}

// A Spread is how sure a number is, in coherent SI (JCGM 100:2008).
type Spread struct {
	U        float64 // combined standard uncertainty
	Expanded float64 // at 95.45 %
	Freedom  float64 // effective degrees of freedom, +Inf where all are; 0 for no spread
	// Drawn says that it was drawn (JCGM 101:2008): Low and High are the
	// shortest interval that holds 95 %, and the value shown is the mean.
	Drawn     bool
	Low, High float64
}

// A Limit is a bound of the builder's own, worked.
type Limit struct {
	Span     message.Span
	Block    int
	State    State
	Waits    string
	Text     string // as written, one line
	Holds    bool
	Straddle bool // true or not so within the interval of what is uncertain in it
	Worked   string
	Allowed  string
	Headroom string
	Advice   string
}

// Kind says where a caution comes from.
type Kind uint8

// The kinds.
const (
	OfLimit    Kind = iota // a limit that does not hold
	OfModel                // a bound of a model that the numbers break
	OfStanding             // a hazard of the thing itself
)

// A Caution is a point to stop at, with its numbers put in.
type Caution struct {
	ID     string
	Kind   Kind
	Level  model.Level
	Span   message.Span
	Block  int
	Text   string // finding, why and what to do, as sentences
	Source string
}

// A Block is what a working block's region says.
type Block struct {
	Rows     []Quantity // what is worked and not a plain value
	Limits   []Limit
	Cautions []Caution
	Errors   []Point // lines of this block not worked, in order of their place
	Tables   []Table // of vary, adjust, tune, budget, measured, in order of their place
	Charts   []Chart
	Notes    []string
}

// A Table is what a statement came to that is no single value: all texts.
type Table struct {
	Verb    string // vary, adjust, tune, budget, measured
	Name    string // what it goes under; empty for none
	Span    message.Span
	State   State
	Waits   string
	Columns []Column
	Rows    [][]string
	Values  [][]any  // by row and column as Rows: float64 in coherent SI, bool, string, or nil
	Notes   []string // sentences to stand below it
}

// A Column is a heading and what its cells are.
type Column struct {
	Head   string
	SIUnit string // of Values
	Number bool   // to stand at the right
	Code   bool   // names, or what the builder wrote
}

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
	Panels []Panel // one a dimension, from the top
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

// A Point is a line that could not be worked.
type Point struct {
	Line       string // the line's own text, trimmed
	Diagnostic message.Diagnostic
}

// A Result is an inline value's text behind the equals sign; "?" if the
// quantity could not be worked.
type Result struct{ Shown string }
