package report

import (
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
)

// A Limit is a limit of the builder's own, and how its value keeps to it.
type Limit struct {
	Of       string // the name under which the sheet is used that sets it; empty for the report's own
	Span     message.Span
	Block    int
	State    State
	Waits    string
	Text     string // as written, one line
	Holds    bool
	Never    bool // does not arise: what it speaks of is never reached; it holds
	Straddle bool // true or not so within the interval of what is uncertain in it
	Value    string
	Allowed  string
	Headroom string
	Margin   *Margin // the same in numbers; nil where it could not be evaluated
	Advice   string
}

// A Margin is how far a value lies from its limit, in coherent SI. Of drawn
// operands these are the means.
type Margin struct {
	SIUnit    string
	Value     float64
	Low, High *float64 // what the value may be at least and at most; nil where there is no such bound
	Headroom  float64  // to the nearer bound by its share, negative beyond it
	Ratio     *float64 // the headroom as a part of that bound; nil on a temperature scale and beside 0
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
	Names  []string // whom it concerns: the one with these numbers, then the others
	Text   string   // finding, why and what to do, as sentences
	Source string
	// The parts of Text, for whoever sets them apart; Why and Hint may be empty.
	Summary, Why, Hint string
	Severity           float64 // grows with the harm, among those of one ID
}

// Grave reports whether people, the aircraft or a fire is at stake.
func (c *Caution) Grave() bool { return c.Level == model.Danger }

// Verdict says how a limit is kept, in words; empty where it could not be evaluated.
func (l *Limit) Verdict() string {
	switch {
	case l.State != Evaluated:
		return ""
	case l.Never:
		return "does not arise"
	case l.Holds && l.Straddle:
		return Kept + ", but not for all of the interval"
	case l.Holds:
		return Kept
	case l.Straddle:
		return Broken + ", but kept for a part of the interval"
	}
	return Broken
}

// What is said of a limit.
const (
	Kept   = "kept"
	Broken = "broken"
)
