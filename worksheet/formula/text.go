package formula

import (
	"html"
	"strings"
	"unicode"
	"unicode/utf8"

	"inkwing/units"
)

// Text is a value as it is shown, as HTML for the middle of a text: a power of ten
// raised, a true minus, and no line break before the unit.
func Text(shown string) string {
	var room [64]byte // most values are shorter
	return string(AppendText(room[:0], shown))
}

// AppendText appends what [Text] is.
func AppendText(out []byte, shown string) []byte {
	text := html.EscapeString(shown)
	if _, ok := numberOf(shown); !ok {
		return appendMinus(out, text)
	}
	for text != "" {
		next := strings.IndexAny(text, "e- ")
		if next < 0 {
			break
		}
		out = append(out, text[:next]...)
		var size int
		out, size = appendSign(out, text[next:])
		text = text[next+size:]
	}
	return append(out, text...)
}

// appendSign appends the power of ten that a text begins with, or its first sign, and gives
// how many bytes that took.
func appendSign(out []byte, text string) ([]byte, int) {
	switch size := powerSize(text); {
	case size > 0:
		exponent, negative := strings.CutPrefix(strings.TrimPrefix(text[1:size], "+"), "-")
		out = append(out, "\u202f×\u202f10<sup>"...)
		if negative {
			out = append(out, "−"...)
		}
		return append(append(out, exponent...), "</sup>"...), size
	case text[0] == '-':
		return append(out, "−"...), 1
	case text[0] == ' ':
		return append(out, "\u00a0"...), 1
	}
	return append(out, text[0]), 1
}

// appendMinus appends a text with a true minus before a number with more than a unit
// behind it, such as -1.55 s per rpm.
func appendMinus(out []byte, text string) []byte {
	if len(text) > 1 && text[0] == '-' && isDigit(text[1]) {
		return append(append(out, "−"...), text[1:]...)
	}
	return append(out, text...)
}

// Joined keeps each number in a text on one line with the unit behind it.
func Joined(text string) string {
	var out strings.Builder
	done := 0 // bytes that are written
	for at := 0; ; {
		blank, end := numberThenWord(text, at)
		if blank < 0 {
			break
		}
		if at = end; !units.Is(text[blank+1 : end]) {
			continue
		}
		out.WriteString(text[done:blank])
		out.WriteString("\u00a0")
		done = blank + 1
	}
	if done == 0 {
		return text
	}
	out.WriteString(text[done:])
	return out.String()
}

// numberThenWord finds a digit from a place on with what may be the unit behind it: the
// blank between them, negative for none, and where the word ends.
func numberThenWord(text string, from int) (blank, end int) {
	for {
		next := strings.IndexByte(text[from:], ' ')
		if next < 0 {
			return -1, 0
		}
		blank = from + next
		first, size := utf8.DecodeRuneInString(text[blank+1:])
		if next > 0 && isDigit(text[blank-1]) && (unicode.IsLetter(first) || first == '°' || first == '%') {
			return blank, blank + 1 + size + wordSize(text[blank+1+size:])
		}
		from = blank + 1
	}
}

// wordSize is how many bytes of a text may go on with a unit.
func wordSize(text string) int {
	if end := strings.IndexAny(text, "\t\n\f\r ,;:.()&<"); end >= 0 {
		return end
	}
	return len(text)
}
