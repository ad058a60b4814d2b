package syntax

import (
	"strings"
	"unicode/utf8"

	"inkwing/evaluate/message"
)

// signs are the operators and the punctuation, longer ones first.
var signs = []string{"<=", ">=", "==", "!=", "≤", "≥", "≠", "±"}

// mends say what to write in place of signs of other notations, longer ones first.
var mends = []struct{ sign, mend string }{
	{"+/-", "±"}, {"+-", "±"}, {"**", "^"}, {"&&", "and"}, {"||", "or"}, {"=<", "<="}, {"=>", ">="}, {"<>", "!="}, {":=", "="},
	{"×", "*"}, {"·", "*"}, {"⋅", "*"}, {"÷", "/"}, {"−", "-"}, {"–", "-"}, {"—", "-"}, {"²", "^2"}, {"³", "^3"},
	{"//", "#"}, {"“", `"`}, {"”", `"`}, {"„", `"`}, {"‘", `"`}, {"’", `"`}, {"'", `"`}, {"!", "not"}, {"&", "and"}, {"|", "or"},
}

// sign reads an operator or punctuation, or notes what is none.
func (s *scanner) sign() {
	start, rest := s.pos, s.rest()
	for _, m := range mends {
		if strings.HasPrefix(rest, m.sign) && !strings.HasPrefix(rest, "!=") {
			s.pos += len(m.sign)
			s.invalid(start, message.Quote(m.sign)+" is not a sign of this notation", "write "+message.Quote(m.mend))
			return
		}
	}
	for _, sign := range signs {
		if strings.HasPrefix(rest, sign) {
			s.pos += len(sign)
			s.emit(tokenSign, start)
			return
		}
	}
	if c := rest[0]; strings.IndexByte("+-*/^()[],.:=<>", c) >= 0 {
		s.punctuation(start, c)
		return
	}
	s.stray(start)
}

func (s *scanner) punctuation(start int, c byte) {
	s.pos++
	if c == ',' && start > 0 && isDigit(s.line.Text[start-1]) && isDigit(s.peek(0)) {
		s.invalid(start, "a comma between two digits can be read two ways", "put a space behind the comma")
		return
	}
	s.emit(tokenSign, start)
	if c == ')' {
		s.sharedUnit()
	}
}

// strayHints say what may be meant by a character that means nothing.
var strayHints = map[rune]string{
	';': "write one statement a line; the values of a list stand between commas",
	'√': "write `sqrt(…)`",
	'?': "a value that is kept up to date stands in the prose, in backticks: `E [J] = ?`; here stands what it is worked from",
	'½': "write `1/2`",
	'⅓': "write `1/3`",
	'⅔': "write `2/3`",
	'¼': "write `1/4`",
	'¾': "write `3/4`",
}

// stray notes a character that means nothing here.
func (s *scanner) stray(start int) {
	r, n := s.rune()
	s.pos += n
	char := s.line.Text[start:s.pos]
	switch {
	case isForbidden(r, n):
		s.invalid(start, describeForbidden(char), "delete it")
	case strings.ContainsRune("°%‰′″", r):
		s.invalid(start, message.Quote(char)+" stands only behind a number", "write "+message.Quote("5 "+char))
	case '０' <= r && r <= '９':
		s.wideDigits(start)
	case isSuperscript(r):
		s.invalid(start, message.Quote(char)+" stands only in a unit", "write `^` and the number")
	case '₀' <= r && r <= '₉':
		s.invalid(start, message.Quote(char)+" cannot stand in a name", "write "+message.Quote("_"+string('0'+r-'₀')))
	case r == '`':
		s.invalid(start, "a backtick means nothing here", "delete it; inside a block nothing is set in backticks")
	default:
		s.invalid(start, message.Quote(char)+" means nothing here", strayHints[r])
	}
}

// wideDigits notes a number in digits of double width, all of it at once.
func (s *scanner) wideDigits(start int) {
	s.pos = start
	narrow := ""
	for s.pos < len(s.line.Text) {
		r, n := s.rune()
		if r != '．' && (r < '０' || '９' < r) {
			break
		}
		narrow += string('!' + r - '！')
		s.pos += n
	}
	is := " is a digit of double width"
	if len(narrow) > 1 {
		is = " has digits of double width"
	}
	s.invalid(start, message.Quote(s.line.Text[start:s.pos])+is, "write "+message.Quote(narrow))
}

// isForbidden reports whether a character must not stand in code: controls, what
// turns the direction of writing, and bytes that are no UTF-8.
func isForbidden(r rune, size int) bool {
	if ' ' <= r && r <= '~' {
		return false
	}
	return r == utf8.RuneError && size == 1 || r != '\t' && message.Misleads(r)
}

// forbiddenIn finds the first forbidden character, length 0 for none.
func forbiddenIn(text string) (at, length int) {
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRuneInString(text[i:])
		if isForbidden(r, n) {
			return i, n
		}
		i += n
	}
	return 0, 0
}

func describeForbidden(char string) string {
	return "an invisible character, " + message.Quote(char) + ", stands here"
}
