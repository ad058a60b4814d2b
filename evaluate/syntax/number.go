package syntax

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"

	"inkwing/evaluate/message"
)

// number reads a number, the minus before it included, and the unit behind.
func (s *scanner) number() {
	start := s.pos
	if s.peek(0) == '-' {
		s.pos++
	}
	if s.peek(0) == '.' {
		from := s.pos
		s.pos++
		s.digits()
		s.invalid(from, "a digit is missing before the point", "write "+message.Quote("0"+s.line.Text[from:s.pos]))
		return
	}
	s.digits()
	if !s.fraction(start) {
		return
	}
	s.exponent()
	text := s.line.Text[start:s.pos]
	switch {
	case strings.HasSuffix(text, "_") || strings.Contains(text, "__") || strings.Contains(text, "_.") || strings.Contains(text, "_e"):
		s.invalid(start, "_ stands between two digits", "write "+message.Quote("10_000"))
		return
	case len(text) > MaxNumber:
		s.invalid(start, "this number is too long", "round it to what is known of it")
		return
	case s.comma(start):
		return
	}
	s.emit(tokenNumber, start)
	s.unit(s.pos, text)
}

// money reads a sign of money and the number behind it: €12.50.
func (s *scanner) money() {
	start := s.pos
	_, n := s.rune()
	s.pos += n
	if !isDigit(s.peek(0)) {
		sign := s.line.Text[start:s.pos]
		s.invalid(start, message.Quote(sign)+" stands beside a number", "write "+message.Quote(sign+"12.50")+" or "+message.Quote("12.50 "+sign))
		return
	}
	s.emit(tokenCoin, start)
	s.number()
}

// isMoney holds for signs of money.
func isMoney(r rune) bool { return unicode.Is(unicode.Sc, r) }

// per reads what a price is for, which touches the number: /m of €0.35/m.
func (s *scanner) per() {
	start, rest := s.pos, s.rest()
	if len(rest) > 1 && rest[0] == '/' && startsUnit(rest[1:]) {
		if run, complete := unitRun(rest); complete {
			s.pos += len(run)
			s.emit(tokenUnit, start)
		}
		return
	}
	s.skipBlanks()
	if run, _ := unitRun(s.rest()); startsUnit(s.rest()) && !linking[run] {
		start = s.pos
		s.pos += len(run)
		s.invalid(start, "a number has one unit: that of money stands behind the number or before it", "write "+message.Quote("€0.35/m")+" or "+message.Quote("0.35 €/m"))
	}
}

func (s *scanner) digits() {
	for isDigit(s.peek(0)) || s.peek(0) == '_' {
		s.pos++
	}
}

// fraction reads the point and what follows; false if it is wrong.
func (s *scanner) fraction(start int) bool {
	if s.peek(0) != '.' {
		return true
	}
	whole := s.line.Text[start:s.pos]
	s.pos++
	if !isDigit(s.peek(0)) {
		s.invalid(start, "a digit is missing behind the point", "write "+message.Quote(whole)+" or "+message.Quote(whole+".0"))
		return false
	}
	s.digits()
	if s.peek(0) == '.' && isDigit(s.peek(1)) {
		s.groups(len(s.line.Text))
		hint, _ := Foreign(s.line.Text[start:s.pos])
		s.invalid(start, "a number has one point", hint)
		return false
	}
	return true
}

// groups goes on over digits behind points and commas, as long as they begin before a byte.
func (s *scanner) groups(end int) {
	for c := s.peek(0); s.pos < end && (c == ',' || c == '.') && isDigit(s.peek(1)); c = s.peek(0) {
		s.pos++
		s.digits()
	}
}

// exponent reads e and what follows; a letter e that no digit follows is left
// to be a unit.
func (s *scanner) exponent() {
	if c := s.peek(0); c != 'e' && c != 'E' {
		return
	}
	k := 1
	if c := s.peek(k); c == '-' || c == '+' {
		k++
	}
	if isDigit(s.peek(k)) {
		s.pos += k
		s.digits()
	}
}

// comma notes 1,5 and takes it whole, and so 1,000.5.
func (s *scanner) comma(start int) bool {
	if s.peek(0) != ',' || !isDigit(s.peek(1)) {
		return false
	}
	left := s.line.Text[start:s.pos]
	s.pos++
	from := s.pos
	s.digits()
	right := s.line.Text[from:s.pos]
	hint := "write " + message.Quote(left+"."+right) + " for one number, or " + message.Quote(left+", "+right) + " for two"
	end := s.pos
	s.groups(start + longestForeign)
	if foreign, ok := Foreign(s.line.Text[start:s.pos]); ok {
		hint = foreign
	} else {
		s.pos = end
	}
	s.invalid(start, "a comma between two digits can be read two ways", hint)
	return true
}

