package units

import (
	"strings"
	"unicode/utf8"
)

func (p *parser) fault(start, end int, summary, hint string) *Error {
	return &Error{Text: p.text, Start: start, End: end, Summary: summary, Hint: hint}
}

// ambiguous refuses a second operator behind a solidus. The mend has all that
// follows below the line, as most readers take a/b/c.
func (p *parser) ambiguous(solidus int) *Error {
	const summary = "more than one factor stands behind /"
	end := p.closing()
	rest := p.text[solidus+1 : end]
	mend := strings.Trim(p.text[:solidus]+"/("+strings.ReplaceAll(rest, "/", "·")+")"+p.text[end:], " \t")
	if _, bad := Parse(mend); bad != nil || strings.Contains(rest, "(") {
		return p.fault(solidus, end, summary, "put brackets around all that is below the line")
	}
	err := p.fault(0, len(p.text), summary, "write "+mend+", or brackets where you mean them")
	err.Suggest = mend
	return err
}

// closing is where the part behind a solidus ends.
func (p *parser) closing() int {
	depth := 0
	for i := p.pos; i < len(p.text); i++ {
		switch c := p.text[i]; {
		case c == '(':
			depth++
		case c == ')' && depth == 0, c == ' ':
			return i
		case c == ')':
			depth--
		}
	}
	return len(p.text)
}

// missing says what should stand at the parser's place.
func (p *parser) missing() *Error {
	if p.pos == len(p.text) {
		start := max(p.pos-1, 0)
		for start > 0 && !utf8.RuneStart(p.text[start]) {
			start--
		}
		return p.fault(start, p.pos, "a unit is missing behind "+p.text[start:], "")
	}
	_, n := utf8.DecodeRuneInString(p.text[p.pos:])
	what := p.text[p.pos : p.pos+n]
	if n == 1 && isDigit(what[0]) {
		end := p.pos
		for end < len(p.text) && isDigit(p.text[end]) {
			end++
		}
		hint := "a unit has numbers only as exponents, and 1 before /"
		if before := strings.TrimRight(p.text[:p.pos], "/0123456789"); strings.HasSuffix(before, "^") {
			hint = "write a fraction as exponent in brackets: " + before + "(" + p.text[len(before):end] + ")"
		}
		return p.fault(p.pos, end, "the number "+p.text[p.pos:end]+" stands in a unit", hint)
	}
	return p.fault(p.pos, p.pos+n, "a unit is missing before "+what, "")
}

// rest says what is wrong with text behind a complete unit.
func (p *parser) rest() *Error {
	_, n := utf8.DecodeRuneInString(p.text[p.pos:])
	what := p.text[p.pos : p.pos+n]
	switch {
	case what == ")":
		return p.fault(p.pos, p.pos+n, "this bracket was not opened", "")
	case p.pos > 0 && p.text[p.pos-1] == ' ':
		return p.fault(p.pos, len(p.text), "a unit has no blanks inside", "join units with · or *, as in N·m")
	case what == "(":
		return p.fault(p.pos, p.pos+n, "an operator is missing before (", "write · or /")
	}
	return p.fault(p.pos, p.pos+n, "an operator is missing before "+what, "write · or * for a product, / for a quotient")
}
