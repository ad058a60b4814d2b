package region

import (
	"unicode"

	"golang.org/x/text/width"
)

// Width is how many columns a text takes: none for controls and marks that
// combine, two for what East Asian scripts draw wide, one for all else.
// It is what formatters and linters of Markdown tables count with, for every
// text that a region holds (no emoji and no joiners come so far).
func Width(text string) (n int) {
	for _, r := range text {
		n += runeWidth(r)
	}
	return n
}

func runeWidth(r rune) int {
	if r >= ' ' && r < 0x7f {
		return 1
	}
	if unicode.IsControl(r) || unicode.In(r, unicode.Mn, unicode.Me) {
		return 0
	}
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return 2
	}
	return 1
}
