package syntax

import (
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"inkwing/evaluate/message"
)

// An address says what a what-if changes: a plain value by its name, V_full or
// parts.n_series; a number inside a call by the quantity and the argument,
// store(series); a cell of a table, cells["B50"].mass.

// Parse reads an address.
func (l *addressParser) Parse(lex *lexer.PeekingLexer) error {
	c := precedenceParser{lex: lex}
	var err error
	if l.Expr, err = c.address(); err != nil {
		return err
	}
	return c.refuseAfterRef(l.Expr)
}

func (c *precedenceParser) address() (Expr, error) {
	x, err := c.reference()
	switch t := c.peek(); {
	case err != nil:
		return nil, err
	case isSign(t, "("):
		return c.argumentOf(x)
	case isSign(t, "["):
		return c.cellOf(x)
	}
	return x, nil
}

// argumentOf reads (series) or (pack.series).
func (c *precedenceParser) argumentOf(x Expr) (Expr, error) {
	c.next()
	a := &Argument{Of: x}
	var err error
	if a.Name, err = c.argumentName(); err != nil {
		return nil, err
	}
	if c.takes(".") {
		a.Func = a.Name
		if a.Name, err = c.argumentName(); err != nil {
			return nil, err
		}
	}
	end := c.peek()
	if !c.takes(")") {
		return nil, c.lacks(")", "one argument is named, without its value: "+message.Quote(Source(a)))
	}
	a.Span = x.Place().To(spanOf(end))
	return a, nil
}

func (c *precedenceParser) argumentName() (Ident, error) {
	name, err := c.ident("the name of an argument")
	if p, ok := err.(*problem); ok && p.Hint == "" {
		p.Hint = "a number inside a call is named by the quantity and the argument, as in " + message.Quote("store(series)")
	}
	return name, err
}

// cellOf reads ["B50"].mass.
func (c *precedenceParser) cellOf(x Expr) (Expr, error) {
	row, err := c.index(x)
	if err != nil {
		return nil, err
	}
	key := row.(*Index).Key
	if name, ok := key.(*Name); ok && c.bareKeys {
		key = &Text{name.At, name.Name}
		row.(*Index).Key = key
	}
	switch {
	case !IsKey(key):
		return nil, fail(key.Place(), "a cell is changed in one row, by its key or its number", "write "+message.Quote(Source(x)+"[\"B50\"].mass")+" or "+message.Quote(Source(x)+"[2].mass"))
	case !isSign(c.peek(), "."):
		return nil, fail(row.Place(), "a row is not changed as a whole", "name one of its cells, "+message.Quote(Source(row)+".mass")+"; an element of a list wants a name of its own")
	}
	return c.field(row)
}

// ParseAddress reads an address by itself, as somebody types it for a trial: a shell
// takes the quotes of a key away. Byte k of text stands at offset+k in the file.
func ParseAddress(file, text string, offset int) (Expr, *message.Diagnostic) {
	if len(text) > MaxStatement || strings.TrimSpace(text) == "" {
		d := diagnose(spanIn(file, Line{Text: text, Offset: offset}, 0, len(text)), "the name of a plain value is wanted", "")
		return nil, &d
	}
	x, err := parseAddress(scan(file, []Line{{Text: text, Offset: offset}}, make([]lexer.Token, 0, 8)))
	if err != nil {
		return nil, &err.(*problem).Diagnostic
	}
	return x, nil
}

func parseAddress(s *scanner) (Expr, error) {
	if len(s.problems) > 0 {
		return nil, &problem{s.problems[0]}
	}
	if err := checkBrackets(s.list); err != nil {
		return nil, err
	}
	lex, err := lexer.Upgrade(&s.tokens)
	if err != nil {
		return nil, fail(spanOf(&s.list[0]), "this cannot be read as a name", "")
	}
	c := precedenceParser{lex: lex, bareKeys: true}
	x, err := c.address()
	if err != nil {
		return nil, err
	}
	if t := c.peek(); !t.EOF() {
		return nil, fail(spanOf(t), message.Quote(t.Value)+" cannot stand in the name of what is changed", "write "+message.Quote("V_full")+", "+message.Quote("store(series)")+" or "+message.Quote("cells[\"B50\"].mass"))
	}
	return x, nil
}
