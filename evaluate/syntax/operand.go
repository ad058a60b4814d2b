package syntax

import (
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"inkwing/evaluate/message"
)

// postfix reads an operand with its fields, elements and uncertainty.
func (c *precedenceParser) postfix() (Expr, error) {
	if isWord(c.peek(), "within") {
		return c.bareRange()
	}
	x, err := c.operand()
	for err == nil {
		switch t := c.peek(); {
		case isSign(t, "."):
			x, err = c.field(x)
		case isSign(t, "["):
			x, err = c.index(x)
		case t.Type == tokenBracket:
			return nil, fail(spanOf(t), "a unit in brackets stands only left of =, in a list of outputs or in a heading",
				"an element is written without the space: "+message.Quote("x"+t.Value))
		case isSign(t, "±"), isWord(t, "within"):
			return c.uncertain(x)
		default:
			return x, nil
		}
	}
	return nil, err
}

func (c *precedenceParser) field(x Expr) (Expr, error) {
	if n, ok := x.(*Number); ok {
		return nil, fail(spanOf(c.peek()), "a number has no fields", "write "+message.Quote(n.Text+" * …")+" to multiply")
	}
	c.next()
	name, err := c.ident("the name of a field")
	if err != nil {
		return nil, err
	}
	return &Field{At{x.Place().To(name.Span)}, x, name}, nil
}

func (c *precedenceParser) index(x Expr) (Expr, error) {
	if _, ok := x.(*Number); ok {
		return nil, fail(spanOf(c.peek()), "a number has no elements", "a unit stands behind its number without brackets: `12 V`")
	}
	c.next()
	key, err := c.expression()
	if err != nil {
		return nil, err
	}
	end := c.peek()
	if !c.takes("]") {
		return nil, c.lacks("]", "an element is chosen by one number or one key: `cells[2]`, `cells[\"B50\"]`")
	}
	return &Index{At{x.Place().To(spanOf(end))}, x, key}, nil
}

// ident reads a name; what says what it is wanted for.
func (c *precedenceParser) ident(what string) (Ident, error) {
	t := c.peek()
	switch {
	case t.Type == tokenName && reserved[t.Value]:
		return Ident{}, fail(spanOf(t), message.Quote(t.Value)+" is a word of the notation and cannot be a name", "choose another name, such as "+message.Quote(t.Value+"_1"))
	case t.Type != tokenName:
		return Ident{}, c.wants(what)
	}
	c.next()
	return identOf(t), nil
}

func identOf(t *lexer.Token) Ident { return Ident{At{spanOf(t)}, canonical(t.Value)} }

// wants says that something else should stand where the next token is.
func (c *precedenceParser) wants(what string) error {
	t := c.peek()
	if t.EOF() {
		return fail(spanOf(t), "the statement ends where "+what+" is wanted", "")
	}
	return fail(spanOf(t), what+" is wanted where "+message.Quote(t.Value)+" stands", mendFor(t))
}

// mendFor is what can be said about a token in the wrong place.
func mendFor(t *lexer.Token) string {
	switch {
	case t.Type == tokenSign && t.Value == "=":
		return "compare with `==`"
	case t.Type == tokenSign && (t.Value[0] == '<' || t.Value[0] == '>'):
		return "both sides of a comparison are written: `a > 5 V and a < 9 V`, or `5 V < a < 9 V`"
	case t.Type == tokenSign && t.Value == "±":
		return "± stands behind its value: `10 V ± 0.1 V`"
	case t.Type == tokenName && t.Value == "if":
		return "put `if … then … else …` in brackets"
	case t.Type == tokenName && t.Value == "not":
		return "put `not …` in brackets"
	case t.Type == tokenName && reserved[t.Value]:
		return message.Quote(t.Value) + " is a word of the notation and cannot be a name"
	case t.Type == tokenBracket:
		return "a unit stands behind its number without brackets: `12 V`"
	}
	return ""
}

// operand reads a number, text, truth, list, bracket, name or call.
func (c *precedenceParser) operand() (Expr, error) {
	t := c.peek()
	switch t.Type {
	case tokenNumber, tokenCoin:
		return c.literal()
	case tokenText:
		c.next()
		return textOf(t), nil
	case tokenName:
		return c.named()
	case tokenSign:
		switch t.Value {
		case "(":
			return c.bracket()
		case "[":
			return c.list()
		}
	}
	return nil, c.wants("a value")
}

