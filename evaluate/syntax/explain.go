package syntax

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"inkwing/evaluate/message"
	"inkwing/units"
)

// explain says in the builder's terms what the grammar did not understand.
func explain(err error, list []lexer.Token) error {
	var p *problem
	if errors.As(err, &p) {
		if p.Hint == "" {
			p.Hint = formOf(list)
		}
		if p.Hint == "" && p.Span.Start == p.Span.End {
			p.Hint = "indent the next line if it belongs to this one"
		}
		return p
	}
	var unexpected *participle.UnexpectedTokenError
	if !errors.As(err, &unexpected) {
		return fail(spanOf(&list[0]), "this statement cannot be read", formOf(list))
	}
	t := &unexpected.Unexpected
	return misplaced(tokenBefore(list, t), t, wantedWord(unexpected.Error()), list)
}

func tokenBefore(list []lexer.Token, t *lexer.Token) *lexer.Token {
	before := &list[0]
	for i := range list {
		if list[i].Pos.Offset < t.Pos.Offset && !list[i].EOF() {
			before = &list[i]
		}
	}
	return before
}

// wantedWord is the word or sign that the grammar waits for, if it is a single
// one. The library tells only in its text: … (expected "until" …).
func wantedWord(text string) string {
	const lead = "(expected "
	i := strings.LastIndex(text, lead)
	if i < 0 {
		return ""
	}
	quoted, err := strconv.QuotedPrefix(text[i+len(lead):])
	if err != nil {
		return ""
	}
	word, err := strconv.Unquote(quoted)
	if err != nil || verbs[word] {
		return ""
	}
	return word
}

const (
	withAtEnd = "`with` stands only at the end of a definition"
	withMend  = "give the value a name: `name = … with x = …`"
)

// misplaced is about a token that the grammar has no place for.
func misplaced(before, t *lexer.Token, want string, list []lexer.Token) error {
	at := spanOf(t)
	unit := unitBehind(t, list)
	switch {
	case isOperand(before) && isWord(t, "in") && unit != "":
		return fail(at, "`in` cannot stand here", "what a value is shown in stands before its equals sign: "+message.Quote("name ["+unit+"] = …"))
	case unitsApart(before, t):
		return unitApart(before, t)
	case t.EOF() && want != "":
		return fail(at, message.Quote(want)+" is missing at the end of the statement", formOf(list))
	case t.EOF():
		return fail(at, "this statement ends too soon", formOf(list))
	case isWord(t, "with"):
		return fail(at, withAtEnd, withMend)
	case before.Pos.Line != t.Pos.Line && isOperand(before) && t.Type == tokenName && list[0].Type != tokenVerb:
		return fail(at, "this line is indented more than the block's first, so it belongs to the statement above",
			"give it the indent of the others if it stands by itself")
	case isStudyWord(before):
		return fail(spanOf(before), message.Quote(before.Value)+" stands first in its statement, or directly behind =", "give it a name: "+message.Quote("name = "+before.Value+" …"))
	case want != "":
		return fail(at, message.Quote(want)+" is wanted where "+message.Quote(t.Value)+" stands", formOf(list))
	case before.Type == tokenUnit && isSign(t, "("):
		return fail(spanOf(before), message.Quote(before.Value)+" directly behind a number is read as a unit", "write "+message.Quote("* "+before.Value+"(…)")+" to multiply; nothing is multiplied unsaid")
	case isWord(before, "for") && slices.ContainsFunc(list, func(t lexer.Token) bool { return t.Type == tokenVerb && t.Value == "tune" }):
		return fail(at, "`least` or `most` is wanted where "+message.Quote(t.Value)+" stands", formOf(list))
	case t.Type == tokenNumber && before.Type == tokenName && isCurrency(before.Value):
		return fail(at, "an operator is missing before "+message.Quote(t.Value), "money has its code behind its number: "+message.Quote(t.Value+" "+before.Value))
	case t.Type == tokenName && before.Type == tokenName && list[0].Type != tokenVerb && hasBehind(t, list, ","):
		return fail(at, "an operator is missing before "+message.Quote(t.Value), "what a function is called with stands in brackets: "+message.Quote(before.Value+"("+t.Value+", …)"))
	case t.Type == tokenName && before.Type == tokenName && list[0].Type != tokenVerb:
		return fail(at, "an operator is missing before "+message.Quote(t.Value), "write "+message.Quote("*")+" to multiply, "+message.Quote(before.Value+"_"+t.Value)+" for one name: names have no blanks")
	case list[0].Type != tokenVerb && isOperand(before) && (isOperand(t) || isSign(t, "(")):
		return fail(at, "an operator is missing before "+message.Quote(t.Value), "write "+message.Quote("*")+" to multiply; nothing is multiplied unsaid")
	case isSign(t, "="):
		return fail(at, "a second `=` stands here", "compare with `==`")
	case isSign(t, ":") && before.Type == tokenNumber:
		return fail(at, message.Quote(":")+" cannot stand here", "write a time in one unit, or as a sum: `1 min + 30 s`")
	}
	return fail(at, message.Quote(t.Value)+" cannot stand here", formOf(list))
}

// unitBehind is the unit that is the next token, empty for none.
func unitBehind(t *lexer.Token, list []lexer.Token) string {
	i := slices.IndexFunc(list, func(x lexer.Token) bool { return x.Pos.Offset > t.Pos.Offset })
	if i < 0 || list[i].Type != tokenName {
		return ""
	}
	if _, err := units.Parse(list[i].Value); err != nil {
		return ""
	}
	return list[i].Value
}

// hasBehind reports whether a sign stands somewhere behind a token.
func hasBehind(t *lexer.Token, list []lexer.Token, sign string) bool {
	return slices.ContainsFunc(list, func(x lexer.Token) bool { return x.Pos.Offset > t.Pos.Offset && isSign(&x, sign) })
}

// unitsApart reports whether a unit stands behind another with nothing between them, as in
// the handbooks 0.5 N m does.
func unitsApart(before, t *lexer.Token) bool {
	if before.Type != tokenUnit || t.Type != tokenName {
		return false
	}
	return unitOf(before.Value) != "" && unitOf(t.Value) != ""
}

// unitOf is a unit as it is written, of one that may be written out: h of hours.
func unitOf(text string) string {
	_, err := units.Parse(text)
	if err == nil {
		return text
	}
	if e := (*units.Error)(nil); errors.As(err, &e) && strings.HasPrefix(e.Hint, "write ") {
		return e.Suggest
	}
	return ""
}

func unitApart(before, t *lexer.Token) error {
	return fail(spanOf(t), "an operator is missing before "+message.Quote(t.Value), "units are joined by a point or `*`: "+message.Quote(unitOf(before.Value)+"·"+unitOf(t.Value)))
}

// isCurrency reports whether a name is the code of a currency.
func isCurrency(name string) bool {
	u, err := units.Parse(name)
	if err != nil {
		return false
	}
	_, ok := u.Kind.Dim.Currency()
	return ok
}
