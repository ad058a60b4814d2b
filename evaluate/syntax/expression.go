package syntax

import (
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"inkwing/evaluate/message"
)

// Expressions are read by precedence climbing. From loosest to tightest:
//
//	with               only right of a definition
//	if … then … else … reaches as far right as it can
//	or
//	and
//	not
//	< <= > >= == !=    chained
//	+ -
//	* /
//	- (sign)
//	^                  to the right; its own right side may have a sign
//	± within           directly behind a number, name, field or element
//	.field [index] (…)
//
// A minus that touches a number is part of the number, except where ^ follows:
// -2^2 is -(2^2), as -x^2 is -(x^2), so that a name may stand for a number.

// A problem is a diagnostic on its way up through the grammar.
type problem struct{ message.Diagnostic }

func (p *problem) Error() string { return p.Summary }

func fail(at message.Span, summary, hint string) error {
	return &problem{message.Diagnostic{Span: at, Summary: summary, Hint: hint}}
}

// A precedenceParser reads one expression.
type precedenceParser struct {
	lex      *lexer.PeekingLexer
	depth    int
	bareKeys bool // the key of a cell may stand without quotes
}

func (c *precedenceParser) peek() *lexer.Token { return c.lex.Peek() }
func (c *precedenceParser) next() *lexer.Token { return c.lex.Next() }

// ahead is the token k behind the next one.
func (c *precedenceParser) ahead() *lexer.Token {
	mark := c.lex.MakeCheckpoint()
	c.lex.Next()
	t := c.lex.Peek()
	c.lex.LoadCheckpoint(mark)
	return t
}

// before is the token before the next one, nil for none; no more than a blank and a
// remark stand between.
func (c *precedenceParser) before() *lexer.Token {
	at := c.lex.RawCursor()
	for _, t := range slices.Backward(c.lex.Range(max(0, at-3), at)) {
		if t.Pos.Offset < c.peek().Pos.Offset && strings.TrimSpace(t.Value) != "" {
			return &t
		}
	}
	return nil
}

// takes reads the sign or word if it is next.
func (c *precedenceParser) takes(value string) bool {
	t := c.peek()
	if t.Value != value || t.Type != tokenSign && t.Type != tokenName {
		return false
	}
	c.next()
	return true
}

// enter counts nesting; every caller leaves again.
func (c *precedenceParser) enter() error {
	c.depth++
	if c.depth > MaxNesting+1 { // the expression itself is the first
		return fail(spanOf(c.peek()), "this is nested more than "+strconv.Itoa(MaxNesting)+" deep", "give the inner part a name of its own")
	}
	return nil
}

func (c *precedenceParser) leave() { c.depth-- }

// expression reads anything but with.
func (c *precedenceParser) expression() (Expr, error) {
	if err := c.enter(); err != nil {
		return nil, err
	}
	defer c.leave()
	if isWord(c.peek(), "if") {
		return c.branch()
	}
	return c.binary(levelOr)
}

func (c *precedenceParser) branch() (Expr, error) {
	start := spanOf(c.next())
	cond, err := c.expression()
	if err != nil {
		return nil, err
	}
	if !c.takes("then") {
		return nil, c.lacks("then", "write `if … then … else …`")
	}
	then, err := c.expression()
	if err != nil {
		return nil, err
	}
	if !c.takes("else") {
		return nil, c.lacks("else", "write `if … then … else …`: there is always a value")
	}
	other, err := c.expression()
	if err != nil {
		return nil, err
	}
	return &If{At{start.To(other.Place())}, cond, then, other}, nil
}

const (
	levelOr = iota
	levelAnd
	levelNot
	levelCompare
	levelSum
	levelProduct
	levelSign
)

// levelOf is the level of a two-sided operator, -1 for anything else.
func levelOf(t *lexer.Token) int {
	if t.Type == tokenName {
		switch t.Value {
		case "or":
			return levelOr
		case "and":
			return levelAnd
		}
		return -1
	}
	if t.Type != tokenSign {
		return -1
	}
	switch t.Value {
	case "+", "-":
		return levelSum
	case "*", "/":
		return levelProduct
	}
	return -1
}

