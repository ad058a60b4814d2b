// Package message holds places in a file and what is said about them.
//
// A [Span] is a pair of byte offsets into a named file; a [Diagnostic] is one
// thing that a builder should know about a span: what is wrong and what mends
// it. Line and column are computed by a [Source], and only when something is
// printed. The package imports nothing of inkwing.
package message

import (
	"cmp"
	"slices"
)

// A Span is a half-open range of bytes in a file.
type Span struct {
	File       string // the name under which the run knows the file
	Start, End int    // byte offsets into it, Start <= End
}

// To is the smallest span that covers both s and other.
func (s Span) To(other Span) Span {
	return Span{s.File, min(s.Start, other.Start), max(s.End, other.End)}
}

// A Note points at another place that explains a diagnostic, such as an
// earlier definition.
type Note struct {
	Span Span
	Text string
}

// A Diagnostic says what is wrong at a place, in the builder's terms.
type Diagnostic struct {
	Span    Span
	Summary string // lower case, no full stop: what is wrong
	Hint    string // what mends it; empty if nothing sensible can be said
	Notes   []Note
}

// CalledHere is the text of a note at the call of a function that cannot be worked.
const CalledHere = "called here"

// Sort orders diagnostics by file and place and keeps at most one a line.
// Two diagnostics stand on one line when sameLine says so of their spans.
func Sort(list []Diagnostic, sameLine func(a, b Span) bool) []Diagnostic {
	slices.SortStableFunc(list, func(a, b Diagnostic) int {
		return cmp.Or(cmp.Compare(a.Span.File, b.Span.File), cmp.Compare(a.Span.Start, b.Span.Start))
	})
	return slices.CompactFunc(list, func(a, b Diagnostic) bool { return sameLine(a.Span, b.Span) })
}
