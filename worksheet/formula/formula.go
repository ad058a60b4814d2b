// Package formula sets expressions, values and the formulas of doc comments in
// MathML Core, as a printed textbook has them: quantities italic, units,
// functions and what only describes roman, fractions built up.
//
// [Notation.Of] sets a tree of the language, [Value] a value as it is shown,
// [Name] a quantity's name, and [Clauses] the formula line of a doc comment. What
// they give is the inside of a math element; [Math] puts one round it. Its
// limit: nothing here breaks a line, so [Notation.Pieces] cuts a long sum where
// a printer would.
package formula

import (
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

// A Notation says what stands for what in a formula. The zero Notation sets a
// tree as it was written.
type Notation struct {
	// Symbol is the letter that a record's field goes by, by the place of the record
	// with its field; empty for one that is called by its name.
	Symbol func(field message.Span) string
	// Put is the value that stands in the place of a name, as it is shown.
	Put func(name message.Span) (string, bool)
	// Folded reports whether a function's arguments are left out: those of a model
	// fill a line, and stand on a card of their own.
	Folded func(function string) bool
	// Reach is the name by which an argument of a call can be changed, which is then
	// marked; empty for one that cannot. Nil marks nothing.
	Reach func(argument message.Span) string
}

// Of is an expression as the inside of a math element.
func (n Notation) Of(x syntax.Expr) string { return n.set(x, place{}).ml }

// Sets reports whether an expression is one that is set as a formula, and not one that
// chooses among the rows of a table or asks what if.
func Sets(x syntax.Expr) bool {
	switch x.(type) {
	case *syntax.Number, *syntax.Text, *syntax.Truth, *syntax.Name, *syntax.List, *syntax.Field, *syntax.Index, *syntax.Call,
		*syntax.Paren, *syntax.Unary, *syntax.Binary, *syntax.Compare, *syntax.If, *syntax.Uncertain, *syntax.With, *syntax.Argument:
	default:
		return false
	}
	return !slices.ContainsFunc(syntax.Children(x), func(x syntax.Expr) bool { return !Sets(x) })
}

// Math is a math element in line with a text. Whether it is built up to full height
// is for a style sheet to say (math-style).
func Math(parts ...string) string { return "<math>" + strings.Join(parts, "") + "</math>" }

// Equals is the sign before one side of an equation that begins with it.
func Equals() string { return leading("=") }

// Pieces cuts a sum or a chain of comparisons that is longer than so many
// characters; every piece but the first begins with its sign.
func (n Notation) Pieces(x syntax.Expr, width int) []string {
	var sums []*syntax.Binary // from the whole down to its first two terms
	for sum, ok := x.(*syntax.Binary); ok && (sum.Op == "+" || sum.Op == "-"); sum, ok = x.(*syntax.Binary) {
		sums, x = append(sums, sum), sum.X
	}
	slices.Reverse(sums)
	first := n.Of(x)
	for len(sums) > 0 { // the most of it that one piece holds
		more := n.Of(sums[0])
		if Width(more) > width {
			break
		}
		first, sums = more, sums[1:]
	}
	pieces := []string{first}
	for _, sum := range sums {
		tail := n.set(sum.Y, place{after: true}).tight(times).ml
		if last := &pieces[len(pieces)-1]; Width(*last)+Width(tail)+1 <= width {
			*last += sign(sum.Op) + tail
			continue
		}
		pieces = append(pieces, leading(sum.Op)+tail)
	}
	return pieces
}

// Parts is an expression cut where a line may end if it must: before a sign of relation,
// before what is put in by "with", behind each comma of a list. One that has no such
// place is one part.
func (n Notation) Parts(x syntax.Expr) []string {
	switch x := x.(type) {
	case *syntax.Compare:
		parts := []string{n.set(x.Operands[0], place{}).tight(plus).ml}
		for i, op := range x.Ops {
			parts = append(parts, leading(op)+n.set(x.Operands[i+1], place{}).tight(plus).ml)
		}
		return parts
	case *syntax.With:
		parts := n.replacements(x)
		parts[0] = wide + words("with") + wide + parts[0]
		return append([]string{n.set(x.X, place{}).ml}, parts...)
	case *syntax.List:
		return n.elements(x)
	}
	return []string{n.Of(x)}
}

// elements are those of a list, the first with its bracket before it and the last with
// its bracket behind it. Where one is tall the brackets are, too, and have to stand on
// one line.
func (n Notation) elements(x *syntax.List) []string {
	parts := make([]string, len(x.Items))
	for i, v := range x.Items {
		it := n.set(v, place{})
		if it.tall {
			return []string{n.Of(x)}
		}
		parts[i] = thin + it.ml + operator(",")
	}
	if len(parts) == 0 {
		return []string{n.Of(x)}
	}
	last := len(parts) - 1
	parts[0] = `<mo stretchy="false">[</mo>` + strings.TrimPrefix(parts[0], thin)
	parts[last] = strings.TrimSuffix(parts[last], operator(",")) + `<mo stretchy="false">]</mo>`
	return parts
}

// Width is about how many characters wide a formula stands: its signs, those
// of a fraction's two lines counted once each.
func Width(ml string) int {
	count, tag := 0, false
	for _, r := range ml {
		switch {
		case r == '<':
			tag = true
		case r == '>':
			tag = false
		case !tag:
			count++
		}
	}
	return count
}
