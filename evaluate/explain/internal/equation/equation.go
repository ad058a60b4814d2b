// Package equation reads the equations in a doc comment's formula, evaluates them, and
// writes them with values in the place of their letters.
//
// [Read] takes a formula apart, [Solve] works the letters that it defines by the way,
// [Clause.Holds] says whether a clause is true of the values, and [Clause.Fill] writes
// it with them. What it cannot read, such as an integral or C(V), is no equation.
//
// The notation is that of a table of formulas, as worksheet/formula sets it: products
// with a dot, ², √, Σ over columns, |x|, sin φ, units behind numbers. A clause ends at a
// semicolon, a comma or a full stop; words may stand before its equation and behind it.
package equation

import (
	"slices"
	"strings"
)

// A Clause is a part of a formula: words, with an equation in them or none.
type Clause struct {
	Text  string
	sides []node   // of the equation: two or more; none where there is no equation
	signs []string // between them: = ≤ ≥ < > ≈
	spans [][2]int // of the sides, in Text
}

// Read are the clauses of a formula. The letters are those that stand for something,
// which tells V·A, a unit, from V times A.
func Read(formula string, letters []string) []Clause {
	parts := split(strings.TrimSuffix(strings.TrimSpace(formula), "."))
	known := slices.Clone(letters)
	for _, p := range parts {
		known = append(known, definedBy(p)...)
	}
	list := make([]Clause, len(parts))
	for i, p := range parts {
		list[i] = read(p, known)
	}
	return list
}

// IsEquation reports whether there is one in it.
func (c *Clause) IsEquation() bool { return len(c.sides) > 0 }

// HasMath reports whether there is anything in it that words have not.
func (c *Clause) HasMath() bool { return strings.ContainsAny(c.Text, "=≤≥≈·/√Σ∫²³^|") }

// Letters are all that stand for something in its equation.
func (c *Clause) Letters() (list []string) {
	for _, side := range c.sides {
		side.each(func(l letter) { list = append(list, l.name) })
	}
	return list
}

// Defines is the letter that an equation is for: the one that is alone on its left.
func (c *Clause) Defines() string {
	if len(c.sides) == 0 || c.signs[0] != "=" {
		return ""
	}
	l, _ := c.sides[0].(letter)
	return l.name
}

// split parts a text at the marks that end a clause, outside of brackets.
func split(text string) (parts []string) {
	depth, from := 0, 0
	for i, r := range text {
		switch r {
		case '(', '[':
			depth++
		case ')', ']':
			depth--
		case ';', ',', '.':
			if rest := text[i+1:]; depth == 0 && (strings.HasPrefix(rest, " ") || strings.HasPrefix(rest, "\n")) {
				parts = append(parts, strings.TrimSpace(text[from:i]))
				from = i + 1
			}
		}
	}
	return append(parts, strings.TrimSpace(text[from:]))
}

// definedBy are the names directly before the equals signs of a text.
func definedBy(text string) (names []string) {
	tokens := scan(text)
	for i, t := range tokens {
		if t.text == "=" && i > 0 && tokens[i-1].kind == nameToken {
			names = append(names, tokens[i-1].text)
		}
	}
	return names
}

// read finds the equation in a text: the longest that ends at the first sign of a
// relation, and what follows that.
func read(text string, known []string) Clause {
	c := Clause{Text: text}
	tokens := scan(text)
	sign := firstRelation(tokens)
	for from := range max(sign, 0) {
		if from > 0 && !tokens[from].gap {
			continue
		}
		p := &parser{text: text, tokens: tokens, at: from, known: known}
		if left, ok := p.sum(); ok && p.at == sign && c.relate(p, left, from) {
			return c
		}
	}
	return Clause{Text: text}
}

func firstRelation(tokens []token) int {
	depth := 0
	for i, t := range tokens {
		switch {
		case t.kind == openToken:
			depth++
		case t.kind == closeToken:
			depth--
		case depth == 0 && isRelation(t):
			return i
		}
	}
	return -1
}

func isRelation(t token) bool {
	return t.text != "" && t.kind == otherToken && strings.Contains("=≤≥<>≈", t.text)
}

// relate reads the sides behind the first; false where the last one goes on in a way
// that cannot be read.
func (c *Clause) relate(p *parser, left node, from int) bool {
	c.sides, c.signs, c.spans = []node{left}, nil, [][2]int{p.spanFrom(from)}
	for isRelation(p.peek()) {
		c.signs = append(c.signs, p.take().text)
		from = p.at
		right, ok := p.sum()
		if !ok {
			return false
		}
		c.sides, c.spans = append(c.sides, right), append(c.spans, p.spanFrom(from))
	}
	next := p.peek()
	return p.at == len(p.tokens) || next.gap && (next.kind == nameToken || next.kind == functionToken)
}
