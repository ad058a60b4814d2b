package syntax

import (
	"github.com/alecthomas/participle/v2/lexer"

	"inkwing/evaluate/message"
)

// rows reads an expression and what chooses among its rows, in the order in which
// it is done: cells where mass <= 20 g sorted by mass first 5. It stands right of
// a definition, in brackets, as an argument, and in show: anywhere else for
// belongs to tune.
func (c *precedenceParser) rows() (Expr, error) {
	x, err := c.expression()
	if err != nil {
		return nil, err
	}
	list, err := c.choices()
	for _, one := range list {
		one.X, one.Span = x, x.Place().To(one.Span)
		x = one
	}
	return x, err
}

// choices reads what chooses, each without what it chooses from.
func (c *precedenceParser) choices() ([]*Chosen, error) {
	var list []*Chosen
	for {
		t := c.peek()
		if t.Type != tokenName {
			return list, nil
		}
		var one *Chosen
		var err error
		switch t.Value {
		case "where":
			one, err = c.where()
		case "sorted":
			one, err = c.sorted()
		case "first":
			one, err = c.first()
		case "for":
			one, err = c.extreme()
		default:
			return list, nil
		}
		if err != nil {
			return nil, err
		}
		list = append(list, one)
	}
}

func (c *precedenceParser) where() (*Chosen, error) {
	at := spanOf(c.next())
	cond, err := c.binary(levelOr)
	if err != nil {
		return nil, err
	}
	if t := c.peek(); isSign(t, "=") {
		return nil, fail(spanOf(t), "a comparison is wanted here, and `=` defines", "compare with `==`")
	}
	return &Chosen{At: At{at.To(cond.Place())}, How: Where, Of: cond}, nil
}

func (c *precedenceParser) sorted() (*Chosen, error) {
	at := spanOf(c.next())
	if !c.takes("by") {
		return nil, c.lacks("by", "write `sorted by mass`, or `sorted by mass falling`")
	}
	by, err := c.binary(levelSum)
	if err != nil {
		return nil, err
	}
	s := &Chosen{At: At{at.To(by.Place())}, How: Rising, Of: by}
	if t := c.peek(); c.takes("falling") {
		s.How, s.Span = Falling, s.Span.To(spanOf(t))
	}
	return s, nil
}

func (c *precedenceParser) first() (*Chosen, error) {
	at := spanOf(c.next())
	n, err := c.postfix()
	if err != nil {
		return nil, err
	}
	return &Chosen{At: At{at.To(n.Place())}, How: First, Of: n}, nil
}

// extreme reads for least x, or for most x.
func (c *precedenceParser) extreme() (*Chosen, error) {
	at := spanOf(c.next())
	s := &Chosen{How: Least}
	switch t := c.peek(); {
	case c.takes("most"):
		s.How = Most
	case !c.takes("least"):
		if t.EOF() {
			return nil, fail(spanOf(t), "`least` or `most` is missing at the end of the statement", "write `cells for least mass`")
		}
		return nil, fail(spanOf(t), "`least` or `most` is wanted where "+message.Quote(t.Value)+" stands", "write `cells for least mass`")
	}
	of, err := c.binary(levelSum)
	if err != nil {
		return nil, err
	}
	s.Of, s.At = of, At{at.To(of.Place())}
	return s, nil
}

// Parse reads an expression and what chooses among its rows.
func (l *rowsParser) Parse(lex *lexer.PeekingLexer) (err error) {
	c := precedenceParser{lex: lex}
	l.Expr, err = c.rows()
	return err
}

// Parse reads what chooses among rows, if anything does.
func (l *choiceParser) Parse(lex *lexer.PeekingLexer) (err error) {
	c := precedenceParser{lex: lex}
	l.list, err = c.choices()
	return err
}
