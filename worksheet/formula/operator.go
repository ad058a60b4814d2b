package formula

import (
	"slices"
	"strings"

	"inkwing/evaluate/syntax"
)

func (n Notation) binary(x *syntax.Binary, at place) item {
	switch x.Op {
	case "/":
		return n.quotient(x, at)
	case "^":
		return n.power(x, at)
	case "*":
		return n.product(x, at)
	case "and", "or":
		return n.conditions(x, at)
	}
	return n.sum(x, at)
}

// chain is what stands leftmost under some operators that are grouped to the left, and
// their uses from there on: one that is a thousand long is then set link by link, and
// not copied for each.
func (n Notation) chain(x *syntax.Binary, ops ...string) (first syntax.Expr, links []*syntax.Binary) {
	first, links = x.X, []*syntax.Binary{x}
	for {
		next, ok := first.(*syntax.Binary)
		if !ok || !slices.Contains(ops, next.Op) || n.isPut(next) {
			break
		}
		first, links = next.X, append(links, next)
	}
	slices.Reverse(links)
	return first, links
}

// conditions are set with and or or between them.
func (n Notation) conditions(x *syntax.Binary, at place) item {
	first, links := n.chain(x, "and", "or")
	left := n.set(first, at)
	var ml strings.Builder
	ml.WriteString(left.ml)
	for _, link := range links {
		right := n.set(link.Y, at)
		ml.WriteString(wide + words(link.Op) + wide + right.ml)
		left.tall = left.tall || right.tall
	}
	return item{ml: ml.String(), tall: left.tall}
}

// sum is terms with their signs between them.
func (n Notation) sum(x *syntax.Binary, at place) item {
	first, links := n.chain(x, "+", "-")
	left := n.set(first, at).tight(plus)
	var ml strings.Builder
	ml.WriteString(left.ml)
	for _, link := range links {
		right := n.set(link.Y, at.next()).tight(times)
		ml.WriteString(sign(link.Op) + right.ml)
		left.numeric, left.tall = left.numeric && right.numeric, left.tall || right.tall
	}
	return item{ml: ml.String(), bind: plus, numeric: left.numeric, tall: left.tall}
}

// product has × between figures and a dot otherwise.
func (n Notation) product(x *syntax.Binary, at place) item {
	first, links := n.chain(x, "*")
	left := n.factor(first, at)
	out := item{bind: times, numeric: left.numeric, tall: left.tall}
	if left.bind == negative {
		out.bind = negative
	}
	var ml strings.Builder
	ml.WriteString(left.ml)
	for _, link := range links {
		right := n.factor(link.Y, at.next())
		between := operator("⋅")
		if out.numeric && right.numeric {
			between = operator("×")
		}
		ml.WriteString(between + right.ml)
		out.numeric, out.tall = right.numeric, out.tall || right.tall
	}
	out.ml = ml.String()
	return out
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
	above, links := n.chain(x, "/")
	at.deep++
	if at.high || at.small && len(links) == 1 {
		left := n.factor(above, at)
		var ml strings.Builder
		ml.WriteString(left.ml)
		for _, link := range links {
			ml.WriteString(`<mo form="infix" lspace="0" rspace="0">/</mo>` + n.set(link.Y, at.next()).tight(power).ml)
		}
		return item{ml: ml.String(), bind: min(left.bind, times)}
	}
	top := n.bare(above, place{small: true, deep: at.deep})
	return item{ml: fraction(top.ml, n.below(links)), bind: times, numeric: top.numeric, tall: true, whole: true}
}

func (n Notation) isPut(x syntax.Expr) bool {
	if n.Put == nil {
		return false
	}
	_, ok := n.Put(x.Place())
	return ok
}

// below is the product of divisors; one alone needs no brackets.
func (n Notation) below(links []*syntax.Binary) string {
	if len(links) == 1 {
		return n.bare(links[0].Y, place{small: true}).ml
	}
	var ml strings.Builder
	numeric := false
	for i, link := range links {
		it := n.set(link.Y, place{small: true, after: i > 0}).tight(times)
		switch {
		case i > 0 && numeric && it.numeric:
			ml.WriteString(operator("×"))
		case i > 0:
			ml.WriteString(operator("⋅"))
		}
		ml.WriteString(it.ml)
		numeric = it.numeric
	}
	return ml.String()
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
