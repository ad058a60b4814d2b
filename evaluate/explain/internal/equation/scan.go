package equation

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

type kind uint8

const (
	otherToken kind = iota
	numberToken
	nameToken // a letter with its marks, or a word
	functionToken
	raisedToken // figures written high: ², ⁻¹
	openToken
	closeToken
	barToken
	rootToken
	overToken // Σ, Π
)

// A token is a piece of a text, and whether a blank stands before it.
type token struct {
	kind       kind
	text       string
	start, end int
	gap        bool
}

// scan takes a text apart.
func scan(text string) (list []token) {
	for at := 0; at < len(text); {
		r, size := utf8.DecodeRuneInString(text[at:])
		if unicode.IsSpace(r) {
			at += size
			continue
		}
		t := token{start: at, gap: at > 0 && text[at-1] == ' '}
		t.kind, t.end = piece(text[at:], r, size)
		t.end += at
		t.text = text[at:t.end]
		list = append(list, t)
		at = t.end
	}
	return list
}

// piece is what a text begins with, and how long that is.
func piece(text string, r rune, size int) (kind, int) {
	switch {
	case r >= '0' && r <= '9':
		return numberToken, figures(text)
	case vulgar[r] != 0:
		return numberToken, size
	case strings.ContainsRune(raised, r):
		return raisedToken, run(text, func(r rune) bool { return strings.ContainsRune(raised, r) })
	case r == '(' || r == '[':
		return openToken, size
	case r == ')' || r == ']':
		return closeToken, size
	case r == '|':
		return barToken, size
	case r == '√':
		return rootToken, size
	case r == 'Σ' || r == 'Π':
		return overToken, size
	case unicode.IsLetter(r):
		n := run(text, isNameRune)
		if functions[text[:n]] != nil || slices.Contains(overColumns, text[:n]) {
			return functionToken, n
		}
		return nameToken, n
	}
	return otherToken, size
}

const raised = "⁰¹²³⁴⁵⁶⁷⁸⁹⁻"

// vulgar are the fractions that are one sign.
var vulgar = map[rune]float64{'½': 1. / 2, '⅓': 1. / 3, '⅔': 2. / 3, '¼': 1. / 4, '¾': 3. / 4}

func run(text string, of func(rune) bool) int {
	if end := strings.IndexFunc(text, func(r rune) bool { return !of(r) }); end >= 0 {
		return end
	}
	return len(text)
}

func isNameRune(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsMark(r) || unicode.IsDigit(r) || r == '_' || r == '′' || '₀' <= r && r <= '₉'
}

// figures is how long a number is, with its power of ten.
func figures(text string) int {
	isFigure := func(r rune) bool { return r >= '0' && r <= '9' }
	n := run(text, func(r rune) bool { return isFigure(r) || r == '.' })
	for n > 0 && text[n-1] == '.' {
		n--
	}
	rest := text[n:]
	if len(rest) < 2 || rest[0] != 'e' {
		return n
	}
	sign := 0
	if rest[1] == '-' || rest[1] == '+' {
		sign = 1
	}
	if digits := run(rest[1+sign:], isFigure); digits > 0 {
		n += 1 + sign + digits
	}
	return n
}
