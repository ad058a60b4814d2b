package message

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Sentence begins a text with a capital, if its first word is a plain one, and
// ends it with a stop. Whoever writes a text need not know where it will stand.
func Sentence(text string) string { return Ended(Capital(strings.TrimSpace(text))) }

// Capital begins a text with a capital, if its first word is a plain one.
func Capital(text string) string {
	first, _, _ := strings.Cut(text, " ")
	if !isPlainWord(first) {
		return text
	}
	r, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(r)) + text[size:]
}

// Ended ends a text with a stop, if it has none.
func Ended(text string) string {
	if text == "" || strings.ContainsRune(".!?", rune(text[len(text)-1])) {
		return text
	}
	return text + "."
}

// isPlainWord reports whether a word is prose: small letters, two or more
// unless it is the article. Anything else may be a name or a unit, whose case
// counts.
func isPlainWord(word string) bool {
	word = strings.TrimRight(word, ",;:.")
	for i, r := range word {
		if (r < 'a' || r > 'z') && (i == 0 || r != '-' && r != '\'') {
			return false
		}
	}
	return len(word) > 1 || word == "a"
}
