package message

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Visible makes the characters of s visible that a terminal would obey or hide:
// controls, the marks that turn the direction of writing (Unicode Standard
// Annex 9), line and paragraph separators, the byte order mark, and bytes that
// are no UTF-8. They become escapes such as \x1b or \u202e; a tab becomes a space.
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
		case !isHidden(r):
			b.WriteString(s[i : i+n])
		case r < 0x100:
			fmt.Fprintf(&b, `\x%02x`, r)
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

// isHidden reports whether r is a control, directional or separating character.
func isHidden(r rune) bool {
	switch {
	case r < 0x20, 0x7f <= r && r <= 0x9f:
		return true
	case 0x202a <= r && r <= 0x202e, 0x2066 <= r && r <= 0x2069, r == 0x200e, r == 0x200f:
		return true
	}
	return r == 0x2028 || r == 0x2029 || r == 0xfeff
}
