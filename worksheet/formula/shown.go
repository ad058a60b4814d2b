package formula

import (
	"strings"
	"unicode/utf8"
)

// A shownNumber is a number as it is shown, in its parts: with an interval, a unit, both
// or neither. What it has not is empty.
type shownNumber struct{ open, digits, spread, closed, power, blank, unit string }

// numberOf takes a number apart; false for what is none.
func numberOf(text string) (shownNumber, bool) {
	if !mayBeNumber(text) {
		return shownNumber{}, false
	}
	var n shownNumber
	rest := n.value(text)
	if !n.unitOf(rest) {
		return shownNumber{}, false
	}
	return n, true
}

// mayBeNumber reports whether a text begins as a number does.
func mayBeNumber(text string) bool {
	return text != "" && (strings.IndexByte("(-+0123456789", text[0]) >= 0 || strings.HasPrefix(text, "−"))
}

// value reads what stands before the unit, each part as far as it goes.
func (n *shownNumber) value(text string) (rest string) {
	n.open, rest = optional(text, "(")
	n.digits, rest = plainNumber(rest)
	if after, ok := strings.CutPrefix(rest, " ± "); ok {
		if spread, behind := plainNumber(after); spread != "" {
			n.spread, rest = spread, behind
		}
	}
	n.closed, rest = optional(rest, ")")
	size := powerSize(rest)
	n.power = rest[:size]
	return rest[size:]
}

// unitOf reads the unit, up to the end; false where something else stands there, or
// nothing before it.
func (n *shownNumber) unitOf(text string) bool {
	if text == "" {
		return n.digits != ""
	}
	n.blank, n.unit = optional(text, " ")
	first, _ := utf8.DecodeRuneInString(n.unit)
	return n.digits != "" && n.unit != "" && !strings.ContainsRune("0123456789 ()±", first) && strings.IndexByte(n.unit, ' ') < 0
}

func optional(text, part string) (string, string) {
	if strings.HasPrefix(text, part) {
		return text[:len(part)], text[len(part):]
	}
	return "", text
}

// plainNumber is the number at the beginning of a text, empty where none stands there,
// and what follows it.
func plainNumber(text string) (number, rest string) {
	sign := 0
	switch {
	case strings.HasPrefix(text, "−"):
		sign = len("−")
	case text != "" && (text[0] == '-' || text[0] == '+'):
		sign = 1
	}
	end := sign
	if end == len(text) || !isDigit(text[end]) {
		return "", text
	}
	for end < len(text) && (isDigit(text[end]) || text[end] == '.') {
		end++
	}
	end += powerSize(text[end:])
	return text[:end], text[end:]
}

// powerSize is how many bytes of a text are a power of ten, e-3, at its beginning.
func powerSize(text string) int {
	if text == "" || text[0] != 'e' {
		return 0
	}
	from := 1
	if len(text) > 1 && (text[1] == '-' || text[1] == '+') {
		from = 2
	}
	end := from
	for end < len(text) && isDigit(text[end]) {
		end++
	}
	if end == from {
		return 0
	}
	return end
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
