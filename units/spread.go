package units

import (
	"math"
	"strconv"
	"strings"
)

const (
	spreadDigits  = 2  // significant digits of an uncertainty: JCGM 100:2008, 7.2.6
	certainDigits = 4  // of a value without one
	mostDigits    = 15 // that a float64 is sure to hold
)

// ShowSpread writes an SI value with its expanded uncertainty, both in one
// unit: "(12.50 ± 0.25) F", "(20.0 ± 0.5) °C", "0.400 ± 0.020" for a pure
// number. The uncertainty has two significant digits, and the value ends at
// the same place (JCGM 100:2008, 7.2.6). On a temperature scale the
// uncertainty is a difference.
//
// A power of ten is written where Number writes one, the same for both:
// "(1.250e7 ± 0.025e7) Ω". Without an uncertainty, or with one that is below
// the 15th digit of the value, the value stands alone with four digits.
func ShowSpread(value, expanded float64, u Unit) string {
	x, spread := u.FromSI(value), math.Abs(u.Difference().FromSI(expanded))
	place, ok := placeFor(spread, x)
	if u.places != 0 && spread >= math.Pow10(-u.decimals()) {
		place = max(place, -u.decimals())
	}
	u.leading = false // €(12.50 ± 0.25) is not how anybody writes it
	if !ok && !isFinite(spread) {
		return bracketed(Number(x, certainDigits)+" ± "+Number(spread, spreadDigits), u)
	}
	if !ok {
		return Show(value, u, certainDigits)
	}
	texts := aligned(place, x, spread)
	return bracketed(texts[0]+" ± "+texts[1], u)
}

// ShowInterval writes an SI value with the interval that it is in: "1.23 mg
// (1.08 to 1.38 mg)". Two significant digits of the interval's width decide
// where all three numbers end. Powers of ten and what has no width are written
// as ShowSpread does.
func ShowInterval(value, low, high float64, u Unit) string {
	x, a, b := u.FromSI(value), u.FromSI(low), u.FromSI(high)
	if a > b {
		a, b = b, a
	}
	place, ok := placeFor(b-a, x, a, b)
	if !ok && isFinite(b-a) {
		return Show(value, u, certainDigits)
	}
	texts := []string{Number(x, certainDigits), Number(a, certainDigits), Number(b, certainDigits)}
	if ok {
		texts = aligned(place, x, a, b)
	}
	return withUnit(texts[0], u) + " (" + texts[1] + " to " + withUnit(texts[2], u) + ")"
}

// ShowUncertainty writes a standard uncertainty, or what one input adds to it,
// with two significant digits, whether or not the second is a zero: "0.50 A"
// (JCGM 100:2008, 7.2.6).
func ShowUncertainty(u float64, in Unit) string {
	in = in.Difference()
	x := in.FromSI(u)
	place, ok := placeFor(math.Abs(x), x)
	if !ok {
		return Show(u, in, spreadDigits)
	}
	return withUnit(aligned(place, x)[0], in)
}

// ShowBeside writes an SI value that stands beside its expanded uncertainty: it
// ends where that does, as in ShowSpread. Zero is zero.
func ShowBeside(value, expanded float64, u Unit) string {
	x := u.FromSI(value)
	place, ok := placeFor(math.Abs(u.Difference().FromSI(expanded)), x)
	if !ok || x == 0 {
		return Show(value, u, certainDigits)
	}
	return withUnit(aligned(place, x)[0], u)
}

// FittingSpread is the unit that a value with an uncertainty is shown in when
// the builder gave none: the one that fits the value, or its uncertainty where
// that is larger.
func FittingSpread(k Kind, value, expanded float64) Unit {
	if size := math.Abs(expanded); size > math.Abs(value) && isFinite(size) {
		return Fitting(k, size)
	}
	return Fitting(k, value)
}

func isFinite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// withUnit puts the unit behind a number.
func withUnit(text string, u Unit) string {
	switch u.text {
	case "":
		return text
	case "°", "′", "″":
		return text + u.text
	}
	if u.leading && u.places != 0 {
		digits := strings.TrimPrefix(text, "-")
		return strings.Repeat("-", len(text)-len(digits)) + u.text + digits
	}
	return text + " " + u.text
}

// bracketed puts the unit behind value ± spread.
func bracketed(text string, u Unit) string {
	if u.text == "" {
		return text
	}
	return withUnit("("+text+")", u)
}

// placeFor is the power of ten at which numbers end whose spread has two
// significant digits. It is false if there is no spread to go by, or if that
// makes more digits than a float64 has.
func placeFor(spread float64, numbers ...float64) (int, bool) {
	if spread == 0 || !isFinite(spread) {
		return 0, false
	}
	var buf [32]byte
	digits, power := decimal(strconv.AppendFloat(buf[:0], spread, 'e', -1, 64))
	_, power = roundHalfEven(digits, power, spreadDigits)
	last := power - spreadDigits + 1
	for _, x := range numbers {
		if !isFinite(x) || at(x, last).power-last >= mostDigits {
			return 0, false
		}
	}
	return last, true
}

// aligned writes numbers that end at the same power of ten.
func aligned(last int, numbers ...float64) []string {
	rounded := make([]places, len(numbers))
	top := last
	for i, x := range numbers {
		rounded[i] = at(x, last)
		top = max(top, rounded[i].power)
	}
	point, suffix := 0, ""
	if top < lowestPlain || top > highestPlain {
		point, suffix = top, "e"+strconv.Itoa(top)
	}
	texts := make([]string, len(numbers))
	for i := range rounded {
		texts[i] = string(rounded[i].append(nil, point, last)) + suffix
	}
	return texts
}

// places are the digits of a number; the first counts ten to that power.
type places struct {
	negative bool
	digits   []byte
	power    int
}

// at rounds x to a power of ten, as Number rounds. Zero has the power last.
func at(x float64, last int) places {
	var buf [32]byte
	digits, power := decimal(strconv.AppendFloat(buf[:0], math.Abs(x), 'e', -1, 64))
	if n := power - last + 1; x == 0 || n < 0 {
		return places{digits: []byte("0"), power: last}
	}
	// The zero before the first digit is there to be carried into.
	digits, power = append([]byte{'0'}, digits...), power+1
	digits, power = roundHalfEven(digits, power, power-last+1)
	if len(digits) > 1 && digits[0] == '0' {
		digits, power = digits[1:], power-1
	}
	return places{x < 0 && digits[0] != '0', digits, power}
}

// append writes the number from ten to the power point, or more, down to last.
func (p places) append(out []byte, point, last int) []byte {
	if p.negative {
		out = append(out, '-')
	}
	if p.digits[0] == '0' {
		p.power = point
	}
	for at := max(p.power, point); at >= min(last, point); at-- {
		if at == point-1 {
			out = append(out, '.')
		}
		if i := p.power - at; i >= 0 && i < len(p.digits) {
			out = append(out, p.digits[i])
		} else {
			out = append(out, '0')
		}
	}
	return out
}
