// Package report is what a sheet came to, as plain data: values and the texts
// that show them.
//
// [Report] is what a working gives, [Comparison] what is otherwise in one than in
// another, [Step] how a quantity came about, and [Trace] what changed it. Nothing
// is evaluated here, so whoever lays a report out needs none of the engine.
package report

import (
	"inkwing/evaluate/message"
	"inkwing/units"
)

// A Report says what a sheet came to. All texts are ready to be shown: whoever
// prints a report formats no number by itself.
type Report struct {
	Sheet      string
	Quantities []Quantity // of this sheet's own definitions, fields behind their record
	Limits     []Limit
	UsedLimits []Limit // of the sheets that it uses
	Cautions   []Caution
	Errors     []message.Diagnostic // sorted by place, at most one a line
	Blocks     []Block              // one for each block of the sheet
	Inline     []InlineValue        // one for each inline value of the sheet
	Bypassed   []string             // of values that were put in the place of others: what stands in their way
	Asked      map[string]bool      // names of what the builder asks for: in the prose, with a bracket, in a limit
	Uses       []string             // names of all sheets and files used, directly or not
}

// State says how far a quantity came.
type State uint8

// The states.
const (
	Evaluated State = iota
	Failed          // its own line is in error
	Waiting         // what it depends on is not evaluated
)

// A Quantity is a named result, or one field of a record.
type Quantity struct {
	Name        string // "V_full", "store.capacitance"
	Path        string // the sheet that defines it
	Span        message.Span
	Block       int
	State       State
	Waits       string      // the name that it waits for
	Value       any         // float64 in coherent SI, bool or string; nil if not evaluated or not one of these
	Point       bool        // on a temperature scale, where a share means nothing
	Shown       string      // "12.5 F", "yes"; "—" if not evaluated
	Uncertainty Uncertainty // the zero Uncertainty if nothing uncertain bears on it
	Given       bool        // a plain value
	Note        string
	Headline    bool // worth a row of the block's region, unless it stands elsewhere on the page
	Kind        units.Kind
	Unit        units.Unit // given by the builder; zero where one that fits is chosen
}

// SIUnit is that of the value: "V", "m/s"; empty for truths and texts.
func (q Quantity) SIUnit() string {
	if !q.isNumber() {
		return ""
	}
	return q.Kind.Dim.SIUnit()
}

func (q Quantity) isNumber() bool { _, ok := q.Value.(float64); return ok }

// alike reports whether two quantities are of one dimension, or both no numbers.
func (q Quantity) alike(other Quantity) bool {
	return q.isNumber() == other.isNumber() && q.Kind.Dim == other.Kind.Dim
}

// An Uncertainty is how sure a number is, in coherent SI (JCGM 100:2008).
type Uncertainty struct {
	U                float64 // combined standard uncertainty
	Expanded         float64 // at 95.45 %
	DegreesOfFreedom float64 // effective degrees of freedom, +Inf where all are; 0 for none
	// Drawn reports that it was drawn (JCGM 101:2008): Low and High are the
	// shortest interval that holds 95 %, and the value shown is the mean.
	Drawn     bool
	Low, High float64
}

// An InlineValue is an inline value's text behind the equals sign; "?" if the
// quantity could not be evaluated.
type InlineValue struct{ Shown string }
