package evaluate

import (
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
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
	Shown    string // "12.5 F", "yes"; "—" if not worked
	Given    bool   // a plain value
	Note     string
	Headline bool // listed in the block's region
}

// A Limit is a bound of the builder's own, worked.
type Limit struct {
	Span     message.Span
	Block    int
	State    State
	Waits    string
	Text     string // as written, one line
	Holds    bool
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
	Notes    []string
}

// A Point is a line that could not be worked.
type Point struct {
	Line       string // the line's own text, trimmed
	Diagnostic message.Diagnostic
}

// A Result is an inline value's text behind the equals sign; "?" if the
// quantity could not be worked.
type Result struct{ Shown string }
