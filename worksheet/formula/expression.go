package formula

import (
	"strings"

	"inkwing/evaluate/syntax"
)

// A binding says how firmly a formula holds together, loosest first.
type binding uint8

const (
	loose    binding = iota // if, with, and, or, comparisons
	plus                    // a sum
	negative                // begins with a minus
	times                   // a product, a number with its unit
	power
	atom
)

// An item is a formula that is set, and what whoever puts it beside others has
// to know.
type item struct {
	ml      string
	bind    binding
	numeric bool // begins and ends with figures or units, so that × goes beside it
	tall    bool // higher than a line
	whole   bool // a fraction, which needs no brackets in a product
	// A symbol with marks below it is kept in two, so that a power stands above
	// them.
	stem, marks string
	bare        string // without the brackets round it, where it has some
	wordy       bool   // begins or ends with a word, which wants a gap
}

// symbolItem is a symbol with what is written below it.
func symbolItem(base, marks string) item {
	it := item{ml: marked(base, marks), bind: atom}
	if marks != "" {
		it.stem, it.marks = identifier(base), below(marks)
	}
	return it
}

// raisedTo puts an exponent on.
func (i item) raisedTo(exponent string) string {
	if i.stem == "" {
		return raised(i.ml, exponent)
	}
	return "<msubsup>" + i.stem + row(i.marks) + row(exponent) + "</msubsup>"
}

// tight puts brackets round what holds less firmly than wanted.
func (i item) tight(wanted binding) item {
	if i.bind >= wanted {
		return i
	}
	return item{ml: bracketed("(", i.ml, ")", i.tall), bind: atom, numeric: i.numeric, tall: i.tall}
}

// A place is where an expression stands.
type place struct {
	small bool // above or below a fraction bar: one quotient more has a solidus
	high  bool // raised: no bars at all
	after bool // something stands before it, so that a minus wants brackets
	deep  int  // in how many fractions and indexes it stands that no brackets part
}

// deepest is in how many fractions and indexes something is still set: what stands in
// more, nobody can read, and a browser would not draw.
const deepest = 100

// inside is the place within brackets, next the one behind a sign.
func (p place) inside() place { p.after = false; return p }
func (p place) next() place   { p.after = true; return p }

func (n Notation) set(x syntax.Expr, at place) item {
	if n.Put != nil {
		if shown, ok := n.Put(x.Place()); ok {
			return value(shown)
		}
	}
	if at.deep > deepest {
		return item{ml: words(syntax.Source(x))}
	}
	switch x := x.(type) {
	case *syntax.Number:
		return literal(x)
	case *syntax.Text:
		return item{ml: words("“" + x.Value + "”"), bind: atom}
	case *syntax.Truth:
		return item{ml: words(truth(x.Value)), bind: atom}
	case *syntax.Name:
		return symbolItem(taken(x.Name))
	case *syntax.List:
		return n.list(x, at)
	case *syntax.Field:
		return n.field(x)
	case *syntax.Index:
		return n.index(x, at)
	case *syntax.Call:
		return n.call(x, at)
	case *syntax.Paren:
		return n.paren(x, at)
	}
	return n.operation(x, at)
}

func (n Notation) operation(x syntax.Expr, at place) item {
	switch x := x.(type) {
	case *syntax.Unary:
		return n.unary(x, at)
	case *syntax.Binary:
		return n.binary(x, at)
	case *syntax.Compare:
		parts := []string{n.set(x.Operands[0], at).tight(plus).ml}
		for i, op := range x.Ops {
			parts = append(parts, sign(op), n.set(x.Operands[i+1], at).tight(plus).ml)
		}
		return item{ml: strings.Join(parts, "")}
	case *syntax.If:
		return n.cases(x)
	case *syntax.Argument:
		inside := strings.TrimPrefix(syntax.Source(x), syntax.Source(x.Of))
		return item{ml: call(n.set(x.Of, at).ml, words(strings.Trim(inside, "()")), false), bind: atom}
	case *syntax.Uncertain:
		return n.uncertain(x, at)
	case *syntax.With:
		return item{ml: n.set(x.X, at).ml + wide + words("with") + wide + strings.Join(n.replacements(x), "")}
	}
	return item{ml: words(syntax.Source(x))}
}

// replacements are what is put in by "with", each behind the first with its comma.
func (n Notation) replacements(x *syntax.With) []string {
	parts := make([]string, len(x.Replaces))
	for i, r := range x.Replaces {
		if i > 0 {
			parts[i] = operator(",") + thin
		}
		parts[i] += row(n.set(r.Of, place{}).ml + sign("==") + n.set(r.Value, place{}).ml)
	}
	return parts
}

