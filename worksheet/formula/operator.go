package formula

import "inkwing/evaluate/syntax"

func (n Notation) binary(x *syntax.Binary, at place) item {
	switch x.Op {
	case "/":
		return n.quotient(x, at)
	case "^":
		return n.power(x, at)
	case "*":
		return n.product(x, at)
	case "and", "or":
		left, right := n.set(x.X, at), n.set(x.Y, at)
		return item{ml: left.ml + wide + words(x.Op) + wide + right.ml, tall: left.tall || right.tall}
	}
	left, right := n.set(x.X, at).tight(plus), n.set(x.Y, at.next()).tight(times)
	return item{ml: left.ml + sign(x.Op) + right.ml, bind: plus, numeric: left.numeric && right.numeric, tall: left.tall || right.tall}
}

// product has × between figures and a dot otherwise.
func (n Notation) product(x *syntax.Binary, at place) item {
	left, right := n.factor(x.X, at), n.factor(x.Y, at.next())
	between := operator("⋅")
	if left.numeric && right.numeric {
		between = operator("×")
	}
	bind := times
	if left.bind == negative {
		bind = negative
	}
	return item{ml: left.ml + between + right.ml, bind: bind, numeric: right.numeric, tall: left.tall || right.tall}
}

// factor is one side of a product; a minus at the very front wants no brackets.
func (n Notation) factor(x syntax.Expr, at place) item {
	it := n.set(x, at)
	if it.bind == negative && !at.after {
		return it
	}
	return it.tight(times)
}

// quotient is a built-up fraction; a quotient of quotients has one bar, and one
// that is above or below a bar already a solidus.
func (n Notation) quotient(x *syntax.Binary, at place) item {
	above, divisors := syntax.Expr(x), []syntax.Expr(nil)
	for {
		q, ok := above.(*syntax.Binary)
		if !ok || q.Op != "/" || n.isPut(above) {
			break
		}
		above, divisors = q.X, append([]syntax.Expr{q.Y}, divisors...)
	}
	if at.high || at.small && len(divisors) == 1 {
		left := n.factor(above, at)
		ml := left.ml
		for _, d := range divisors {
			ml += `<mo form="infix" lspace="0" rspace="0">/</mo>` + n.set(d, at.next()).tight(power).ml
		}
		return item{ml: ml, bind: min(left.bind, times)}
	}
	top := n.bare(above, place{small: true})
	return item{ml: fraction(top.ml, n.below(divisors)), bind: times, numeric: top.numeric, tall: true, whole: true}
}

func (n Notation) isPut(x syntax.Expr) bool {
	if n.Put == nil {
		return false
	}
	_, ok := n.Put(x.Place())
	return ok
}

// below is the product of divisors; one alone needs no brackets.
func (n Notation) below(divisors []syntax.Expr) string {
	if len(divisors) == 1 {
		return n.bare(divisors[0], place{small: true}).ml
	}
	ml, numeric := "", false
	for i, d := range divisors {
		it := n.set(d, place{small: true, after: i > 0}).tight(times)
		switch {
		case i > 0 && numeric && it.numeric:
			ml += operator("×")
		case i > 0:
			ml += operator("⋅")
		}
		ml, numeric = ml+it.ml, it.numeric
	}
	return ml
}

// power raises; the power of a half is a root.
func (n Notation) power(x *syntax.Binary, at place) item {
	if isHalf(x.Y) {
		inside := n.bare(x.X, at.inside())
		return item{ml: root(inside.ml), bind: atom, numeric: inside.numeric, tall: true}
	}
	base := n.set(x.X, at.next()).tight(atom)
	return item{ml: base.raisedTo(n.bare(x.Y, place{high: true}).ml), bind: power, numeric: base.numeric, tall: base.tall}
}

// isHalf reports whether an exponent is written as 0.5 or (1/2).
func isHalf(x syntax.Expr) bool {
	switch x := x.(type) {
	case *syntax.Paren:
		return isHalf(x.X)
	case *syntax.Number:
		return x.Value == 0.5 && x.Unit == nil
	case *syntax.Binary:
		one, ok1 := x.X.(*syntax.Number)
		two, ok2 := x.Y.(*syntax.Number)
		return x.Op == "/" && ok1 && ok2 && one.Unit == nil && two.Unit == nil && one.Value == 1 && two.Value == 2
	}
	return false
}
