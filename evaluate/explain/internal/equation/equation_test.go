package equation

import (
	"math"
	"strings"
	"testing"

	"inkwing/units"
)

func quantity(x float64, unit string) Value {
	u := units.MustParse(unit)
	return Number(u.ToSI(x), u.Kind.Dim)
}

func column(unit string, list ...float64) Value {
	u := units.MustParse(unit)
	v := Value{Column: true, Dim: u.Kind.Dim}
	for _, x := range list {
		v.Numbers = append(v.Numbers, u.ToSI(x))
	}
	return v
}

// TestFill wants texts in the place of whole letters, in brackets below a line, under a power
// and behind a sign, what the letter on the left comes to behind, and kelvin where a
// temperature is a factor.
func TestFill(t *testing.T) {
	for _, c := range []struct {
		formula string
		texts   map[string]string
		want    string
	}{
		{"E = C·V²/2.", map[string]string{"C": "20 F", "V": "12.5 V", "E": "1563 J"}, "E = 20 F·(12.5 V)²/2 = 1563 J"},
		{"R = R1·ns/np", map[string]string{"R1": "10 mΩ", "ns": "5", "np": "1", "R": "50 mΩ"}, "R = 10 mΩ·5/1 = 50 mΩ"},
		{"steady V = I·R behind it", map[string]string{"R": "2 Ω", "I": "-1 A"}, "steady V = -1 A·2 Ω behind it"},
		{"V = a − b", map[string]string{"a": "1", "b": "-3"}, "V = 1 − (-3)"},
		{"V = 2a/√b", map[string]string{"a": "1 m", "b": "3 m"}, "V = 2·1 m/√(3 m)"},
		{"E = x", map[string]string{"x": "5 V", "E": "5 V"}, "E = 5 V"},
		{"p = ρ·R·T", map[string]string{"ρ": "1.2 kg/m³", "T": "20 °C"}, "p = 1.2 kg/m³·R·293.2 K"},
		{"ΔT = T − 20 °C", map[string]string{"T": "25 °C"}, "ΔT = 25 °C − 20 °C"},
		{"E = C·V + k·V²/2 + z·V", map[string]string{"C": "2 F", "V": "3 V", "k": "0 F/V"}, "E = 2 F·3 V + z·3 V"},
	} {
		clauses := Read(c.formula, nil)
		texts := Texts{Of: c.texts, Absolute: map[string]string{"T": "293.2 K"}, Absent: map[string]bool{"k": true}}
		if got := clauses[0].Fill(texts); got != c.want {
			t.Errorf("%s: %q, want %q", c.formula, got, c.want)
		}
	}
}

// TestRead wants the equations of a formula between its words, and no others.
func TestRead(t *testing.T) {
	for text, want := range map[string]string{
		"least squares, then k = a·b of all":        "k",
		"safe voltage V_s = V·2 with the tolerance": "V_s",
		"I = C·dV(t)":                     "",
		"C(V) = C + k·V":                  "",
		"words alone":                     "",
		"E = ∫ V dV":                      "",
		"R = (a + b":                      "",
		"by the way τ = R·C; x = τ/(1 s)": "τ x",
		"g = 9.80665 m/s², E = m·g·h":     "g E",
		"x = max(a, b), y = |a|":          "x y",
		"V = V0·e^(−t/(R·C))":             "V",
		"d = 0.127 mm·92^((36 − n)/39)":   "d",
		"π·r² = A":                        "",
	} {
		var got []string
		for _, c := range Read(text, []string{"m", "h"}) {
			if name := c.Defines(); name != "" {
				got = append(got, name)
			}
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%q defines %q, want %q", text, got, want)
		}
	}
}

// TestHolds works equations by hand.
func TestHolds(t *testing.T) {
	of := map[string]Value{
		"V": quantity(3, "V"), "I": quantity(2, "A"), "P": quantity(6, "W"), "R": quantity(1.5, "Ω"), "φ": quantity(30, "°"),
		"x": column("1", 1, 2, 3), "m": column("g", 1, 2, 3), "M": quantity(6, "g"), "T": quantity(20, "°C"),
	}
	for text, want := range map[string]bool{
		"P = V·I":                 true,
		"P = V·I/2":               false,
		"P = V + I":               false, // of two dimensions
		"P = I²·R":                true,
		"P = 6 V·1 A":             true,
		"V = √(P·R)":              true,
		"(1/2) = sin φ":           true,
		"0.5 = sin φ·cos φ/cos φ": true,
		"M = Σ m":                 true,
		"Σ x = 6":                 true,
		"Σ (x − 2)² = 2":          true,
		"Σ m·x/Σ m = 14/6":        true,
		"max(x) = 3":              true,
		"Π x = 6":                 true,
		"P ≥ V·1 A":               true,
		"P ≤ V·1 A":               false,
		"T = 293.15 K":            true,
		"V − V = 0":               true,
		"V = 3.0000001 V":         true,
		"V = 3.001 V":             false,
		"8 V = 2^V":               false,
		"8 = 2^(V/(1 V))":         true,
		"P = V·J":                 false, // J is not known
		"P^(1/3)·P^⅔ = P":         true,
		"x = [1]":                 false,
		"2P = 4·V·½·I":            true,
		"V/2R = 1 A":              true, // 2R belongs together
	} {
		c := Read(text, []string{"V", "I", "P", "R", "m", "x", "M", "T"})[0]
		if got := c.Holds(of, 1e-6); got != want {
			t.Errorf("%q: %t, want %t; %s", text, got, want, c.Sides(of))
		}
	}
}

// TestSolve wants the letters on the way, and of several definitions of one those by which
// the result comes out.
func TestSolve(t *testing.T) {
	clauses := Read("at rest u = a + 1, running u = a·3; y = u·w, w = 2", []string{"a", "y"})
	for y, u := range map[float64]float64{6: 3, 12: 6} {
		of := Solve(clauses, map[string]Value{"a": quantity(2, "1"), "y": quantity(y, "1")}, 1e-9)
		if got := of["u"].Numbers[0]; math.Abs(got-u) > 1e-12 {
			t.Errorf("y = %g: u = %g, want %g", y, got, u)
		}
	}
}
