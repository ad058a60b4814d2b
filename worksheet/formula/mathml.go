package formula

import (
	"html"
	"strings"
	"unicode/utf8"
)

// identifier is a letter or a word. One letter is italic, a word upright: MathML's
// own default, which is also the rule of ISO 80000-1.
func identifier(name string) string { return "<mi>" + html.EscapeString(name) + "</mi>" }

// upright is a letter that stands for no quantity: a unit, a mark, a function.
func upright(name string) string {
	return `<mi mathvariant="normal">` + html.EscapeString(name) + "</mi>"
}

// words is upright text, also of a single letter. It is no mtext, which counts as
// space: a row with one operator and nothing but space would be that operator. Blanks
// would collapse, so they are hard ones.
func words(text string) string {
	text = strings.ReplaceAll(text, " ", "\u00a0")
	if utf8.RuneCountInString(text) == 1 {
		return upright(text)
	}
	return identifier(text)
}

// unitText is a unit, upright, behind its number and the gap that it wants.
func unitText(gap, text string) string { return "<mtext>" + gap + html.EscapeString(text) + "</mtext>" }

func number(text string) string { return "<mn>" + html.EscapeString(text) + "</mn>" }

func operator(sign string) string { return "<mo>" + html.EscapeString(sign) + "</mo>" }

// unitGap is the blank between a number and its unit, a quarter of an em: one that
// does not collapse.
const unitGap = "\u2005"

// Gaps, as parts of an em.
const (
	thin = `<mspace width="0.18em"/>`
	wide = `<mspace width="0.4em"/>`
)

// row makes one element of several; one alone needs nothing round it.
func row(ml string) string {
	if isOne(ml) {
		return ml
	}
	return "<mrow>" + ml + "</mrow>"
}

// isOne reports whether a formula is a single element without others in it.
func isOne(ml string) bool {
	return strings.Count(ml, "<") == 2 && strings.HasPrefix(ml, "<m") && strings.HasSuffix(ml, ">") && !strings.HasPrefix(ml, "<mspace")
}

func raised(base, exponent string) string {
	return "<msup>" + row(base) + row(exponent) + "</msup>"
}

func lowered(base, sub string) string { return "<msub>" + base + row(sub) + "</msub>" }

func fraction(above, below string) string {
	return "<mfrac>" + row(above) + row(below) + "</mfrac>"
}

func root(inside string) string { return "<msqrt>" + inside + "</msqrt>" }

// bracketed puts signs round something. Those that stretch leave gaps in some
// browsers, so only what is tall gets them. First and last in a row of their own, they
// need no word on their form.
func bracketed(open, inside, closed string, tall bool) string {
	stretchy := ` stretchy="false"`
	if tall {
		stretchy = ""
	}
	return "<mrow><mo" + stretchy + ">" + open + "</mo>" + inside + "<mo" + stretchy + ">" + closed + "</mo></mrow>"
}

// call is a function's name with what it is of.
func call(name, inside string, tall bool) string {
	return name + "<mo>\u2061</mo>" + bracketed("(", inside, ")", tall)
}

// sign is how an operator of the language is printed between two things.
func sign(op string) string {
	if printed, ok := signs[op]; ok {
		op = printed
	}
	return operator(op)
}

// leading is an operator at the front of a line, which is none the less between two
// things; one that never is a sign of its own is taken for that anyway.
func leading(op string) string {
	if op != "+" && op != "-" {
		return sign(op)
	}
	return strings.Replace(sign(op), "<mo>", `<mo form="infix">`, 1)
}

var signs = map[string]string{"-": "−", "<=": "≤", ">=": "≥", "!=": "≠", "==": "="}
