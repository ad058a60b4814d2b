package message

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Visible makes the characters of s visible that a terminal would obey or hide:
// those that [Misleads] names, all that have no width (Unicode's format characters
// and those that it lets be ignored), and bytes that are no UTF-8. They become
// escapes such as \x1b or \u202e; a tab becomes a space.
func Visible(s string) string {
	if isPlain(s) {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == '\t':
			b.WriteByte(' ')
		case r == utf8.RuneError && n == 1:
			fmt.Fprintf(&b, `\x%02x`, s[i])
		case !isHidden(r), isSelector(r) && isSymbolBefore(s[:i]):
			b.WriteString(s[i : i+n])
		case r < 0x100:
			fmt.Fprintf(&b, `\x%02x`, r)
		case r > 0xffff:
			fmt.Fprintf(&b, `\U%08x`, r)
		default:
			fmt.Fprintf(&b, `\u%04x`, r)
		}
		i += n
	}
	return b.String()
}

// isPlain reports whether s is printable ASCII throughout, as nearly every text is.
func isPlain(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

// Misleads reports whether r makes a text read otherwise than it is: controls, the
// marks that turn the direction of writing (Unicode Standard Annex 9), line and
// paragraph separators, and the byte order mark.
func Misleads(r rune) bool {
	switch {
	case r < 0x20, 0x7f <= r && r <= 0x9f:
		return true
	case 0x202a <= r && r <= 0x202e, 0x2066 <= r && r <= 0x2069, r == 0x200e, r == 0x200f, r == 0x061c:
		return true
	}
	return r == 0x2028 || r == 0x2029 || r == 0xfeff
}

// isHidden reports whether r misleads or is not seen: zero-width characters, tags,
// fillers, the soft hyphen. A sign that stands before a number in Arabic is seen.
func isHidden(r rune) bool {
	if r < 0xa0 {
		return Misleads(r)
	}
	return Misleads(r) || unicode.In(r, unicode.Cf, unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector) &&
		!unicode.Is(unicode.Prepended_Concatenation_Mark, r) || 0xe0000 <= r && r <= 0xe0fff
}

// isSelector reports whether r chooses between the picture and the sign of the
// symbol before it.
func isSelector(r rune) bool { return r == 0xfe0e || r == 0xfe0f }

func isSymbolBefore(s string) bool {
	r, _ := utf8.DecodeLastRuneInString(s)
	return unicode.Is(unicode.So, r) || unicode.Is(unicode.Sm, r)
}
