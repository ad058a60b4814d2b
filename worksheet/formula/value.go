package formula

import (
	"html"
	"regexp"
	"strings"
	"sync"

	"inkwing/units"
)

// shownNumber is a number as it is shown: with an interval, a unit, both or neither.
var shownNumber = sync.OnceValue(func() *regexp.Regexp {
	const digits = `[-−+]?[0-9][0-9.]*(?:e[-+]?[0-9]+)?`
	return regexp.MustCompile(`^(\()?(` + digits + `)(?: ± (` + digits + `))?(\))?(e[-+]?[0-9]+)?(?:( )?([^0-9 ()±][^ ]*))?$`)
})

// Value is a value as it is shown; what is no number is words.
func Value(shown string) string { return value(shown).ml }

// value also tells whether the text can stand beside others without brackets.
func value(shown string) item {
	m := shownNumber().FindStringSubmatch(shown)
	if m == nil || (m[1] == "") != (m[4] == "") {
		return item{ml: words(shown), bind: atom}
	}
	ml := numeral(m[2])
	if m[3] != "" {
		ml += operator("±") + numeral(m[3])
	}
	if m[1] != "" {
		ml = bracketed("(", ml, ")", false)
	}
	if m[5] != "" {
		ml += operator("×") + power10(m[5])
	}
	it := item{ml: ml, bind: atom, numeric: true}
	if m[7] != "" {
		it.bind = times
		it.ml = row(ml + unitText(gap(m[6]), m[7]))
	}
	if m[3] != "" && m[1] == "" {
		it.bind = plus
	}
	if strings.ContainsAny(m[2][:1], "-−+") || strings.Contains(m[2][:min(3, len(m[2]))], "−") {
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

// Text is a value as it is shown, as HTML for the middle of a text: a power of ten
// raised, a true minus, and no line break before the unit.
func Text(shown string) string {
	text := html.EscapeString(shown)
	m := shownNumber().FindStringSubmatch(shown)
	if m == nil {
		return minusOf(text)
	}
	text = tenTo().ReplaceAllString(text, "\u202f×\u202f10<sup>$1</sup>")
	text = strings.ReplaceAll(text, "<sup>+", "<sup>")
	text = strings.ReplaceAll(strings.ReplaceAll(text, "-", "−"), " ± ", "\u00a0±\u00a0")
	return strings.ReplaceAll(text, " ", "\u00a0")
}

// minusOf puts a true minus before a number with more than a unit behind it, such as
// -1.55 s per rpm.
func minusOf(text string) string {
	if len(text) > 1 && text[0] == '-' && text[1] >= '0' && text[1] <= '9' {
		return "−" + text[1:]
	}
	return text
}

// Joined keeps each number in a text on one line with the unit behind it.
func Joined(text string) string {
	return numberThenWord().ReplaceAllStringFunc(text, func(match string) string {
		number, word, _ := strings.Cut(match, " ")
		if _, err := units.Parse(word); err != nil {
			return match
		}
		return number + "\u00a0" + word
	})
}

// numberThenWord finds a digit and what may be the unit behind it.
var numberThenWord = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`[0-9] [\pL°%][^\s,;:.()&<]*`) })

// tenTo is the power of ten of a number.
var tenTo = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`e([-+]?[0-9]+)`) })