// unescape undoes \" and \\.
var unescape = strings.NewReplacer(`\"`, `"`, `\\`, `\`)

func textOf(t *lexer.Token) *Text {
	value := t.Value[1 : len(t.Value)-1]
	if strings.IndexByte(value, '\\') >= 0 {
		value = unescape.Replace(value)
	}
	return &Text{At{spanOf(t)}, value}
}

func (c *precedenceParser) named() (Expr, error) {
	t := c.peek()
	switch t.Value {
	case "true", "false":
		c.next()
		return &Truth{At{spanOf(t)}, t.Value == "true"}, nil
	}
	if reserved[t.Value] {
		return nil, c.wants("a value")
	}
	c.next()
	if isSign(c.peek(), "(") {
		return c.call(identOf(t))
	}
	return &Name{identOf(t)}, nil
}

// bracket reads (x), or (number ± number) unit.
func (c *precedenceParser) bracket() (Expr, error) {
	start := spanOf(c.next())
	x, err := c.rows()
	if err != nil {
		return nil, err
	}
	end := c.peek()
	if isWord(end, "with") {
		return nil, fail(spanOf(end), "`with` stands only at the end of a definition", "give the value a name: `name = … with x = …`")
	}
	if !c.takes(")") {
		return nil, c.lacks(")", mendFor(end))
	}
	at := At{start.To(spanOf(end))}
	u := c.peek()
	if u.Type != tokenUnit {
		return &Paren{at, x}, nil
	}
	c.next()
	return c.shareUnit(x, &Unit{At: At{spanOf(u)}, Text: u.Value}, at)
}

// shareUnit gives both numbers of value ± spread the unit behind their bracket:
// one unit, so that (80 ± 4) % is points (NIST SP 811, 7.10.2).
func (c *precedenceParser) shareUnit(x Expr, unit *Unit, at At) (Expr, error) {
	both, ok := x.(*Uncertain)
	if !ok {
		return nil, fail(unit.Span, message.Quote(unit.Text)+" stands behind a bracket", "write "+message.Quote("* 1 "+unit.Text)+" to multiply")
	}
	both.Span = at.Span.To(unit.Span)
	both.Value.(*Number).Unit = unit
	both.Spread.(*Number).Unit = unit
	return both, c.covered(both)
}

func (c *precedenceParser) list() (Expr, error) {
	start := spanOf(c.next())
	l := &List{At: At{start}}
	for !isSign(c.peek(), "]") {
		x, err := c.expression()
		if err != nil {
			return nil, err
		}
		l.Items = append(l.Items, x)
		if !c.takes(",") {
			break
		}
	}
	end := c.peek()
	if !c.takes("]") {
		return nil, c.lacks("]", "the elements of a list stand between commas: `[1 V, 2 V]`")
	}
	l.Span = start.To(spanOf(end))
	return l, nil
}

func (c *precedenceParser) call(f Ident) (Expr, error) {
	c.next()
	call := &Call{Func: f}
	for !isSign(c.peek(), ")") {
		arg, err := c.argument()
		if err != nil {
			return nil, err
		}
		if n := len(call.Args); n > 0 && arg.Name.Name == "" && call.Args[n-1].Name.Name != "" {
			return nil, fail(arg.Value.Place(), "an argument without a name stands behind one with a name", "put it first, or give it its name")
		}
		call.Args = append(call.Args, arg)
		if !c.takes(",") {
			break
		}
	}
	end := c.peek()
	if !c.takes(")") {
		return nil, c.lacks(")", "arguments stand between commas: `f(a, name: b)`")
	}
	call.Span = f.Span.To(spanOf(end))
	return call, nil
}

func (c *precedenceParser) argument() (Arg, error) {
	var arg Arg
	if c.peek().Type == tokenName && !reserved[c.peek().Value] {
		switch after := c.ahead(); {
		case isSign(after, ":"):
			arg.Name = identOf(c.next())
			c.next()
		case isSign(after, "="):
			return arg, fail(spanOf(after), "a named argument is written with a colon", "write "+message.Quote(c.peek().Value+": …"))
		}
	}
	var err error
	arg.Value, err = c.rows()
	return arg, err
}
