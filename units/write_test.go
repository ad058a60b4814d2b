package units

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		x      float64
		digits int
		want   string
	}{
		{0, 4, "0"}, {math.Copysign(0, -1), 4, "0"}, {1, 4, "1"}, {-1, 4, "-1"}, {12.5, 4, "12.5"}, {12.34567, 4, "12.35"},
		{100, 4, "100"}, {1234567, 4, "1235000"}, {9999999, 4, "1e7"}, {9.999e6, 4, "9999000"}, {1e7, 4, "1e7"}, {12345678, 4, "1.235e7"},
		{1e-4, 4, "0.0001"}, {0.000123456, 3, "0.000123"}, {9.9999e-5, 4, "0.0001"}, {9.999e-5, 4, "9.999e-5"}, {1.2345e-6, 5, "1.2345e-6"},
		{1.23451e-6, 4, "1.235e-6"}, {-1e-300, 2, "-1e-300"}, {0.1 + 0.2, 6, "0.3"}, {999.99, 4, "1000"}, {0.99999, 4, "1"}, {5, 0, "5"},
		{math.Pi, 30, "3.141592653589793"}, {math.NaN(), 3, "NaN"}, {math.Inf(1), 3, "+Inf"}, {math.Inf(-1), 3, "-Inf"},
		{math.MaxFloat64, 3, "1.8e308"}, {5e-324, 3, "5e-324"}, {0.5, 1, "0.5"}, {95, 1, "100"}, {85, 1, "80"},
		// ISO 80000-1, annex B, rule A (from memory): a tie goes to the even digit.
		{12.25, 3, "12.2"}, {12.35, 3, "12.4"}, {-0.125, 2, "-0.12"}, {2.675, 3, "2.68"}, {1.005, 3, "1"},
	} {
		if got := Number(c.x, c.digits); got != c.want {
			t.Errorf("%v with %d digits is %q, want %q", c.x, c.digits, got, c.want)
		}
	}
}

// Writing values: SI Brochure, 5.4.3, and NIST SP 811, 7.2: a space between
// number and unit, none before the signs of plane angle.
func TestShow(t *testing.T) {
	for _, c := range []struct {
		si     float64
		unit   string
		digits int
		want   string
	}{
		{12.5, "F", 4, "12.5 F"}, {math.Pi / 2, "°", 4, "90°"}, {math.Pi / 2, "deg", 4, "90°"}, {math.Pi / 10800, "′", 4, "1′"},
		{math.Pi / 648000, "″", 4, "1″"}, {0.074, "%", 4, "7.4 %"}, {0.05, "%", 2, "5 %"}, {4, "1", 4, "4"}, {303.35, "°C", 4, "30.2 °C"},
		{math.Pi / 180, "deg/s", 4, "1 °/s"}, {9.80665, "m/s^2", 3, "9.81 m/s²"}, {-12, "V", 2, "-12 V"}, {3600, "mAh", 4, "1000 mAh"},
		{2 * math.Pi * 50, "rpm", 4, "3000 rpm"}, {1e-15, "F", 4, "1e-15 F"}, {273.15, "°C", 4, "0 °C"},
	} {
		if got := Show(c.si, MustParse(c.unit), c.digits); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	if got := Show(2, Unit{}, 3); got != "2" {
		t.Error(got)
	}
}

func FuzzNumber(f *testing.F) {
	for _, x := range []float64{0, 1, -0.00012345, 9.9999e6, 1e300, 5e-324, 2.675} {
		f.Add(x, 4)
	}
	f.Fuzz(func(t *testing.T, x float64, digits int) {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return
		}
		text := Number(x, digits)
		back, err := strconv.ParseFloat(text, 64)
		n := min(max(digits, 1), 17)
		if err != nil && !math.IsInf(back, 0) || text == "-0" || n == 17 && back != x {
			t.Fatalf("%v with %d digits is %q", x, digits, text)
		}
		for _, c := range text {
			if !strings.ContainsRune("0123456789-.e", c) {
				t.Fatalf("%q", text)
			}
		}
		if !math.IsInf(back, 0) && math.Abs(x) > 1e-300 && math.Abs(back-x) > math.Abs(x)*5.01*math.Pow(10, -float64(n)) {
			t.Fatalf("%v with %d digits is %q", x, digits, text)
		}
		if Number(back, digits) != text && !math.IsInf(back, 0) {
			t.Fatalf("%q is not stable: %q", text, Number(back, digits))
		}
	})
}

func BenchmarkShow(b *testing.B) {
	b.ReportAllocs()
	u := MustParse("mV")
	for b.Loop() {
		Show(0.0123456, u, 4)
	}
}
