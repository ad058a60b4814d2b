// Package model holds what the physics may answer beside numbers: cautions and
// errors that concern one of its inputs.
//
// The physics works in coherent SI and formats nothing. A sentence names its
// values as {0}, {1}, …; whoever shows it puts them in, each in a fitting unit
// of the value's dimension.
package model

import (
	"context"
	"math"
	"slices"
	"strconv"
)

// A Value is a number in the unit named, which must be one that the units
// package reads ("V", "A/mm^2", "°C", "1" for a pure number). The number is in
// that unit, not converted to SI: Value{2.7, "V"}, Value{8, "A/mm^2"}.
type Value struct {
	Number float64
	Unit   string
}

// In is a number in a unit.
func In(number float64, unit string) Value { return Value{Number: number, Unit: unit} }

// Level says who or what is at stake.
type Level uint8

// The levels, gravest last.
const (
	Advice  Level = iota // worth knowing: the answer is rough, or could be better
	Warning              // a part is at stake, or the answer may mislead
	Danger               // people, the aircraft, or a fire is at stake
)

// String is the level's name: advice, warning, danger.
func (l Level) String() string { return [...]string{"advice", "warning", "danger"}[min(l, Danger)] }

// A Caution is something that the numbers of a model, or the mere use of it,
// should make a builder stop at.
type Caution struct {
	ID       string // kebab-case, unique in the library: "cell-over-rating"
	Level    Level
	Standing bool    // a hazard of the thing itself, said once a worksheet
	Summary  string  // the finding with its worked value and bound, as {0}, {1}, …
	Values   []Value // what stands for {0}, {1}, …
	Why      string  // why it matters; may be empty
	Hint     string  // what to do
	Source   string  // a published source, or "common practice"

	// Severity grows with the harm, so that of several findings the gravest is told.
	// Zero leaves it to the values: see Excess.
	Severity float64
}

// Excess is how far a finding lies beyond its bound: the severity that is given,
// else the distance of {0} from {1} as a part of {1}, where both are in one unit.
// It is 0 where neither tells.
func (c Caution) Excess() float64 {
	if c.Severity != 0 {
		return c.Severity
	}
	if len(c.Values) < 2 || c.Values[0].Unit != c.Values[1].Unit || c.Values[1].Number == 0 {
		return 0
	}
	return math.Abs((c.Values[0].Number - c.Values[1].Number) / c.Values[1].Number)
}

// Cautions is embedded in the result of a library function that may raise some.
type Cautions struct{ List []Caution }

// Raise adds a caution.
func (c *Cautions) Raise(x Caution) { c.List = append(c.List, x) }

// Never is an optional field of a result that is known, and not reached: the time
// to a voltage that the source does not give. A field that is not known is nil.
func Never() *float64 {
	x := math.Inf(1)
	return &x
}

// Estimate is embedded in the result of a library function that works an estimate
// from scattered readings and can say how sure it is (JCGM 100:2008, 4.2 and
// H.3). The fields that it speaks of are tagged estimated:"true", in order.
type Estimate struct {
	// Covariance of those fields, in coherent SI; the diagonal holds the squares
	// of their standard uncertainties. A field that is missing has zeros; nil is
	// for an answer that adds no uncertainty of its own.
	Covariance [][]float64
	// DegreesOfFreedom is the degrees of freedom that all of them share.
	DegreesOfFreedom float64
	// Readings, of a mean only, is each reading's (x - mean)/√(n(n-1)): the
	// products of those of two means from one table sum to their covariance.
	Readings []float64
}

// An Error says why a model has no answer.
type Error struct {
	Field   string  // the input at fault, in the language's name with dots ("store.capacitance"); empty if none is
	Summary string  // lower case, no full stop, values as {0}, {1}, …
	Values  []Value // what stands for {0}, {1}, …
	Hint    string  // what would make it answer
}

// Error is the sentence with its values in their own units, for a Go caller.
func (e *Error) Error() string {
	text := Fill(e.Summary, func(i int) string {
		if i >= len(e.Values) {
			return "?"
		}
		v := e.Values[i]
		return strconv.FormatFloat(v.Number, 'g', 4, 64) + " " + v.Unit
	})
	if e.Field != "" {
		text = e.Field + ": " + text
	}
	return text
}

// Sketch is a sentence before there are values to put in.
func Sketch(text string) string { return Fill(text, func(int) string { return "…" }) }

// Fill puts show(i) where text has {i}, i a single digit.
func Fill(text string, show func(i int) string) string {
	out := make([]byte, 0, len(text)+16)
	for i := 0; i < len(text); i++ {
		if text[i] == '{' && i+2 < len(text) && text[i+2] == '}' && '0' <= text[i+1] && text[i+1] <= '9' {
			out = append(out, show(int(text[i+1]-'0'))...)
			i += 2
			continue
		}
		out = append(out, text[i])
	}
	return string(out)
}

type quietKey struct{}

// Quiet is a context in which nobody reads cautions: a function may leave out those that
// take work, and nothing else.
func Quiet(ctx context.Context) context.Context { return context.WithValue(ctx, quietKey{}, true) }

// IsQuiet reports whether nobody reads the cautions.
func IsQuiet(ctx context.Context) bool { return ctx.Value(quietKey{}) != nil }

type leftOutKey struct{}

// LeavingOut is a quiet context in which nobody reads some fields of the answer: those
// tagged asked with one of these names. A function may leave them as they are, and
// nothing else.
func LeavingOut(ctx context.Context, names []string) context.Context {
	return context.WithValue(Quiet(ctx), leftOutKey{}, names)
}

// Asked reports whether somebody reads the fields that are tagged asked with a name.
func Asked(ctx context.Context, name string) bool {
	names, _ := ctx.Value(leftOutKey{}).([]string)
	return !slices.Contains(names, name)
}

// Parts keeps parts of answers that other calls have in common with theirs, as long as it
// likes. Nobody writes to what it gave.
type Parts interface {
	Part(key any) (part any, ok bool)
	KeepPart(key, part any, bytes int)
}

type partsKey struct{}

// Sharing is a context whose calls share parts of their answers. It goes the way of the
// deadline: no answer depends on it.
func Sharing(ctx context.Context, p Parts) context.Context {
	return context.WithValue(ctx, partsKey{}, p)
}

// Once is a part of an answer that depends on the key alone, worked unless another call
// has worked it. Each kind of part has a key of a type of its own. It takes about so many
// bytes.
func Once[K comparable, V any](ctx context.Context, key K, bytes int, work func() V) V {
	parts, ok := ctx.Value(partsKey{}).(Parts)
	if !ok {
		return work()
	}
	if part, ok := parts.Part(key); ok {
		return part.(V)
	}
	part := work()
	parts.KeepPart(key, part, bytes)
	return part
}
