// Package show writes values as text: a number in its unit, with as many digits as
// the sheet asks for and with its interval, if it has one.
package show

import (
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/study"
	"inkwing/units"
)

// defaultDigits is how many significant digits are shown when nothing is said.
const defaultDigits = 4

// Value writes a scalar; false for what is none. Without a unit one that fits is
// chosen.
func Value(t program.Type, value any, unit units.Unit, digits int) (string, bool) {
	switch v := value.(type) {
	case float64:
		if unit.IsZero() {
			unit = units.Fitting(t.(program.Quantity).Kind, v)
		}
		return units.Show(v, unit, digits), true
	case bool:
		return YesNo(v), true
	case string:
		return v, true
	}
	return "", false
}

// YesNo writes a bool.
func YesNo(v bool) string {
	if v {
		return "yes"
	}
	return "no"
}

// Digits is how many a name is shown with: its own, its record's, the sheet's.
func Digits(s *program.Sheet, name string) int {
	for {
		if n, ok := s.DigitsOf[name]; ok {
			return n
		}
		i := strings.LastIndexByte(name, '.')
		if i < 0 {
			break
		}
		name = name[:i]
	}
	if s.Digits > 0 {
		return s.Digits
	}
	return defaultDigits
}

// Uncertain writes a scalar, a number with its expanded uncertainty if it has one.
func Uncertain(t program.Type, value any, s study.Combined, unit units.Unit, digits int) (string, bool) {
	x, isNumber := value.(float64)
	if !isNumber || s.Expanded == 0 && !s.Drawn {
		return Value(t, value, unit, digits)
	}
	if unit.IsZero() {
		unit = units.FittingSpread(t.(program.Quantity).Kind, x, s.Expanded)
	}
	if s.Drawn {
		return units.ShowInterval(s.Mean, s.Low, s.High, unit), true
	}
	return units.ShowSpread(x, s.Expanded, unit), true
}

// Heading is a column's heading: name and unit, as the language writes it.
func Heading(name string, u units.Unit) string {
	if text := u.String(); !u.IsZero() && text != "" && text != "1" {
		return message.Quote(message.Words(name) + " [" + text + "]")
	}
	return message.Quote(message.Words(name))
}

// InOrder lists the fields, the marked ones first in their order.
func InOrder(fields []program.Field) []int {
	var order []int
	for rank := 1; rank <= len(fields); rank++ {
		for i, f := range fields {
			if f.Headline == rank {
				order = append(order, i)
			}
		}
	}
	for i, f := range fields {
		if f.Headline == 0 || f.Headline > len(fields) {
			order = append(order, i)
		}
	}
	return order
}
