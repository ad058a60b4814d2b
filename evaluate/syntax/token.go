package syntax

import (
	"io"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"inkwing/evaluate/message"
)

// The kinds of token. A token's Value is its own bytes in the file, so that
// its place ends at Pos.Offset + len(Value).
const (
	tokenName    lexer.TokenType = iota + 1
	tokenVerb                    // a statement's first word, where it is a verb
	tokenNumber                  // digits, with a sign that belongs to them
	tokenUnit                    // the run behind a number
	tokenCoin                    // a sign of money before a number
	tokenBracket                 // [unit] behind a name, brackets included
	tokenText                    // "…", quotes included
	tokenSign                    // operators and punctuation
	tokenInvalid                 // something that a problem has been noted about
)

// reserved words are never names.
var reserved = map[string]bool{
	"and": true, "or": true, "not": true, "if": true, "then": true, "else": true,
	"true": true, "false": true, "within": true, "with": true,
}

// verbs begin a statement, unless = or [ or ( follows.
var verbs = map[string]bool{
	"limit": true, "measured": true, "vary": true, "adjust": true, "tune": true, "budget": true,
	"chart": true, "use": true, "digits": true, "draws": true, "show": true, "overview": true, "correlation": true,
}

// linking words go on with a statement behind a number, and are no unit there.
// The word in is the inch.
var linking = map[string]bool{
	"to": true, "by": true, "until": true, "for": true, "with": true, "within": true, "and": true, "or": true,
	"not": true, "then": true, "else": true, "if": true, "against": true, "from": true,
	"where": true, "sorted": true, "first": true, "total": true, "at": true,
}

// definition is the lexer for participle.
type definition struct{}

// Symbols names the kinds of token for the grammar.
func (definition) Symbols() map[string]lexer.TokenType {
	return map[string]lexer.TokenType{
		"EOF": lexer.EOF, "Name": tokenName, "Verb": tokenVerb, "Number": tokenNumber, "Unit": tokenUnit, "Coin": tokenCoin,
		"Bracket": tokenBracket, "Text": tokenText, "Sign": tokenSign, "Invalid": tokenInvalid,
	}
}

// Lex reads one statement of one line.
func (definition) Lex(file string, r io.Reader) (lexer.Lexer, error) {
	var text strings.Builder
	if _, err := io.Copy(&text, r); err != nil {
		return nil, err
	}
	s := scan(file, []Line{{Text: text.String()}}, nil)
	return &s.tokens, nil
}

// tokens hands out what has been scanned; it ends in a token of type EOF.
type tokens struct {
	list []lexer.Token
	next int
}

// Next is the next token; at the end it stays at the last.
func (t *tokens) Next() (lexer.Token, error) {
	token := t.list[t.next]
	if t.next < len(t.list)-1 {
		t.next++
	}
	return token, nil
}

// spanOf is a token's place.
func spanOf(t *lexer.Token) message.Span {
	return message.Span{File: t.Pos.Filename, Start: t.Pos.Offset, End: t.Pos.Offset + len(t.Value)}
}

// isSign reports whether t is that operator or punctuation.
func isSign(t *lexer.Token, sign string) bool { return t.Type == tokenSign && t.Value == sign }

// isWord reports whether t is that word.
func isWord(t *lexer.Token, word string) bool { return t.Type == tokenName && t.Value == word }

// isStudyWord reports whether t is a word that can begin a study.
func isStudyWord(t *lexer.Token) bool {
	return t.Type == tokenName && (t.Value == "vary" || t.Value == "adjust" || t.Value == "tune")
}

// isOperand reports whether an operand can end with t.
func isOperand(t *lexer.Token) bool {
	switch t.Type {
	case tokenName:
		return !reserved[t.Value] || t.Value == "true" || t.Value == "false"
	case tokenNumber, tokenUnit, tokenText, tokenBracket, tokenInvalid:
		return true
	}
	return isSign(t, ")") || isSign(t, "]")
}