// unit reads the unit behind a number that ends at byte end: one space and the
// longest run of what units are written with. A linking word is no unit.
func (s *scanner) unit(end int, number string) {
	if s.isPlainNumbers() {
		return
	}
	if n := len(s.list); n > 1 && s.list[n-2].Type == tokenCoin {
		s.per()
		return
	}
	s.skipBlanks()
	gap := s.line.Text[end:s.pos]
	start := s.pos
	if !startsUnit(s.rest()) {
		return
	}
	run, complete := unitRun(s.rest())
	if linking[run] {
		return
	}
	s.pos += len(run)
	last, _ := utf8.DecodeLastRuneInString(run)
	switch {
	case !complete, strings.ContainsRune("*/^·", last):
		s.invalid(start, message.Quote(run)+" is no unit", "put spaces around the operator to work with a quantity")
	case gap == "" && run != "°":
		s.touching(start, number, run)
	case utf8.RuneCountInString(gap) > 1:
		s.invalid(start, "a unit stands one space behind its number", "write "+message.Quote(number+" "+run))
	default:
		s.emit(tokenUnit, start)
	}
}

// touching notes 12V.
func (s *scanner) touching(start int, number, run string) {
	s.list = s.list[:len(s.list)-1]
	if after := strings.TrimLeft(s.rest(), " "); len(s.list) == 0 && after != "" && strings.IndexByte("=[(", after[0]) >= 0 {
		s.invalid(start-len(number), "a name begins with a letter", "write "+message.Quote(run+"_"+number))
		return
	}
	hint := "write " + message.Quote(number+" "+run)
	if run == "C" {
		hint += " for a charge; a rate of discharge such as 20C is a current, the capacity by the hour times 20: `20 * 2.2 Ah / 1 h`"
	}
	s.invalid(start-len(number), "a space is missing between a number and its unit", hint)
}

// startsUnit reports whether a unit can begin so.
func startsUnit(rest string) bool {
	r, _ := utf8.DecodeRuneInString(rest)
	return isUnitLetter(r)
}

func isUnitLetter(r rune) bool {
	switch r {
	case '°', '%', '\'', '_', '‰', '′', '″':
		return true
	}
	return r != utf8.RuneError && (unicode.IsLetter(r) || unicode.IsMark(r) || isMoney(r))
}

// unitRun is the longest run at the start of rest that units are written with:
// letters, signs of degree and percent, · * / ^, digits, a sign behind ^,
// superscripts, and brackets opened in the run behind an operator. It is
// incomplete when such a bracket is still open. Digits and _ count wherever
// they stand, so that the message about 2 n_1 is about n_1.
func unitRun(rest string) (run string, complete bool) {
	depth := 0
	var before rune
	for i, r := range rest {
		switch {
		case isUnitLetter(r), strings.ContainsRune("·*/^", r), isSuperscript(r):
		case r < utf8.RuneSelf && isDigit(byte(r)):
		case (r == '-' || r == '+') && (before == '^' || before == '('):
		case r == '(' && strings.ContainsRune("·*/^(", before):
			depth++
		case r == ')' && depth > 0:
			depth--
		default:
			return rest[:i], depth == 0
		}
		before = r
	}
	return rest, depth == 0
}

func isSuperscript(r rune) bool {
	return strings.ContainsRune("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺", r)
}

// sharedUnit reads the unit behind a bracket that holds number ± number, the
// way in which the report prints it.
func (s *scanner) sharedUnit() {
	n := len(s.list)
	if n < 5 || s.list[n-4].Type != tokenNumber || !isSign(&s.list[n-3], "±") || s.list[n-2].Type != tokenNumber ||
		!isSign(&s.list[n-5], "(") || n > 5 && s.isCallee(&s.list[n-6]) {
		return
	}
	from := s.list[n-5].Pos
	if from.Line != s.row {
		return
	}
	s.unit(s.pos, s.line.Text[from.Column-1:s.pos])
}

// isCallee reports whether t, right before a bracket, makes it a call.
func (s *scanner) isCallee(t *lexer.Token) bool {
	return t.Type == tokenName && isOperand(t)
}
