package chart

import (
	"math"

	"inkwing/units"
)

// A scale maps numbers to places on the page.
type scale struct {
	low, high float64
	from, to  float64 // where low and high stand
}

// at is the place of a number.
func (s scale) at(v float64) float64 {
	part := (v - s.low) / (s.high - s.low)
	return s.from + float64(part*(s.to-s.from))
}

// largest bounds what is drawn: beyond it a sum may be infinite.
const largest = 1e300

// drawable reports whether a number can be drawn.
func drawable(v float64) bool { return math.Abs(v) < largest }

// A reach is the smallest and largest of some numbers.
type reach struct {
	low, high float64
	any       bool
}

func (r *reach) add(v float64) {
	if !drawable(v) {
		return
	}
	if !r.any {
		*r = reach{v, v, true}
	}
	r.low, r.high = min(r.low, v), max(r.high, v)
}

// flat is the share of a number below which differences are its rounding.
const flat = 1e-9

// smallest is where numbers are so close to nothing that steps between them
// cannot be told.
const smallest = 1e-290

// opened is a reach with something between its ends.
func (r reach) opened() reach {
	size := max(math.Abs(r.low), math.Abs(r.high))
	switch {
	case size < smallest:
		return reach{-1, 1, true}
	case r.high-r.low > flat*size:
		return r
	}
	pad := size / 10
	return reach{r.low - pad, r.high + pad, true}
}

// nearZero is the share of its largest number from which on an axis that begins
// above zero need not show zero.
const nearZero = 0.4

// rounded is a reach that begins and ends at ticks, with zero in it where that
// costs little.
func (r reach) rounded(count int) reach {
	if r.low > 0 && r.low < nearZero*r.high {
		r.low = 0
	}
	if r.high < 0 && r.high > nearZero*r.low {
		r.high = 0
	}
	s := stepOf(r, count)
	return reach{math.Floor(r.low/s+flat) * s, math.Ceil(r.high/s-flat) * s, true}
}

// stepOf is 1, 2 or 5 times a power of ten, for about so many steps.
func stepOf(r reach, count int) float64 {
	raw := (r.high - r.low) / float64(count)
	power := math.Floor(math.Log10(raw))
	for _, m := range []float64{1, 2, 5} {
		if s := times10(m, power); s >= raw*(1-flat) {
			return s
		}
	}
	return times10(1, power+1)
}

// times10 is m·10^power, rounded once.
func times10(m, power float64) float64 {
	if power < 0 && power >= -300 {
		return m / math.Pow(10, -power)
	}
	return m * math.Pow(10, power)
}

// A tick is a number on an axis and its text.
type tick struct {
	value float64
	label string
}

// ticks are the round numbers of a reach, about so many.
func (r reach) ticks(count int) (list []tick) {
	s := stepOf(r, count)
	first := math.Ceil(r.low/s - flat)
	for k := range 4 * count {
		n := first + float64(k)
		v := n * s
		if v > r.high+float64(flat*s) {
			break
		}
		list = append(list, tick{v, units.Number(v, tickDigits)})
	}
	return list
}

// tickDigits shows every step of an axis, and no rounding of binary numbers.
const tickDigits = 12
