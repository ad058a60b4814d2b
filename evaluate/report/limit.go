package report

import (
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
)

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
