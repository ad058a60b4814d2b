package check

import (
	"inkwing/evaluate/syntax"
)

// maxDigits is what a float64 can carry.
const maxDigits = 15

func (s *sheet) digits(x *syntax.Digits) {
	n := int(x.Count.Value)
	if float64(n) != x.Count.Value || n < 1 || n > maxDigits || x.Count.Unit != nil {
		s.fail(x.Count.Span, "digits wants a whole number from 1 to 15", "for example: digits 3")
		return
	}
	if len(x.Names) == 0 {
		s.Digits = n
	}
	for _, e := range x.Names {
		if name, ok := syntax.Dotted(e); ok {
			s.DigitsOf[name] = n
			s.digitsNames = append(s.digitsNames, syntax.Ident{At: syntax.At{Span: e.Place()}, Name: name})
		}
	}
}

// The bounds of draws.
const (
	minDraws = 1_000
	maxDraws = 10_000_000
)

func (s *sheet) draws(x *syntax.Draws) {
	n := int(x.Count.Value)
	switch {
	case float64(n) != x.Count.Value || n < minDraws || n > maxDraws || x.Count.Unit != nil:
		s.fail(x.Count.Span, "draws wants a whole number from 1000 to 10,000,000", "for example: draws 100_000")
	case s.Draws > 0:
		s.fail(x.Span, "draws is said twice", "take one of the two lines out")
	default:
		s.Draws = n
	}
}
