package syntax

import (
	"math"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"inkwing/evaluate/message"
)

// The token parsers of the grammar read themselves, so that each can say in the
// builder's terms what is wrong with it.
type (
	nameParser    struct{ Ident }
	headParser    struct{ Ident }        // the first word of a definition
	unitParser    struct{ *Unit }        // nil where none stands
	textParser    struct{ Value string } // empty where none stands
	neededText    struct{ *Text }
	countParser   struct{ *Number }
	refParser     struct{ Expr }
	firstRef      struct{ Expr } // a refParser that may be missing
	addressParser struct{ Expr } // what a what-if changes

	correlationParser struct{ *Number }
	exprParser        struct{ Expr }
	valueParser       struct{ Expr }           // an expression that with may follow
	rowsParser        struct{ Expr }           // an expression and what chooses among its rows
	choiceParser      struct{ list []*Chosen } // what chooses, without what it chooses from
	conditionParser   struct{ *Compare }
	limitParser       struct{ *Compare } // a condition that leaves a margin
)

// Parse reads a name.
func (l *nameParser) Parse(lex *lexer.PeekingLexer) (err error) {
	c := precedenceParser{lex: lex}
	l.Ident, err = c.ident("a name")
	return err
}

// Parse reads the name that is defined; a verb is left to the other statements.
func (l *headParser) Parse(lex *lexer.PeekingLexer) (err error) {
	c := precedenceParser{lex: lex}
	if t := c.peek(); t.Type == tokenVerb {
		return participle.NextMatch
	}
	if t := c.peek(); t.Type != tokenName {
		return fail(spanOf(t), "a line begins with a name or with a word such as `limit`, not with "+message.Quote(t.Value), "write `name [unit] = …`; a line that belongs to the one above is indented more")
	}
	if l.Ident, err = c.ident("a name"); err != nil {
		return err
	}
	return c.refuseHead(&l.Ident)
}

// refuseHead says what is wrong between a name and its =.
func (c *precedenceParser) refuseHead(name *Ident) error {
	t := c.peek()
	switch {
	case isSign(t, "="), isSign(t, "("), t.Type == tokenBracket:
		return nil
	case isSign(t, "["):
		return fail(name.Span.To(spanOf(t)), "a space is missing before the bracket with the unit", "write "+message.Quote(name.Name+" ["+c.bracketed()+"] = …"))
	case isSign(t, ":"):
		return fail(spanOf(t), "a definition is written with `=`, not with `:`", "write "+message.Quote(name.Name+" = …"))
	case isSign(t, "-"):
		if whole := c.wholeName(name.Name); whole != "" {
			return fail(name.Span.To(spanOf(t)), "`-` takes away, and cannot stand in a name", "write "+message.Quote(whole+" = …"))
		}
	case isSign(t, "±"), isWord(t, "within"):
		return fail(spanOf(t), message.Quote(t.Value)+" stands behind the value, right of =", "write "+message.Quote(name.Name+" = 10 V ± 0.1 V"))
	case isSign(t, "."):
		return fail(name.Span.To(spanOf(t)), "a field cannot be defined by itself", "define a quantity, or change the part in which it is given")
	case t.EOF() && message.Nearest(name.Name, []string{"overview"}) != "":
		return fail(name.Span, message.Quote(name.Name)+" stands alone", "did you mean `overview`? Else write "+message.Quote(name.Name+" = …"))
	case t.EOF():
		return fail(name.Span, message.Quote(name.Name)+" stands alone", "write "+message.Quote(name.Name+" = …")+" to define it; every quantity is listed by itself")
	case isSign(t, "==") || isSign(t, "<") || isSign(t, "<=") || isSign(t, ">") || isSign(t, ">="):
		return fail(spanOf(t), "a comparison stands alone", "write `limit` before it to have it kept, or `name = …` to work it")
	case t.Type == tokenName || t.Type == tokenText || t.Type == tokenNumber:
		return c.unknownVerb(name)
	}
	return fail(spanOf(t), message.Quote("=")+" is wanted where "+message.Quote(t.Value)+" stands", "a definition is "+message.Quote("name [unit] = value"))
}

// bracketed is what stands in a bracket that begins here, the unit V where there is
// nothing. The line is in error: what is read of it is not read again.
func (c *precedenceParser) bracketed() string {
	var unit strings.Builder
	c.lex.Next()
	for t := c.peek(); !t.EOF() && !isSign(t, "]"); t = c.peek() {
		unit.WriteString(c.lex.Next().Value)
	}
	if unit.Len() == 0 {
		return "V"
	}
	return unit.String()
}

// wholeName is the name that was meant where words of it stand apart, by blanks or
// hyphens, and are defined; empty where no = follows. The line is in error, as above.
func (c *precedenceParser) wholeName(name string) string {
	for t := c.peek(); t.Type == tokenName || isSign(t, "-"); t = c.peek() {
		if t.Type == tokenName {
			name += "_" + t.Value
		}
		c.lex.Next()
	}
	if t := c.peek(); isSign(t, "=") || t.Type == tokenBracket {
		return name
	}
	return ""
}

// Parse reads [unit] if it stands there.
func (l *unitParser) Parse(lex *lexer.PeekingLexer) error {
	t := lex.Peek()
	if t.Type != tokenBracket {
		return nil
	}
	lex.Next()
	at := spanOf(t)
	text := strings.TrimSpace(t.Value[1 : len(t.Value)-1])
	if text == "" {
		return fail(at, "the bracket is empty", "write the unit in it, `[1]` for a pure number, or leave it out")
	}
	at.Start += strings.Index(t.Value, text)
	at.End = at.Start + len(text)
	l.Unit = &Unit{At: At{at}, Text: text}
	return nil
}

