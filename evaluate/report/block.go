package report

import "inkwing/evaluate/message"

// A Block is what a working block's region says.
type Block struct {
	Rows     []Quantity // what is evaluated, no plain value, and stands nowhere else on the page
	Limits   []Limit
	Listed   bool      // an overview of the sheet lists the limits, too
	Cautions []Caution // each kind once a sheet, in the block where it first arises
	Errors   []Failure // lines of this block that could not be evaluated, in order of their place
	Tables   []Table   // of vary, adjust, tune, budget, measured, in order of their place
	Charts   []Chart
	Notes    []string
	Overview *Overview // nil where none is asked for
	Closing  string    // a last word on all cautions of the sheet, in one block of it
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
	Details []string // more of them, where there is room: a region leaves them out
}

// A Column is a heading and what its cells are.
type Column struct {
	Head   string
	SIUnit string // of Values
	Number bool   // to stand at the right
	Code   bool   // names, or what the builder wrote
	Detail bool   // for where there is room: a region leaves it out
}

// A Failure is a line that could not be evaluated.
type Failure struct {
	Line       string // the line's own text, trimmed
	Diagnostic message.Diagnostic
}
