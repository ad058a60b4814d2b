package syntax

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/units"
)

// literal is the number that a token and the unit behind it say.
func (c *precedenceParser) literal() (*Number, error) {
	coin := c.coin()
	t := c.next()
	at := spanOf(t)
	value, err := strconv.ParseFloat(strings.ReplaceAll(t.Value, "_", ""), 64)
	if errors.Is(err, strconv.ErrRange) {
		return nil, fail(at, "this number is too large to work with", "choose a larger unit")
	}
	n := &Number{At: At{at}, Text: t.Value, Value: value, Digits: at}
	if u := c.peek(); u.Type == tokenUnit {
		c.next()
		n.Unit = &Unit{At: At{spanOf(u)}, Text: u.Value}
		n.Span = n.Span.To(n.Unit.Span)
	}
	if coin != nil {
		n.Unit = coin.before(n.Unit)
		n.Span = coin.Span.To(n.Span)
	}
	return n, nil
}

// coin is a sign of money before a number, nil for none.
func (c *precedenceParser) coin() *Unit {
	t := c.peek()
	if t.Type != tokenCoin {
		return nil
	}
	c.next()
	return &Unit{At{spanOf(t)}, t.Value, true}
}

// before is the unit of a price whose sign stands before the number and what it is
// for behind: €0.35/m.
func (u *Unit) before(per *Unit) *Unit {
	if per != nil {
		u.Text += per.Text
	}
	return u
}

// atNumber reports whether a number is next, or the sign of money before one.
func (c *precedenceParser) atNumber() bool {
	t := c.peek().Type
	return t == tokenNumber || t == tokenCoin
}

// lastFactor is what stands directly left of the next * or /.
func lastFactor(x Expr) Expr {
	if b, ok := x.(*Binary); ok && (b.Op == "*" || b.Op == "/") {
		return b.Y
	}
	return x
}

// refuseHalfVolt refuses 1/2 V: half a volt to one reader, one over two volts
// to the next.
func refuseHalfVolt(left, right Expr) error {
	if u, ok := right.(*Uncertain); ok && u.Value != nil {
		right = u.Value
	}
	a, ok := left.(*Number)
	b, ok2 := right.(*Number)
	if !ok || !ok2 || a.Unit != nil || b.Unit == nil {
		return nil
	}
	if _, err := units.Parse(b.Unit.Text); err != nil {
		return refuseGlued(a, b)
	}
	half := "(" + a.Text + "/" + b.Text + ") * 1"
	if q := strconv.FormatFloat(a.Value/b.Value, 'g', -1, 64); len(q) <= 8 && !math.IsInf(a.Value/b.Value, 0) {
		half = q
	}
	return fail(a.Span.To(b.Span), "this can be read two ways: is the unit below the line or not?",
		"write "+message.Quote(half+" "+b.Unit.Text)+" or "+message.Quote(a.Text+" / ("+b.Text+" "+b.Unit.Text+")"))
}

// spaced puts the blanks into a run of quantities that was read as a unit.
var spaced = strings.NewReplacer("*", " * ", "·", " * ", "/", " / ")

// refuseGlued refuses 1/2 C*U^2, where quantities stand as if they were a unit.
func refuseGlued(a, b *Number) error {
	return fail(b.Unit.Span, message.Quote(b.Unit.Text)+" stands where a unit is read, and is none",
		"if quantities are meant, say every multiplication: "+message.Quote(a.Text+"/"+b.Text+" * "+spaced.Replace(b.Unit.Text)))
}

// splitSign reads -2^y as -(2^y).
func splitSign(n *Number, op message.Span, y Expr) Expr {
	minus := n.Span
	minus.End = minus.Start + 1
	n.Text, n.Value = n.Text[1:], -n.Value
	n.Span.Start++
	n.Digits.Start++
	return &Unary{At{minus.To(y.Place())}, "-", minus, &Binary{At{n.Span.To(y.Place())}, "^", op, n, y}}
}
