package library

import (
	"math"

	"inkwing/units"
)

// A Named is a constant of the language.
type Named struct {
	Name   string
	Value  float64 // in SI
	Unit   string  // as units.Parse reads it
	Help   string
	Source string
}

// Constants lists the constants, by name.
func Constants() []Named {
	return []Named{
		{"g_n", 9.80665, "m/s^2", "standard gravity", "BIPM, SI Brochure, 9th edition; 3rd CGPM (1901)"},
		{"pi", math.Pi, "1", "circumference of a circle over its diameter", "NIST DLMF 3.12.1"},
	}
}

// Constant is a constant's SI value and its unit.
func Constant(name string) (value float64, unit units.Unit, ok bool) {
	for _, c := range Constants() {
		if c.Name == name {
			return c.Value, units.MustParse(c.Unit), true
		}
	}
	return 0, units.Unit{}, false
}
