package syntax

import (
	"strings"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"

	"inkwing/evaluate/message"
)

// A scanner turns one statement's lines into tokens. What it cannot read
// becomes an invalid token and a problem: it always comes to the end.
type scanner struct {
	tokens
	file     string
	line     Line
	row      int // index of line in the statement, from 1
	pos      int // next byte of line.Text
	notes    []string
	problems []message.Diagnostic
}

// scan reads a statement's tokens into room, which is empty but may be large
// enough: most statements then need no memory for them.
func scan(file string, lines []Line, room []lexer.Token) *scanner {
	s := &scanner{file: file, tokens: tokens{list: room}}
	for i, l := range lines {
		s.line, s.row, s.pos = l, i+1, 0
		for s.skipBlanks(); s.pos < len(l.Text); s.skipBlanks() {
			s.token()
		}
	}
	s.finish()
	s.markVerbs()
	return s
}

// finish puts the end directly behind the last token.
func (s *scanner) finish() {
	end := s.at(0)
	if t := s.last(); t != nil {
		end = t.Pos
		end.Offset += len(t.Value)
	}
	s.list = append(s.list, lexer.Token{Type: lexer.EOF, Pos: end})
}

// at is the place of byte k of the line.
func (s *scanner) at(k int) lexer.Position {
	return lexer.Position{Filename: s.file, Offset: max(0, s.line.Offset+k), Line: s.row, Column: k + 1}
}

// emit makes a token of the bytes from start up to where the scanner is.
func (s *scanner) emit(kind lexer.TokenType, start int) {
	s.list = append(s.list, lexer.Token{Type: kind, Value: s.line.Text[start:s.pos], Pos: s.at(start)})
}

// invalid makes an invalid token of the bytes from start, and notes the problem.
func (s *scanner) invalid(start int, summary, hint string) {
	span := spanIn(s.file, s.line, start, s.pos)
	s.problems = append(s.problems, message.Diagnostic{Span: span, Summary: summary, Hint: hint})
	s.emit(tokenInvalid, start)
}

// rest is what has not been read of the line.
func (s *scanner) rest() string { return s.line.Text[s.pos:] }

// peek is the character k bytes ahead, 0 at the end of the line.
func (s *scanner) peek(k int) byte {
	if s.pos+k >= len(s.line.Text) {
		return 0
	}
	return s.line.Text[s.pos+k]
}

func (s *scanner) rune() (rune, int) { return utf8.DecodeRuneInString(s.rest()) }

// last is the token before, nil at the start of the statement.
func (s *scanner) last() *lexer.Token {
	if len(s.list) == 0 {
		return nil
	}
	return &s.list[len(s.list)-1]
}

func (s *scanner) skipBlanks() {
	for s.pos < len(s.line.Text) {
		r, n := s.rune()
		if !isBlank(r) {
			return
		}
		s.pos += n
	}
}

// isBlank includes the fixed spaces that typesetters put before a unit.
func isBlank(r rune) bool {
	switch r {
	case ' ', '\t', '\r', '\u00a0', '\u2009', '\u202f':
		return true
	}
	return false
}

// token reads one token, the blanks before it gone.
func (s *scanner) token() {
	c := s.peek(0)
	switch {
	case c == '#':
		s.comment()
	case c == '"':
		s.text()
	case isDigit(c), c == '.' && isDigit(s.peek(1)) && !s.isAfterOperand():
		s.number()
	case c == '-' && (isDigit(s.peek(1)) || s.peek(1) == '.' && isDigit(s.peek(2))) && !s.isBehindOperand():
		s.number()
	case c == '[' && s.isUnitBracket():
		s.bracket()
	default:
		switch r, _ := s.rune(); {
		case isNameRune(r):
			s.name()
		case isMoney(r):
			s.money()
		default:
			s.sign()
		}
	}
}

// isAfterOperand reports whether the token before ends an operand and touches.
func (s *scanner) isAfterOperand() bool {
	t := s.last()
	return t != nil && isOperand(t) && t.Pos.Line == s.row && t.Pos.Column-1+len(t.Value) == s.pos
}

// isBehindOperand reports whether the token before ends an operand, so that a
// minus here is a subtraction. A linking word (vary x in -3 to …) ends none.
func (s *scanner) isBehindOperand() bool {
	t := s.last()
	if t == nil || !isOperand(t) {
		return false
	}
	return t.Type != tokenName || !isLinkingHere(s.list)
}

// isLinkingHere reports whether the last token, a name, is a word that links a
// statement: one that itself follows an operand, or the word of a verb.
func isLinkingHere(list []lexer.Token) bool {
	t := &list[len(list)-1]
	switch t.Value {
	case "in", "to", "by", "until", "for", "from", "against":
		return len(list) > 1 && isOperand(&list[len(list)-2])
	}
	return false
}

func (s *scanner) comment() {
	if note := strings.TrimSpace(strings.TrimLeft(s.rest(), "#")); note != "" && s.pos > 0 && s.hasTokenOnLine() {
		s.notes = append(s.notes, note)
	}
	s.pos = len(s.line.Text)
}

func (s *scanner) hasTokenOnLine() bool {
	t := s.last()
	return t != nil && t.Pos.Line == s.row
}

