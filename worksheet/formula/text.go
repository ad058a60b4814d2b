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
	text := html.EscapeString(shown)
	if _, ok := numberOf(shown); !ok {
		return minusOf(text)
	}
	if !strings.ContainsAny(text, "e- ") {
		return text
	}
	var out strings.Builder
	out.Grow(len(text) + 8) // a few signs that take more bytes
	for i := 0; i < len(text); i++ {
		i += inText(&out, text[i:]) - 1
	}
	return out.String()
}

// inText writes the first sign of a number, or the power of ten that begins there, and
// gives how many bytes it took.
func inText(out *strings.Builder, text string) int {
	switch size := powerSize(text); {
	case size > 0:
		exponent := strings.TrimPrefix(text[1:size], "+")
		out.WriteString("\u202f×\u202f10<sup>")
		if after, negative := strings.CutPrefix(exponent, "-"); negative {
			out.WriteString("−")
			exponent = after
		}
		out.WriteString(exponent)
		out.WriteString("</sup>")
		return size
	case text[0] == '-':
		out.WriteString("−")
	case text[0] == ' ':
		out.WriteString("\u00a0")
	default:
		out.WriteByte(text[0])
	}
	return 1
}

// minusOf puts a true minus before a number with more than a unit behind it, such as
// -1.55 s per rpm.
func minusOf(text string) string {
	if len(text) > 1 && text[0] == '-' && text[1] >= '0' && text[1] <= '9' {
		return "−" + text[1:]
	}
	return text
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
