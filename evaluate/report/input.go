package report

import (
	"inkwing/evaluate/message"
	"inkwing/units"
)

// An Input is what a builder typed and a trial or a what-if can change: a plain value,
// a number inside a call, a cell of a table. By its address, as Address=value, it is
// tried; at its Span it stands in the file.
type Input struct {
	Address string // "V_full", "parts.n_series", "store(series)", `cells["B50"].mass`
	Kind    InputKind
	Path    string       // of the sheet in which it stands
	Block   int          // of that sheet; -1 for a cell
	Span    message.Span // of all of it: "10 V ± 0.1 V", `cells["B50"]`
	// Digits are those of its number, where it is one: what is typed there is in
	// Unit, which is that behind the number, of the bracket or of the heading.
	Digits message.Span
	Unit   units.Unit
	Text   string // as written
	Value  any    // float64 in coherent SI, bool or string; nil for a list and for a cell that is not known
	// Choices are all that may stand in its place, where they can be told: the keys
	// of the table from which a row is picked, or the words that an argument knows.
	Choices []string
	Note    string
}

// SIUnit is that of the value: "V", "m/s"; empty for truths, texts and what is not known.
func (in Input) SIUnit() string {
	if _, ok := in.Value.(float64); !ok {
		return ""
	}
	return in.Unit.Kind.Dim.SIUnit()
}

// An InputKind is where an input stands.
type InputKind uint8

// The kinds.
const (
	PlainValue InputKind = iota // the right side of a definition
	InCall                      // an argument of a call
	InCell                      // a cell of a table
)
