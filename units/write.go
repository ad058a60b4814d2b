package units

import (
	"math"
	"strconv"
	"strings"
)

// symbol is the term's unit with its prefix.
func (t *term) symbol() string {
	if t.prefix == nil {
		return t.unit.symbol
	}
	return t.prefix.symbol + t.unit.symbol
}

// spelled reports whether text is just how the symbol is written.
func (t *term) spelled(text string) bool {
	if t.prefix == nil {
		return text == t.unit.symbol
	}
	rest, ok := strings.CutPrefix(text, t.prefix.symbol)
	return ok && rest == t.unit.symbol
}

// write puts terms in the order they were read, with at most one solidus.
func write(terms []term) string {
	if len(terms) == 0 {
		return ""
	}
	var above, below []string
	for i := range terms {
		t := &terms[i]
		text := t.symbol() + t.power.String()
		if t.below {
			below = append(below, text)
		} else {
			above = append(above, text)
		}
	}
	return solidus(above, below)
}

// Show writes an SI value in a unit with that many significant digits:
// "12.5 F", "90°", "7.4 %", "4" for a pure number. A space stands between
// number and unit except before °, ′ and ″ (SI Brochure, 5.4.3).
//
// An amount of money has the decimals of its currency, whatever digits say.
func Show(si float64, u Unit, digits int) string {
	if u.places != 0 {
		return showMoney(si, u)
	}
	var buf [64]byte
	out := appendNumber(buf[:0], u.FromSI(si), digits)
	switch u.text {
	case "":
		return string(out)
	case "°", "′", "″":
	default:
		out = append(out, ' ')
	}
	return string(append(out, u.text...))
}

// Bounds of the plain way of writing a number: 1e-4 ≤ |x| < 1e7.
const (
	lowestPlain  = -4
	highestPlain = 6
)

// Number writes x with that many significant digits (1 to 17), plain ASCII:
// "12.5", "-0.0004", "1.235e-6". Trailing zeros are left out. Numbers below
// 1e-4 and from 1e7 on are written with a power of ten.
//
// The shortest decimal number that stands for x is what is rounded, a tie to
// the even digit (ISO 80000-1, annex B, rule A): 2.675 gives 2.68, although
// the nearest binary number is a little less.
func Number(x float64, digits int) string {
	var buf [32]byte
	return string(appendNumber(buf[:0], x, digits))
}

func appendNumber(out []byte, x float64, digits int) []byte {
	switch {
	case x == 0:
		return append(out, '0')
	case math.IsNaN(x):
		return append(out, "NaN"...)
	case math.IsInf(x, 0):
		return strconv.AppendFloat(out, x, 'g', -1, 64)
	}
	var buf [32]byte
	text := strconv.AppendFloat(buf[:0], math.Abs(x), 'e', -1, 64)
	mantissa, power := decimal(text)
	mantissa, power = roundHalfEven(mantissa, power, min(max(digits, 1), 17))
	if x < 0 {
		out = append(out, '-')
	}
	if power < lowestPlain || power > highestPlain {
		out = appendPoint(out, mantissa, 0)
		out = append(out, 'e')
		return strconv.AppendInt(out, int64(power), 10)
	}
	return appendPoint(out, mantissa, power)
}

// powerOfFirst is the power of ten of a number's first digit, once it is rounded.
func powerOfFirst(x float64, digits int) int {
	var buf [32]byte
	mantissa, power := decimal(strconv.AppendFloat(buf[:0], math.Abs(x), 'e', -1, 64))
	_, power = roundHalfEven(mantissa, power, min(max(digits, 1), 17))
	return power
}

// decimal takes "1.2345e-06" apart into its digits, in place, and its power.
func decimal(text []byte) (digits []byte, power int) {
	e := len(text) - 1
	for text[e] != 'e' {
		e--
	}
	for _, c := range text[e+2:] {
		power = power*10 + int(c-'0')
	}
	if text[e+1] == '-' {
		power = -power
	}
	if e == 1 {
		return text[:1], power
	}
	copy(text[1:], text[2:e]) // over the point
	return text[:e-1], power
}

// roundHalfEven shortens digits to n of them, and trims zeros at the end.
func roundHalfEven(digits []byte, power, n int) ([]byte, int) {
	if len(digits) > n {
		rest := digits[n:]
		digits = digits[:n]
		tie := rest[0] == '5' && len(rest) == 1
		if rest[0] >= '5' && (!tie || digits[n-1]%2 == 1) {
			i := n - 1
			for ; i >= 0 && digits[i] == '9'; i-- {
				digits[i] = '0'
			}
			if i < 0 {
				digits[0] = '1'
				power++
			} else {
				digits[i]++
			}
		}
	}
	for len(digits) > 1 && digits[len(digits)-1] == '0' {
		digits = digits[:len(digits)-1]
	}
	return digits, power
}

// appendPoint writes digits whose first one counts ten to that power.
func appendPoint(out, digits []byte, power int) []byte {
	if power < 0 {
		out = append(out, "0."...)
		for ; power < -1; power++ {
			out = append(out, '0')
		}
		return append(out, digits...)
	}
	for i := 0; i <= power || i < len(digits); i++ {
		if i == power+1 {
			out = append(out, '.')
		}
		if i < len(digits) {
			out = append(out, digits[i])
		} else {
			out = append(out, '0')
		}
	}
	return out
}

// either lists alternatives in a sentence: "a, b or c".
func either(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " or " + list[len(list)-1]
}
