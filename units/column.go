package units

import "math"

// Digits that a number keeps in a column beside greater ones.
const (
	fairDigits  = 3 // for which the column gets another decimal
	leastDigits = 2 // with less it ends on its own
)

// InColumn writes values as numbers alone, for a column whose heading has the unit:
// money with its minor unit's decimals, anything else as Numbers does.
func (u Unit) InColumn(si []float64, digits int) []string {
	xs := make([]float64, len(si))
	for i, x := range si {
		xs[i] = u.FromSI(x)
	}
	if u.decimals() < 0 {
		return Numbers(xs, digits)
	}
	texts := make([]string, len(xs))
	for i, x := range xs {
		if !isFinite(x) || math.Abs(x) >= 1e15 {
			texts[i] = Number(x, digits)
			continue
		}
		texts[i] = endingAt(-u.decimals(), x)
	}
	return texts
}

// Numbers writes the numbers of one column so that all have as many decimals: those
// that show so many significant digits of the greatest, one more where the least would
// keep less than three, and none that are zeros throughout. A number that would keep
// less than two ends on its own, and one that Number writes with a power of ten is
// written by it.
func Numbers(xs []float64, digits int) []string {
	texts := make([]string, len(xs))
	last := lastPlace(xs, max(digits, 1))
	shared := make([]int, 0, len(xs))
	for i, x := range xs {
		power, plain := powerOf(x, digits)
		if !plain || x != 0 && power-last+1 < min(leastDigits, digits) {
			texts[i] = Number(x, digits)
			continue
		}
		shared = append(shared, i)
	}
	for last < 0 && zeroAt(xs, shared, last) {
		last++
	}
	for _, i := range shared {
		texts[i] = endingAt(last, xs[i])
	}
	return texts
}

// lastPlace is the power of ten at which a column ends.
func lastPlace(xs []float64, digits int) int {
	least, greatest := highestPlain, lowestPlain
	for _, x := range xs {
		if power, plain := powerOf(x, digits); plain && x != 0 {
			least, greatest = min(least, power), max(greatest, power)
		}
	}
	if last := greatest - digits + 1; least-last+1 >= min(fairDigits, digits) {
		return last
	}
	return greatest - digits
}

// powerOf is the power of ten of a number's first digit; false for what Number
// writes with one.
func powerOf(x float64, digits int) (power int, plain bool) {
	if x == 0 || !isFinite(x) {
		return 0, x == 0
	}
	power = powerOfFirst(x, digits)
	return power, lowestPlain <= power && power <= highestPlain
}

// zeroAt reports whether all numbers, rounded at a place, have a zero there.
func zeroAt(xs []float64, which []int, place int) bool {
	for _, i := range which {
		p := at(xs[i], place)
		if n := p.power - place; n < len(p.digits) && p.digits[n] != '0' {
			return false
		}
	}
	return true
}

// endingAt writes a number down to that power of ten.
func endingAt(last int, x float64) string { return string(at(x, last).append(nil, 0, last)) }

// Behind puts the unit behind a number that is written already.
func (u Unit) Behind(text string) string { return withUnit(text, u) }