// literal is a number as it was typed, without the marks between its thousands.
func literal(x *syntax.Number) item {
	text := strings.ReplaceAll(x.Text, "_", "")
	it := item{ml: numeral(strings.ReplaceAll(text, "E", "e")), bind: atom, numeric: true}
	if strings.HasPrefix(text, "-") {
		it.bind = negative
	}
	switch {
	case x.Unit != nil && x.Unit.Span.Start < x.Digits.Start: // the sign of a currency
		it.ml = row(unitText("", x.Unit.Text) + it.ml)
	case x.Unit != nil:
		it.ml = row(it.ml + unitText(gap(strings.Repeat(" ", x.Unit.Span.Start-x.Digits.End)), raisedUnit(x.Unit.Text)))
		it.bind = min(it.bind, times)
	}
	return it
}

// raisedUnit is a unit with its powers raised.
func raisedUnit(text string) string {
	head, rest, found := strings.Cut(text, "^")
	out := strings.ReplaceAll(head, "*", "·")
	for found {
		end := 0
		for end < len(rest) && strings.IndexByte("-0123456789", rest[end]) >= 0 {
			end++
		}
		if end == 0 {
			return strings.ReplaceAll(text, "*", "·")
		}
		out += raisedDigits.Replace(rest[:end])
		var next string
		next, rest, found = strings.Cut(rest[end:], "^")
		out += strings.ReplaceAll(next, "*", "·")
	}
	return out
}

var raisedDigits = strings.NewReplacer("0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹", "-", "⁻")

func truth(v bool) string {
	if v {
		return "yes"
	}
	return "no"
}

// paren keeps the builder's brackets where they still say something: round a sum
// or a negative, not round a fraction's line or what stands alone.
func (n Notation) paren(x *syntax.Paren, at place) item {
	inner := n.set(x.X, at.inside())
	if inner.bind == atom || inner.whole {
		return inner
	}
	return item{ml: bracketed("(", inner.ml, ")", inner.tall), bind: atom, numeric: inner.numeric, tall: inner.tall}
}

// bare is an expression without brackets of the builder's, for places that
// enclose it by themselves.
func (n Notation) bare(x syntax.Expr, at place) item {
	return n.set(syntax.Unparen(x), at)
}

func (n Notation) unary(x *syntax.Unary, at place) item {
	inner := n.set(x.X, at.next())
	if x.Op == "not" {
		return item{ml: words("not") + wide + inner.tight(plus).ml}
	}
	inner = inner.tight(times)
	return item{ml: `<mo form="prefix">−</mo>` + inner.ml, bind: negative, numeric: inner.numeric, tall: inner.tall}
}

func (n Notation) list(x *syntax.List, at place) item {
	parts, tall := make([]string, len(x.Items)), false
	for i, v := range x.Items {
		it := n.set(v, at)
		parts[i], tall = it.ml, tall || it.tall
	}
	return item{ml: bracketed("[", strings.Join(parts, operator(",")+thin), "]", tall), bind: atom, tall: tall}
}

// cases is one of two values, each with when it holds.
func (n Notation) cases(x *syntax.If) item {
	line := func(value syntax.Expr, when string) string {
		return "<mtr><mtd>" + row(n.set(value, place{small: true}).ml) + "</mtd><mtd>" + when + "</mtd></mtr>"
	}
	ml := line(x.Then, words("if")+wide+n.bare(x.Cond, place{small: true}).ml)
	for {
		inner, chained := x.Else.(*syntax.If)
		if !chained {
			break
		}
		x = inner
		ml += line(x.Then, words("if")+wide+n.bare(x.Cond, place{small: true}).ml)
	}
	ml += line(x.Else, words("otherwise"))
	return item{ml: `<mrow><mo form="prefix">{</mo><mtable class="cases">` + ml + "</mtable></mrow>", bind: atom, tall: true}
}

// uncertain is a value with how far it may be off.
func (n Notation) uncertain(x *syntax.Uncertain, at place) item {
	said := ""
	if text := x.Coverage.String(); text != "" {
		said = wide + words(strings.TrimSpace(text))
	}
	if x.Value == nil {
		return item{ml: n.set(x.Spread, at).ml + wide + words("to") + wide + n.set(x.Upper, at).ml + said}
	}
	link := operator("±")
	if x.Op == "within" {
		link = wide + words("within") + wide
	}
	ml := n.set(x.Value, at).tight(times).ml + link + n.set(x.Spread, at).tight(times).ml
	if x.Upper != nil {
		ml += wide + words("to") + wide + n.set(x.Upper, at).ml
	}
	ml += said
	return item{ml: ml, bind: plus, numeric: true}
}
