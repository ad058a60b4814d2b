package syntax

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"inkwing/evaluate/message"
)

// name reads a name or a word.
func (s *scanner) name() {
	start := s.pos
	ascii := true
	for s.pos < len(s.line.Text) {
		r, n := s.rune()
		if !isNameRune(r) && !isDigit(byte(min(r, 127))) {
			break
		}
		ascii = ascii && r < utf8.RuneSelf
		s.pos += n
	}
	if !ascii {
		if bad := foreign(canonical(s.line.Text[start:s.pos])); bad != 0 {
			s.invalid(start, "the letter "+message.Quote(string(bad))+" is neither Latin nor Greek", "names are of Latin and Greek letters, digits and _")
			return
		}
	}
	s.emit(tokenName, start)
}

// isNameRune reports whether r can begin a name or stand in it; letters of other
// scripts count, so that the message can be about the whole name.
func isNameRune(r rune) bool {
	if r < utf8.RuneSelf {
		return 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' || r == '_'
	}
	return r != utf8.RuneError && (unicode.IsLetter(r) || unicode.IsMark(r))
}

// canonical is a name in NFC, the micro sign as the Greek letter mu. NFC itself
// turns the ohm and kelvin signs into letters.
func canonical(name string) string {
	for i := range len(name) {
		if name[i] >= utf8.RuneSelf {
			return strings.ReplaceAll(norm.NFC.String(name), "\u00b5", "\u03bc")
		}
	}
	return name
}

// Canonical is a name as the language compares it, however it was typed.
func Canonical(name string) string { return canonical(name) }

// IsName reports whether a canonical text can be a name. Whether it is reserved is
// another question.
func IsName(text string) bool {
	return text != "" && !isDigit(text[0]) && foreign(text) == 0
}

// foreign is the first character of a canonical name that is neither a Latin
// nor a Greek letter, a digit nor _; 0 for none.
func foreign(name string) rune {
	for _, r := range name {
		if r == '_' || '0' <= r && r <= '9' || unicode.IsLetter(r) && unicode.In(r, unicode.Latin, unicode.Greek) {
			continue
		}
		return r
	}
	return 0
}
