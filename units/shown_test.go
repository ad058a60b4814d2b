package units

import (
	"math"
	"testing"
)

// TestParseShown reads back what was shown, in every form that it may have.
func TestParseShown(t *testing.T) {
	for _, test := range []struct {
		text string
		si   float64
		like string // a unit of the same kind
	}{
		{"625 J", 625, "J"}, {"12.5 F", 12.5, "F"}, {"950 mF", 0.95, "F"}, {"-2 V", -2, "V"}, {"4", 4, "1"},
		{"90°", math.Pi / 2, "rad"}, {"7.4 %", 0.074, "1"}, {"1e3 m", 1000, "m"}, {"20 °C", 293.15, "°C"},
		{"(0.1736 ± 0.0035) Wh", 624.96, "J"}, {"0.400 ± 0.020", 0.4, "1"}, {"(1.250e7 ± 0.025e7) Ω", 1.25e7, "Ω"},
		{"1.23 mg (1.08 to 1.38 mg)", 1.23e-6, "kg"}, {"3 W/(m²·K)", 3, "W/(m²·K)"},
	} {
		si, kind, ok := ParseShown(test.text)
		if !ok || math.Abs(si-test.si) > 1e-12*math.Abs(test.si) || kind.Dim != MustParse(test.like).Kind.Dim || kind.Point != MustParse(test.like).Kind.Point {
			t.Errorf("%q is %v %v %v", test.text, si, kind, ok)
		}
	}
	for _, text := range []string{"", "—", "yes", "disc", "5 nonsense", "625 J (checked)", "waits"} {
		if si, _, ok := ParseShown(text); ok {
			t.Errorf("%q is read as %v", text, si)
		}
	}
}

func FuzzParseShown(f *testing.F) {
	f.Add("(0.1736 ± 0.0035) Wh")
	f.Add("1 (")
	f.Fuzz(func(t *testing.T, text string) { ParseShown(text) })
}
