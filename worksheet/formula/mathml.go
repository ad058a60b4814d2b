package formula

import "html"

// identifier is a letter or a word. One letter is italic, a word upright: MathML's
// own default, which is also the rule of ISO 80000-1.
func identifier(name string) string { return "<mi>" + html.EscapeString(name) + "</mi>" }

// upright is a letter that stands for no quantity: a unit, a mark, a function.
func upright(name string) string {
	return `<mi mathvariant="normal">` + html.EscapeString(name) + "</mi>"
}

// words is text; blanks at its ends would collapse, so gaps are spaces of ours.
func words(text string) string { return "<mtext>" + html.EscapeString(text) + "</mtext>" }

func number(text string) string { return "<mn>" + html.EscapeString(text) + "</mn>" }

func operator(sign string) string { return "<mo>" + html.EscapeString(sign) + "</mo>" }

// Gaps, as parts of an em.
const (
	thin = `<mspace width="0.18em"/>`
	wide = `<mspace width="0.4em"/>`
)

func row(ml string) string { return "<mrow>" + ml + "</mrow>" }

func raised(base, exponent string) string {
	return "<msup>" + row(base) + row(exponent) + "</msup>"
}

func lowered(base, sub string) string { return "<msub>" + base + row(sub) + "</msub>" }

func fraction(above, below string) string {
	return "<mfrac>" + row(above) + row(below) + "</mfrac>"
}

func root(inside string) string { return "<msqrt>" + inside + "</msqrt>" }

// bracketed puts signs round something. Those that stretch leave gaps in some
// browsers, so only what is tall gets them.
func bracketed(open, inside, closed string, tall bool) string {
	stretchy := ` stretchy="false"`
	if tall {
		stretchy = ""
	}
	return `<mrow><mo` + stretchy + ` form="prefix">` + open + "</mo>" + inside + "<mo" + stretchy + ` form="postfix">` + closed + "</mo></mrow>"
}

// call is a function's name with what it is of.
func call(name, inside string, tall bool) string {
	return name + "<mo>\u2061</mo>" + bracketed("(", inside, ")", tall)
}

// sign is how an operator of the language is printed.
func sign(op string) string {
	if printed, ok := signs[op]; ok {
		op = printed
	}
	return `<mo form="infix">` + html.EscapeString(op) + "</mo>"
}

var signs = map[string]string{"-": "−", "<=": "≤", ">=": "≥", "!=": "≠", "==": "="}
