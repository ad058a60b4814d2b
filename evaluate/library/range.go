package library

import (
	"strings"

	"inkwing/units"
)

// rangeDigits is how many significant digits a bound is written with.
const rangeDigits = 6

// Check reports whether an SI value is in the parameter's range. A value that is
// no number never is. Of a list it judges one element.
func (p Param) Check(v float64) bool { return p.Range.holds(v) }

func (r Range) holds(v float64) bool {
	switch {
	case v != v:
		return false
	case r.HasLow && (v < r.Low || r.LowOpen && v == r.Low):
		return false
	case r.HasHigh && (v > r.High || r.HighOpen && v == r.High):
		return false
	}
	return true
}

// Wants says what the range wants, for a message: "must be above 0", "must be
// at least 1 V and below 5 V". It is empty if anything goes.
func (p Param) Wants() string {
	var parts []string
	if p.Range.HasLow {
		parts = append(parts, choose(p.Range.LowOpen, "above ", "at least ")+p.bound(p.Range.Low))
	}
	if p.Range.HasHigh {
		parts = append(parts, choose(p.Range.HighOpen, "below ", "at most ")+p.bound(p.Range.High))
	}
	if len(parts) == 0 {
		return ""
	}
	return "must be " + strings.Join(parts, " and ")
}

// bound writes a bound in the field's unit; zero needs none, save on a scale.
func (p Param) bound(si float64) string {
	s := p.Shape
	if s.Kind == ListOf {
		s = *s.Elem
	}
	if s.Dim != "" || s.Kind == Integer || si == 0 && !s.Unit.Kind.Point {
		return units.Number(si, rangeDigits)
	}
	return units.Show(si, s.Unit, rangeDigits)
}

func choose(yes bool, a, b string) string {
	if yes {
		return a
	}
	return b
}
