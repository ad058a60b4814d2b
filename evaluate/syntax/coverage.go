package syntax

import (
	"github.com/alecthomas/participle/v2/lexer"

	"inkwing/evaluate/message"
)

// Behind a spread may stand how much it covers, as certificates and data sheets say
// it (JCGM 100:2008, 7.2.4): at 99 %, or (k = 2.26, ν = 9). Behind hard limits stands
// (triangular) where the middle is likelier than the ends (4.3.9), or (ν = 8) where
// the limits themselves are a guess (G.4.2).

// isCoverage reports whether something about an interval follows.
func (c *precedenceParser) isCoverage() bool {
	t := c.peek()
	if isWord(t, "at") {
		return true
	}
	return isSign(t, "(") && coverageWords[canonical(c.ahead().Value)]
}

// coverageWords stand in the bracket. The letter v is taken for a mistyped ν.
var coverageWords = map[string]bool{"k": true, "K": true, "ν": true, "nu": true, "v": true, "triangular": true}

// covered reads what stands behind the spread of a value.
func (c *precedenceParser) covered(u *Uncertain) error {
	if t := c.peek(); !isWord(t, "at") && !isSign(t, "(") {
		return nil
	}
	var err error
	if u.Coverage, err = c.coverage(); err != nil {
		return err
	}
	u.Span = u.Span.To(u.Coverage.Span)
	return u.refuseCoverage()
}

// coverage reads at 99 %, (k = 2, ν = 9), or the first and the second.
func (c *precedenceParser) coverage() (Coverage, error) {
	v := Coverage{At: At{spanOf(c.peek())}}
	if isWord(c.peek(), "at") {
		if err := c.level(&v); err != nil {
			return v, err
		}
	}
	if !isSign(c.peek(), "(") {
		return v, nil
	}
	for c.next(); ; {
		if err := c.coverageTerm(&v); err != nil {
			return v, err
		}
		if !c.takes(",") {
			break
		}
	}
	end := c.peek()
	if !c.takes(")") {
		return v, c.lacks(")", coverageMend)
	}
	v.Span = v.Span.To(spanOf(end))
	if v.K != nil && v.Level != nil {
		return v, fail(v.Span, "how much the interval covers is said twice", "leave out k, or `at …`: with the degrees of freedom the one gives the other")
	}
	return v, nil
}

const coverageMend = "write `(k = 2)`, `(ν = 9)`, `(k = 2.26, ν = 9)`, or `(triangular)` behind hard limits"

// level reads at 99 %.
func (c *precedenceParser) level(v *Coverage) error {
	c.next()
	if !c.atNumber() {
		err := c.wants("a level of confidence")
		err.(*problem).Hint = "write `at 99 %`"
		return err
	}
	n, err := c.literal()
	switch {
	case err != nil:
		return err
	case n.Unit == nil || n.Unit.Text != "%":
		return fail(n.Span, "a level of confidence is given in %", "write "+message.Quote("at "+n.Text+" %"))
	case n.Value <= 0 || n.Value >= 100:
		return fail(n.Span, "a level of confidence lies between 0 % and 100 %", "limits that hold all values are written with `within`: `50 F within 20 %`")
	}
	v.Level, v.Span = n, v.Span.To(n.Span)
	return nil
}

// coverageTerm reads k = 2, ν = 9 or triangular.
func (c *precedenceParser) coverageTerm(v *Coverage) error {
	t := c.peek()
	name := ""
	if t.Type == tokenName {
		name = canonical(t.Value)
	}
	switch name {
	case "triangular":
		c.next()
		v.Triangular = true
		return nil
	case "k":
		return c.coverageNumber(&v.K, "k", 0, "a coverage factor is a number above zero", "write `(k = 2)`")
	case "ν", "nu":
		return c.coverageNumber(&v.Freedom, t.Value, 1, "degrees of freedom are a number from 1 on", "write `(ν = 9)`: of n readings n − 1")
	case "v":
		return fail(spanOf(t), "`v` is no Greek ν", "write `(nu = 9)` where the keyboard has no ν")
	case "K":
		return fail(spanOf(t), "the coverage factor is a small k", "write `(k = 2)`")
	}
	return fail(spanOf(t), message.Quote(t.Value)+" says nothing about an interval", coverageMend)
}

// coverageNumber reads what stands behind k or ν.
func (c *precedenceParser) coverageNumber(into **Number, name string, least float64, wrong, mend string) error {
	at := spanOf(c.next())
	if *into != nil {
		return fail(at, message.Quote(name)+" is given twice", "give it one value")
	}
	if !c.takes("=") {
		return c.lacks("=", mend)
	}
	if !c.atNumber() {
		err := c.wants("a number")
		err.(*problem).Hint = mend
		return err
	}
	n, err := c.literal()
	if err != nil {
		return err
	}
	if n.Unit != nil || n.Value <= 0 || n.Value < least {
		return fail(n.Span, wrong, mend)
	}
	*into = n
	return nil
}

// refuseCoverage sees that what is said of an interval fits its kind.
func (u *Uncertain) refuseCoverage() error {
	switch v := u.Coverage; {
	case u.Op == "within" && (v.K != nil || v.Level != nil):
		return fail(v.Span, "hard limits hold all values, and cover no part of them", "write `±` for an interval that covers most: "+message.Quote("10 V ± 0.1 V (k = 2)"))
	case u.Op != "within" && v.Triangular:
		return fail(v.Span, "what is triangular has hard limits", "write `within`: "+message.Quote("50 F within 20 % (triangular)"))
	}
	return nil
}

// String is the coverage as it is written, with a blank before it; empty for none.
func (v Coverage) String() string {
	text, in := "", ""
	if v.Level != nil {
		text = " at " + Source(v.Level)
	}
	add := func(term string) {
		if in != "" {
			in += ", "
		}
		in += term
	}
	if v.Triangular {
		add("triangular")
	}
	if v.K != nil {
		add("k = " + v.K.Text)
	}
	if v.Freedom != nil {
		add("ν = " + v.Freedom.Text)
	}
	if in != "" {
		text += " (" + in + ")"
	}
	return text
}

// budgetParser reads what a budget is of, and how much its interval is to cover.
type budgetParser struct {
	Of Expr
	Coverage
}

// Parse reads a, a at 99 % or a (k = 3).
func (l *budgetParser) Parse(lex *lexer.PeekingLexer) error {
	c := precedenceParser{lex: lex}
	var err error
	if l.Of, err = c.reference(); err != nil {
		return err
	}
	if !c.isCoverage() {
		return c.refuseAfterRef(l.Of)
	}
	if l.Coverage, err = c.coverage(); err != nil {
		return err
	}
	if l.Freedom != nil || l.Triangular {
		return fail(l.Span, "the degrees of freedom of a result follow from its inputs", "say how much its interval is to cover: "+message.Quote("budget "+Source(l.Of)+" at 99 %")+" or "+message.Quote("budget "+Source(l.Of)+" (k = 3)"))
	}
	return nil
}