// Parse reads "…" if it stands there.
func (l *textParser) Parse(lex *lexer.PeekingLexer) error {
	t := lex.Peek()
	if t.Type == tokenText {
		lex.Next()
		l.Value = textOf(t).Value
	}
	return nil
}

// Parse reads "…".
func (l *neededText) Parse(lex *lexer.PeekingLexer) error {
	c := precedenceParser{lex: lex}
	t := c.peek()
	if t.Type != tokenText {
		return c.wants(`a text in quotes`)
	}
	c.next()
	l.Text = textOf(t)
	return nil
}

// Parse reads a whole number above zero.
func (l *countParser) Parse(lex *lexer.PeekingLexer) (err error) {
	c := precedenceParser{lex: lex}
	if c.peek().Type != tokenNumber {
		return c.wants("a whole number")
	}
	if l.Number, err = c.literal(); err != nil {
		return err
	}
	if l.Value < 1 || l.Value != math.Trunc(l.Value) {
		return fail(l.Span, "a whole number above zero is wanted", "")
	}
	return nil
}

// Parse reads a correlation coefficient.
func (l *correlationParser) Parse(lex *lexer.PeekingLexer) (err error) {
	c := precedenceParser{lex: lex}
	if !c.atNumber() {
		err := c.wants("a correlation coefficient")
		err.(*problem).Hint = "write a number from -1 to 1: `correlation V_a, V_b = 0.9`"
		return err
	}
	if l.Number, err = c.literal(); err != nil {
		return err
	}
	if l.Unit != nil || l.Value < -1 || l.Value > 1 {
		return fail(l.Span, "a correlation coefficient is a number from -1 to 1", "0 is none, 1 that both are off alike")
	}
	return nil
}

// Parse reads a name or a field of one.
func (l *refParser) Parse(lex *lexer.PeekingLexer) error {
	c := precedenceParser{lex: lex}
	var err error
	if l.Expr, err = c.reference(); err != nil {
		return err
	}
	return c.refuseAfterRef(l.Expr)
}

// reference reads a name with its fields.
func (c *precedenceParser) reference() (Expr, error) {
	name, err := c.ident("the name of a quantity")
	if err != nil {
		return nil, err
	}
	var x Expr = &Name{name}
	for err == nil && isSign(c.peek(), ".") {
		x, err = c.field(x)
	}
	return x, err
}

// Parse reads a name or a field of one unless the statement ends.
func (l *firstRef) Parse(lex *lexer.PeekingLexer) error {
	if lex.Peek().EOF() {
		return participle.NextMatch
	}
	var ref refParser
	err := ref.Parse(lex)
	l.Expr = ref.Expr
	return err
}

func (c *precedenceParser) refuseAfterRef(x Expr) error {
	t := c.peek()
	switch {
	case isSign(t, "["):
		return fail(x.Place().To(spanOf(t)), "a name or a field is wanted here, not an element", "give the element a name of its own, or put a space before the bracket with a unit: "+message.Quote(Source(x)+" [V]"))
	case isSign(t, "("), levelOf(t) >= 0, isSign(t, "^"):
		return fail(x.Place().To(spanOf(t)), "a name or a field is wanted here, not something worked", "define it above under a name, and use that name here")
	}
	return nil
}

// Parse reads an expression.
func (l *exprParser) Parse(lex *lexer.PeekingLexer) (err error) {
	c := precedenceParser{lex: lex}
	l.Expr, err = c.expression()
	return err
}

// Parse reads an expression and what with replaces in it.
func (l *valueParser) Parse(lex *lexer.PeekingLexer) (err error) {
	c := precedenceParser{lex: lex}
	if l.Expr, err = c.rows(); err != nil || !isWord(c.peek(), "with") {
		return err
	}
	c.next()
	w := &With{X: l.Expr}
	for {
		r, err := c.replace()
		if err != nil {
			return err
		}
		w.Replaces = append(w.Replaces, r)
		w.Span = w.X.Place().To(r.Value.Place())
		if !c.takes(",") {
			break
		}
	}
	l.Expr = w
	return nil
}

func (c *precedenceParser) replace() (Replace, error) {
	var of addressParser
	if err := of.Parse(c.lex); err != nil {
		return Replace{}, err
	}
	if !c.takes("=") {
		return Replace{}, c.lacks("=", "write `… with turns = 40`")
	}
	value, err := c.expression()
	return Replace{of.Expr, value}, err
}

// Parse reads one comparison or a chain of two.
func (l *conditionParser) Parse(lex *lexer.PeekingLexer) error {
	c := precedenceParser{lex: lex}
	x, err := c.binary(levelOr)
	if err != nil {
		return err
	}
	compare, ok := x.(*Compare)
	switch t := c.peek(); {
	case !ok && isSign(t, "="):
		return fail(spanOf(t), "a comparison is wanted here, and `=` defines", "write `<=`, `>=` or `==`")
	case !ok:
		return fail(x.Place(), "a comparison is wanted here", "write two values with `<=` or `>=` between; one statement for each")
	case len(compare.Ops) > 2:
		return fail(compare.Span, "this chain has more than two comparisons", "write a statement for each bound")
	}
	l.Compare = compare
	return nil
}

// Parse reads a bound: a comparison by which something can be kept with room.
func (l *limitParser) Parse(lex *lexer.PeekingLexer) error {
	var condition conditionParser
	if err := condition.Parse(lex); err != nil {
		return err
	}
	l.Compare = condition.Compare
	for i, op := range l.Ops {
		if op == "==" || op == "!=" {
			return fail(l.OpsAt[i], "a limit is kept with some room, and "+message.Quote(op)+" leaves none", "write `<=` or `>=`")
		}
	}
	return nil
}
