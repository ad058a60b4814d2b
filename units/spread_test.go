package units

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

func TestShowSpread(t *testing.T) {
	for _, c := range []struct {
		value, spread float64 // in the unit
		unit, want    string
	}{
		// JCGM 100:2008, 7.2.4 and H.1.7 (from memory).
		{100.02147, 0.00079, "g", "(100.02147 ± 0.00079) g"}, {50.000838, 0.000093, "mm", "(50.000838 ± 0.000093) mm"},
		{12.5, 0.25, "F", "(12.50 ± 0.25) F"}, {625.0 / 3600, 12.5 / 3600, "Wh", "(0.1736 ± 0.0035) Wh"}, {20, 0.5, "°C", "(20.00 ± 0.50) °C"},
		{-12.5, 0.21, "°C", "(-12.50 ± 0.21) °C"}, {12.5, 0.25, "1", "12.50 ± 0.25"}, {80, 4, "%", "(80.0 ± 4.0) %"}, {90, 0.5, "°", "(90.00 ± 0.50)°"},
		{1.5, 0.0996, "V", "(1.50 ± 0.10) V"}, {1.5, 0.996, "V", "(1.5 ± 1.0) V"}, {9.996, 0.094, "V", "(9.996 ± 0.094) V"}, {9.996, 0.94, "V", "(10.00 ± 0.94) V"},
		{0.04, 0.25, "F", "(0.04 ± 0.25) F"}, {-0.001, 0.25, "F", "(0.00 ± 0.25) F"}, {3, 1234, "V", "(0 ± 1200) V"}, {60, 1234, "V", "(100 ± 1200) V"},
		{50, 1234, "V", "(0 ± 1200) V"}, {150, 1234, "V", "(200 ± 1200) V"}, {-5, 123, "V", "(0 ± 120) V"}, {0, 0.25, "F", "(0.00 ± 0.25) F"}, {-95, 12, "V", "(-95 ± 12) V"},
		{1234567, 1234, "Pa", "(1234600 ± 1200) Pa"}, {12345678, 1234, "Pa", "(1.23457e7 ± 0.00012e7) Pa"}, {9999990, 1200, "Pa", "(1.00000e7 ± 0.00012e7) Pa"},
		{5e-5, 1.2e-5, "m", "(5.0e-5 ± 1.2e-5) m"}, {1e-6, 1.2e-4, "m", "(0.00000 ± 0.00012) m"}, {-1.5e-15, 2e-17, "F", "(-1.500e-15 ± 0.020e-15) F"},
		{0, 1.2e9, "F", "(0.0e9 ± 1.2e9) F"}, {1e-300, 1e-301, "F", "(1.00e-300 ± 0.10e-300) F"}, {12.25, 2.5, "V", "(12.2 ± 2.5) V"}, {12.35, 2.25, "V", "(12.4 ± 2.2) V"},
		{12.5, 0, "F", "12.5 F"}, {12.3456, 0, "F", "12.35 F"}, {12.5, -0.25, "F", "(12.50 ± 0.25) F"}, {12.5, 1e-13, "F", "12.5 F"}, {12.5, 1.2e-12, "F", "(12.5000000000000 ± 0.0000000000012) F"},
		{12.5, math.NaN(), "F", "(12.5 ± NaN) F"}, {12.5, math.Inf(1), "F", "(12.5 ± +Inf) F"}, {math.NaN(), 0.1, "F", "NaN F"},
	} {
		u := MustParse(c.unit)
		if got := ShowSpread(u.ToSI(c.value), u.Difference().ToSI(c.spread), u); got != c.want {
			t.Errorf("%v ± %v is %q, want %q", c.value, c.spread, got, c.want)
		}
	}
	if got := ShowSpread(2, 0.5, Unit{}); got != "2.00 ± 0.50" {
		t.Error(got)
	}
}

