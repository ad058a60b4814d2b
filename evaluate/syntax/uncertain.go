package syntax

import (
	"slices"
	"strconv"

	"inkwing/evaluate/message"
)

// uncertain reads ± spread, within bound, or refuses what stands around.
func (c *precedenceParser) uncertain(value Expr) (Expr, error) {
	op := c.next()
	if !mayBeUncertain(value) {
		return nil, fail(spanOf(op), message.Quote(op.Value)+" stands behind a number, a name, a field or an element",
			"give the value a name of its own first")
	}
	u := &Uncertain{Op: op.Value, OpAt: spanOf(op), Value: value}
	var err error
	if u.Spread, err = c.spread(op.Value); err != nil {
		return nil, err
	}
	u.Span = value.Place().To(u.Spread.Place())
	if op.Value == "within" && isWord(c.peek(), "to") {
		return nil, fail(u.OpAt.To(spanOf(c.peek())), "a range has its middle as value, and a value stands before it",
			"write "+message.Quote("within … to …")+" alone, or one half width behind `within`")
	}
	if err := refusePercent(u); err != nil {
		return nil, err
	}
	if err := c.covered(u); err != nil {
		return nil, err
	}
	return u, c.refuseSum(u)
}

// refuseSum refuses 10 V ± 0.1 V + x.
func (c *precedenceParser) refuseSum(u *Uncertain) error {
	t := c.peek()
	switch {
	case isSign(t, "+"), isSign(t, "-"):
		return fail(spanOf(t), message.Quote(t.Value)+" directly behind a value with "+message.Quote(u.Op)+" can be read two ways",
			"put the value and its spread in brackets: "+message.Quote("("+Source(u)+") "+t.Value+" …"))
	case isSign(t, "±"), isWord(t, "within"):
		return fail(spanOf(t), "a value has one spread", "put the two into one, by their squares if they are independent: `± (((3 V)^2 + (4 V)^2)^(1/2))`")
	}
	return nil
}

// mayBeUncertain reports whether ± may stand behind x.
func mayBeUncertain(x Expr) bool {
	switch x.(type) {
	case *Number, *Name, *Field, *Index:
		return true
	}
	return false
}

// spread reads a number with its unit, or a constant in brackets.
func (c *precedenceParser) spread(op string) (Expr, error) {
	t := c.peek()
	switch {
	case c.atNumber():
		return c.bound()
	case isSign(t, "("):
		x, err := c.bracket()
		if err == nil && holdsUncertain(x) {
			return nil, fail(x.Place(), "a spread has no spread of its own", "write a number with its unit, or a constant in brackets")
		}
		return x, err
	case t.Type == tokenName && !reserved[t.Value]:
		return nil, fail(spanOf(t), "behind "+message.Quote(op)+" stands a number with its unit, or a constant in brackets", "write "+message.Quote("("+t.Value+")")+" if it is worked from constants")
	}
	return nil, c.wantsNumber()
}

// holdsUncertain reports whether there is a ± or within anywhere in x.
func holdsUncertain(x Expr) bool {
	if _, ok := x.(*Uncertain); ok {
		return true
	}
	return slices.ContainsFunc(Children(x), holdsUncertain)
}

// wantsNumber is about what stands behind ± or within, or to.
func (c *precedenceParser) wantsNumber() error {
	err := c.wants("a number with its unit")
	if p := err.(*problem); p.Hint == "" {
		p.Hint = "write `10 V ± 0.1 V`, `50 F within 20 %` or `within 45 F to 65 F`"
	}
	return err
}

func (c *precedenceParser) bound() (*Number, error) {
	n, err := c.literal()
	if err == nil && n.Value < 0 {
		return n, fail(n.Span, "a spread is never below zero", "write "+message.Quote(withUnit(n.Text[1:], n.Unit, " ", "")))
	}
	return n, err
}

// bareRange reads within 45 F to 65 F.
func (c *precedenceParser) bareRange() (Expr, error) {
	op := c.next()
	u := &Uncertain{Op: op.Value, OpAt: spanOf(op)}
	if !c.atNumber() {
		return nil, c.wantsNumber()
	}
	from, err := c.literal()
	if err != nil {
		return nil, err
	}
	if !c.takes("to") {
		return nil, fail(u.OpAt, "nothing stands before `within`", "write `50 F within 20 %`, or `within 45 F to 65 F`")
	}
	if !c.atNumber() {
		return nil, c.wantsNumber()
	}
	to, err := c.literal()
	if err != nil {
		return nil, err
	}
	u.Spread, u.Upper, u.Span = from, to, u.OpAt.To(to.Span)
	if err := c.covered(u); err != nil {
		return nil, err
	}
	return u, c.refuseSum(u)
}

// refusePercent refuses 80 % ± 4 %: points of percent, or a part of the value.
func refusePercent(u *Uncertain) error {
	v, ok := u.Value.(*Number)
	s, ok2 := u.Spread.(*Number)
	if !ok || !ok2 || !isPart(v.Unit) || !isPart(s.Unit) {
		return nil
	}
	value, spread := v.Value*partOf[v.Unit.Text], s.Value*partOf[s.Unit.Text]
	points := shortest(value) + " " + u.Op + " " + shortest(spread)
	part := shortest(value) + " " + u.Op + " " + s.Text + " " + s.Unit.Text
	return fail(u.Span, "this can be read two ways: points of "+message.Quote(v.Unit.Text)+", or a part of the value",
		"write "+message.Quote(points)+" for points, or "+message.Quote(part)+" for a part of the value")
}

// partOf is what the units of parts stand for.
var partOf = map[string]float64{"%": 1e-2, "ppm": 1e-6}

func isPart(u *Unit) bool { return u != nil && partOf[u.Text] != 0 }

func shortest(x float64) string { return strconv.FormatFloat(x, 'g', 12, 64) }