// text reads "…" with \" and \\.
func (s *scanner) text() {
	start := s.pos
	for s.pos++; s.pos < len(s.line.Text); {
		r, n := s.rune()
		switch {
		case r == '"':
			s.pos++
			s.emit(tokenText, start)
			return
		case r == '\\' && s.peek(1) != '"' && s.peek(1) != '\\':
			from := s.pos
			s.pos += 1 + min(1, len(s.rest())-1)
			s.pos += s.tail()
			s.invalid(from, `only \" and \\ are written with a backslash`, `write \\ for a backslash`)
			s.skipText()
			return
		case r == '\\':
			s.pos += 2
		case isForbidden(r, n):
			s.pos += n
			s.invalid(s.pos-n, describeForbidden(s.line.Text[s.pos-n:s.pos]), "delete it, or retype the text")
			s.skipText()
			return
		default:
			s.pos += n
		}
	}
	hint := `close it with "`
	if n := len(s.list); n > 0 && s.list[n-1].Type == tokenNumber {
		hint += ", or write inches as `in`"
	}
	s.invalid(start, "this text has no closing quote on its line", hint)
}

// tail completes a character that a cut by bytes has split.
func (s *scanner) tail() int {
	n := 0
	for s.pos+n < len(s.line.Text) && !utf8.RuneStart(s.line.Text[s.pos+n]) {
		n++
	}
	return n
}

// skipText goes to the end of a text that is already known to be wrong.
func (s *scanner) skipText() {
	if i := strings.IndexByte(s.rest(), '"'); i >= 0 {
		s.pos += i + 1
		return
	}
	s.pos = len(s.line.Text)
}

// isUnitBracket reports whether [ opens a unit: behind a name or a closing
// bracket and a blank, where a list or an index cannot stand.
func (s *scanner) isUnitBracket() bool {
	t := s.last()
	if t == nil || s.isAfterOperand() || len(s.list) == 1 && verbs[t.Value] && !s.isBeforeEquals() {
		return false
	}
	return isSign(t, ")") || t.Type == tokenName && !reserved[t.Value] && !isLinkingHere(s.list)
}

// isBeforeEquals reports whether = follows the bracket that opens here: behind a verb,
// [1 V, 2 V] is a list where none does.
func (s *scanner) isBeforeEquals() bool {
	_, after, closed := strings.Cut(s.rest(), "]")
	after = strings.TrimLeft(after, " \t")
	return !closed || strings.HasPrefix(after, "=") && !strings.HasPrefix(after, "==")
}

func (s *scanner) bracket() {
	start := s.pos
	end := strings.IndexAny(s.rest()[1:], "]#\"[") + 1
	if end <= 0 || s.rest()[end] != ']' {
		s.pos++
		s.invalid(start, "this bracket is not closed behind its unit", "close it with ]")
		s.pos = len(s.line.Text)
		return
	}
	s.pos += end + 1
	if i, n := forbiddenIn(s.line.Text[start:s.pos]); n > 0 {
		s.problems = append(s.problems, message.Diagnostic{Span: spanIn(s.file, s.line, start+i, start+i+n),
			Summary: describeForbidden(s.line.Text[start+i : start+i+n]), Hint: "delete it"})
	}
	s.emit(tokenBracket, start)
}

// markVerbs turns the first word into a verb where it is one, and the word
// behind = that begins a study.
func (s *scanner) markVerbs() {
	if s.list[0].Type == tokenName && verbs[s.list[0].Value] && !s.isDefined() {
		s.list[0].Type = tokenVerb
		return
	}
	for i := range s.list[:len(s.list)-1] {
		if isSign(&s.list[i], "=") {
			s.markStudy(i + 1)
			return
		}
	}
}

// isDefined reports whether the first word is what the statement defines: a quantity,
// or a function, behind whose bracket stands an equals sign or a unit.
func (s *scanner) isDefined() bool {
	next := &s.list[1]
	if isSign(next, "(") {
		after := s.closed(1)
		return after == nil || isSign(after, "=") || after.Type == tokenBracket
	}
	touches := next.Pos.Offset == s.list[0].Pos.Offset+len(s.list[0].Value)
	return isSign(next, "=") || isSign(next, "[") && touches || next.Type == tokenBracket
}

// closed is the token behind the bracket that token i opens, nil where it is not
// closed.
func (s *scanner) closed(i int) *lexer.Token {
	for depth := 0; i < len(s.list)-1; i++ {
		switch t := &s.list[i]; {
		case isSign(t, "("):
			depth++
		case isSign(t, ")"):
			if depth--; depth == 0 {
				return &s.list[i+1]
			}
		}
	}
	return nil
}

// markStudy turns vary, adjust or tune before a name into a verb.
func (s *scanner) markStudy(i int) {
	t, next := &s.list[i], &s.list[min(i+1, len(s.list)-1)]
	if isStudyWord(t) && next.Type == tokenName && !reserved[next.Value] {
		t.Type = tokenVerb
	}
}

// isPlainNumbers reports whether the statement is one where no unit follows a
// number: digits 2 t_fly.
func (s *scanner) isPlainNumbers() bool {
	return len(s.list) == 2 && (s.list[0].Value == "digits" || s.list[0].Value == "draws")
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }
