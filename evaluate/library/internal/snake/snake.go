// Package snake turns a Go name into the language's: [Case].
package snake

import (
	"strings"
	"unicode"
)

// Case writes HoldUpTime as hold_up_time, RCTime as rc_time, Log10 as log10.
func Case(name string) string {
	runes := []rune(name)
	var out strings.Builder
	for i, r := range runes {
		if i > 0 && unicode.IsUpper(r) && begins(runes, i) {
			out.WriteByte('_')
		}
		out.WriteRune(unicode.ToLower(r))
	}
	return out.String()
}

// begins reports whether the capital at i begins a word: behind a small letter or
// digit, or as the last capital of a row (the T of RCTime).
func begins(runes []rune, i int) bool {
	if !unicode.IsUpper(runes[i-1]) {
		return runes[i-1] != '_'
	}
	return i+1 < len(runes) && unicode.IsLower(runes[i+1])
}