func TestShowInterval(t *testing.T) {
	for _, c := range []struct {
		value, low, high float64
		unit, want       string
	}{
		// JCGM 101:2008, 9.3, table 5: 1.2340 mg, shortest 95 % interval [1.0834, 1.3825] mg.
		{1.234, 1.0834, 1.3825, "mg", "1.23 mg (1.08 to 1.38 mg)"}, {12.5, 12.251, 12.749, "1", "12.50 (12.25 to 12.75)"},
		{20, 19.51, 20.49, "°C", "20.00 °C (19.51 to 20.49 °C)"}, {90, 88.2, 91.8, "°", "90.0° (88.2 to 91.8°)"}, {50, 0, 149.79, "V", "50 V (0 to 150 V)"},
		{1.5, -0.5, 3.5, "V", "1.5 V (-0.5 to 3.5 V)"}, {2e9, 1e9, 3e9, "V", "2.0e9 V (1.0e9 to 3.0e9 V)"}, {1.5, 3.5, -0.5, "V", "1.5 V (-0.5 to 3.5 V)"},
		{12.3456, 12.3456, 12.3456, "V", "12.35 V"}, {1, 1, math.Inf(1), "V", "1 V (1 to +Inf V)"},
	} {
		u := MustParse(c.unit)
		if got := ShowInterval(u.ToSI(c.value), u.ToSI(c.low), u.ToSI(c.high), u); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestShowUncertainty(t *testing.T) {
	for _, c := range []struct {
		u        float64 // in the unit
		in, want string
	}{
		{0.5, "A", "0.50 A"}, {2, "V", "2.0 V"}, {31.711, "nm", "32 nm"}, {-16.68, "nm", "-17 nm"}, {0.0996, "V", "0.10 V"}, {120, "Pa", "120 Pa"},
		{0, "V", "0 V"}, {0.5, "°C", "0.50 °C"}, {0.25, "1", "0.25"}, {1.5e-9, "F", "1.5e-9 F"}, {3, "°", "3.0°"}, {math.Inf(1), "V", "+Inf V"},
	} {
		in := MustParse(c.in)
		if got := ShowUncertainty(in.Difference().ToSI(c.u), in); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestShowBeside(t *testing.T) {
	for _, c := range []struct {
		value, spread float64 // in the unit
		in, want      string
	}{
		{10, 0.1, "V", "10.00 V"}, {20, 0.5, "°C", "20.00 °C"}, {50.000623, 54e-6, "mm", "50.000623 mm"}, {8000, 1155, "kg/m^3", "8000 kg/m³"},
		{0, 0.4, "K", "0 K"}, {11.5e-6, 2.3e-6, "K^-1", "1.15e-5 K⁻¹"}, {3.5, 0, "A", "3.5 A"},
	} {
		in := MustParse(c.in)
		if got := ShowBeside(in.ToSI(c.value), in.Difference().ToSI(c.spread), in); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestFittingSpread(t *testing.T) {
	for _, c := range []struct {
		value, spread float64 // SI
		in, want      string
	}{
		{12.5, 0.25, "F", "(12.50 ± 0.25) F"}, {0, 0.002, "V", "(0.0 ± 2.0) mV"}, {1e-9, 0.002, "V", "(0.0 ± 2.0) mV"}, {-0.02, 0.001, "V", "(-20.0 ± 1.0) mV"},
		{0.02, 1.5, "V", "(0.0 ± 1.5) V"}, {293.15, 0.5, "°C", "(20.00 ± 0.50) °C"}, {0, 0, "kg", "0 kg"}, {2, math.Inf(1), "V", "(2 ± +Inf) V"},
	} {
		if got := ShowSpread(c.value, c.spread, FittingSpread(MustParse(c.in).Kind, c.value, c.spread)); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// The two numbers read back are the value within half a unit of the last
// place and the spread to two digits, they end at one place, and writing what
// was read changes nothing.
func FuzzShowSpread(f *testing.F) {
	for _, x := range []float64{12.5, -0.00012345, 9.9999e6, 1e300, 5e-324, 2.675, 0} {
		f.Add(x, 0.0996)
		f.Add(x, x)
	}
	f.Fuzz(func(t *testing.T, x, spread float64) {
		spread = math.Abs(spread)
		if !isFinite(x) || !isFinite(spread) || spread > 1e300 || math.Abs(x) > 1e300 || spread < 1e-300 {
			return
		}
		text := ShowSpread(x, spread, Unit{})
		left, right, ok := strings.Cut(text, " ± ")
		if !ok {
			if spread > 1e-12*math.Abs(x) {
				t.Fatalf("%v ± %v is %q", x, spread, text)
			}
			return
		}
		var a, b float64
		if _, err := fmt.Sscan(left+" "+right, &a, &b); err != nil {
			t.Fatal(text, err)
		}
		place := math.Pow(10, math.Floor(math.Log10(b*(1+1e-12)))-1)
		if math.Abs(b-spread) > 0.5001*place || math.Abs(a-x) > 0.5001*place+1e-15*math.Abs(x) {
			t.Fatalf("%v ± %v is %q", x, spread, text)
		}
		if decimals(left) != decimals(right) || strings.HasPrefix(left, "-") && a == 0 {
			t.Fatalf("%v ± %v is %q", x, spread, text)
		}
		if again := ShowSpread(a, b, Unit{}); again != text {
			t.Fatalf("%q is not stable: %q", text, again)
		}
	})
}

// decimals is what stands behind the point: its length, and the power of ten.
func decimals(text string) string {
	digits, power, _ := strings.Cut(text, "e")
	_, behind, _ := strings.Cut(digits, ".")
	return fmt.Sprint(len(behind), "e", power)
}

func BenchmarkShowSpread(b *testing.B) {
	b.ReportAllocs()
	u := MustParse("Wh")
	for b.Loop() {
		ShowSpread(625, 12.5, u)
	}
}