// binary reads operators of a level and tighter, grouped to the left.
func (c *precedenceParser) binary(level int) (Expr, error) {
	switch level {
	case levelNot:
		return c.negation()
	case levelCompare:
		return c.comparison()
	case levelSign:
		return c.signed()
	}
	x, err := c.binary(level + 1)
	if err != nil {
		return nil, err
	}
	for levelOf(c.peek()) == level {
		if x, err = c.join(x, level); err != nil {
			return nil, err
		}
	}
	return x, nil
}

// join reads an operator and its right side.
func (c *precedenceParser) join(x Expr, level int) (Expr, error) {
	op := c.next()
	y, err := c.binary(level + 1)
	if err != nil {
		return nil, err
	}
	if op.Value == "/" {
		if err := refuseHalfVolt(lastFactor(x), y); err != nil {
			return nil, err
		}
	}
	return &Binary{At{x.Place().To(y.Place())}, op.Value, spanOf(op), x, y}, nil
}

func (c *precedenceParser) negation() (Expr, error) {
	if !isWord(c.peek(), "not") {
		return c.binary(levelCompare)
	}
	if err := c.enter(); err != nil {
		return nil, err
	}
	defer c.leave()
	at := spanOf(c.next())
	x, err := c.binary(levelNot)
	if err != nil {
		return nil, err
	}
	return &Unary{At{at.To(x.Place())}, "not", at, x}, nil
}

// comparisons maps what may be written to the operator of the tree.
var comparisons = map[string]string{
	"<": "<", "<=": "<=", ">": ">", ">=": ">=", "==": "==", "!=": "!=", "≤": "<=", "≥": ">=", "≠": "!=",
}

func (c *precedenceParser) comparison() (Expr, error) {
	x, err := c.binary(levelSum)
	if err != nil {
		return nil, err
	}
	if c.peek().Type != tokenSign || comparisons[c.peek().Value] == "" {
		return x, nil
	}
	chain := &Compare{At: At{x.Place()}, Operands: []Expr{x}}
	for c.peek().Type == tokenSign && comparisons[c.peek().Value] != "" {
		op := c.next()
		y, err := c.binary(levelSum)
		if err != nil {
			return nil, err
		}
		chain.Ops = append(chain.Ops, comparisons[op.Value])
		chain.OpsAt = append(chain.OpsAt, spanOf(op))
		chain.Operands = append(chain.Operands, y)
		chain.Span = chain.Span.To(y.Place())
	}
	return chain, oneWay(chain)
}

// oneWay refuses a <= b >= c, which says nothing of a and c.
func oneWay(c *Compare) error {
	way := func(op string) byte { return op[0] }
	for i := 1; i < len(c.Ops); i++ {
		if way(c.Ops[i]) != way(c.Ops[0]) || c.Ops[i] == "!=" {
			return fail(c.OpsAt[i], "a chain of comparisons runs one way", "write two comparisons with `and` between")
		}
	}
	return nil
}

func (c *precedenceParser) signed() (Expr, error) {
	if !isSign(c.peek(), "-") {
		return c.power()
	}
	if err := c.enter(); err != nil {
		return nil, err
	}
	defer c.leave()
	at := spanOf(c.next())
	x, err := c.signed()
	if err != nil {
		return nil, err
	}
	return &Unary{At{at.To(x.Place())}, "-", at, x}, nil
}

func (c *precedenceParser) power() (Expr, error) {
	x, err := c.postfix()
	if err != nil || !isSign(c.peek(), "^") {
		return x, err
	}
	if err := c.enter(); err != nil {
		return nil, err
	}
	defer c.leave()
	op := spanOf(c.next())
	y, err := c.signed()
	if err != nil {
		return nil, err
	}
	n, ok := x.(*Number)
	if !ok || n.Text[0] != '-' {
		return &Binary{At{x.Place().To(y.Place())}, "^", op, x, y}, nil
	}
	return splitSign(n, op, y), nil
}

// lacks says that a word or sign is missing where the next token stands.
func (c *precedenceParser) lacks(what, hint string) error {
	t := c.peek()
	switch before := c.before(); {
	case isWord(t, "with"):
		return fail(spanOf(t), withAtEnd, withMend)
	case before != nil && unitsApart(before, t):
		return unitApart(before, t)
	case t.EOF():
		return fail(spanOf(t), message.Quote(what)+" is missing at the end of the statement", hint)
	}
	return fail(spanOf(t), message.Quote(what)+" is missing before "+message.Quote(t.Value), hint)
}
