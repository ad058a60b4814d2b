package formula

import (
	"strings"
)

// Value is a value as it is shown; what is no number is words.
func Value(shown string) string { return value(shown).ml }

// value also tells whether the text can stand beside others without brackets.
func value(shown string) item {
	n, ok := numberOf(shown)
	if !ok || (n.open == "") != (n.closed == "") {
		return item{ml: words(shown), bind: atom}
	}
	ml := numeral(n.digits)
	if n.spread != "" {
		ml += operator("±") + numeral(n.spread)
	}
	if n.open != "" {
		ml = bracketed("(", ml, ")", false)
	}
	if n.power != "" {
		ml += operator("×") + power10(n.power)
	}
	it := item{ml: ml, bind: atom, numeric: true}
	if n.unit != "" {
		it.bind = times
		it.ml = row(ml + unitText(gap(n.blank), n.unit))
	}
	if n.spread != "" && n.open == "" {
		it.bind = plus
	}
	if strings.ContainsAny(n.digits[:1], "-−+") || strings.Contains(n.digits[:min(3, len(n.digits))], "−") {
		it.bind = negative
	}
	return it
}

// gap is the space before a unit, which ° has none of.
func gap(blank string) string {
	if blank == "" {
		return ""
	}
	return unitGap
}

// numeral is a number, with a power of ten where it is written with an e.
func numeral(text string) string {
	digits, exponent, scientific := strings.Cut(text, "e")
	ml := ""
	switch {
	case strings.HasPrefix(digits, "-"):
		ml, digits = `<mo form="prefix">−</mo>`, digits[1:]
	case strings.HasPrefix(digits, "−"):
		ml, digits = `<mo form="prefix">−</mo>`, digits[len("−"):]
	}
	ml += number(digits)
	if scientific {
		ml += operator("×") + power10("e"+exponent)
	}
	return ml
}

// power10 is ten to the power behind an e.
func power10(text string) string {
	exponent := strings.TrimLeft(strings.TrimPrefix(text, "e"), "+")
	if negative := strings.HasPrefix(exponent, "-"); negative {
		return raised(number("10"), operator("−")+number(strings.TrimLeft(exponent[1:], "0")))
	}
	return raised(number("10"), number(strings.TrimLeft(exponent, "0")))
}
