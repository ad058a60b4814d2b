package numeric

import (
	"errors"
	"math"
	"testing"
)

func TestRoot(t *testing.T) {
	for _, c := range []struct {
		name              string
		f                 func(float64) float64
		left, right, want float64
		tolerance         float64
		source            string
	}{
		{"cos x = x", func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 0.739085133215161, 1e-15, "classical"},
		{"x³ - 2x - 5", func(x float64) float64 { return x*x*x - 2*x - 5 }, 2, 3, 2.09455148154233, 5e-15, "Newton; Wallis 1685"},
		{"x exp x = 1", func(x float64) float64 { return x*math.Exp(x) - 1 }, 0, 1, 0.567143290409784, 1e-15, "classical"},
		{"tan x = x", func(x float64) float64 { return math.Tan(x) - x }, 4, 4.6, 4.49340945790906, 5e-15, "classical"},
		{"(x - 1)⁵", func(x float64) float64 { return math.Pow(x-1, 5) }, 0, 3, 1, 1e-3, "robustness: 1e-15 in f is 1e-3 in x"},
		{"reversed", func(x float64) float64 { return math.Cos(x) - x }, 1, 0, 0.739085133215161, 1e-15, "classical"},
		{"at the left", func(x float64) float64 { return x }, 0, 1, 0, 0, ""},
		{"at the right", func(x float64) float64 { return x - 1 }, 0, 1, 1, 0, ""},
		{"at zero", func(x float64) float64 { return x * x * x }, -1, 3, 0, 1e-60, ""},
		{"steep", func(x float64) float64 { return math.Cbrt(x - 1) }, 0, 3, 1, 1e-15, ""},
		{"short", func(x float64) float64 { return x - math.Pi }, math.Nextafter(math.Pi, 0), math.Nextafter(math.Pi, 4), math.Pi, 0, ""},
		{"far", func(x float64) float64 { return x - 1e-9 }, 0, 1e9, 1e-9, 1e-23, ""},
		{"an exponential", func(x float64) float64 { return math.Expm1(x) - 1e-9 }, -700, 700, 1e-9, 1e-17, "expm1"},
	} {
		calls := 0
		x, err := root(func(x float64) float64 { calls++; return c.f(x) }, c.left, c.right, 0)
		if err != nil || math.Abs(x-c.want) > c.tolerance {
			t.Errorf("%s: %.17g, %v; want %.17g (%s)", c.name, x, err, c.want, c.source)
		}
		t.Logf("%s: %d calls", c.name, calls)
	}
}

func TestNoRoot(t *testing.T) {
	for _, c := range []struct {
		name        string
		f           func(float64) float64
		left, right float64
		cause       RootCause
		at          float64
	}{
		{"1/(x - 0.5)", func(x float64) float64 { return 1 / (x - 0.5) }, 0, 1, Pole, 0.5},
		{"1/(x - 0.3)", func(x float64) float64 { return 1 / (x - 0.3) }, 0, 1, Pole, 0.3},
		{"tan x", math.Tan, 1, 2, Pole, math.Pi / 2},
		{"1/(x - 0.3)³", func(x float64) float64 { return math.Pow(x-0.3, -3) }, 0, 1, Pole, 0.3},
		{"sign", func(x float64) float64 { return math.Copysign(1, x-0.3) }, 0, 1, Jump, 0.3},
		{"jump on a slope", func(x float64) float64 { return x - 2 + 3*math.Floor(x) }, 0.2, 1.7, Jump, 1},
		{"one sign", func(x float64) float64 { return 1 + x*x }, -1, 1, NoBracket, -1},
		{"no number at an end", math.Log, -1, 2, NaN, -1},
		{"no number inside", func(x float64) float64 {
			if x > 0.4 && x < 0.6 {
				return math.NaN()
			}
			return x - 0.5
		}, 0, 1, NaN, 0.5},
		{"endless", func(x float64) float64 { return x }, math.Inf(-1), 1, NaN, math.Inf(-1)},
	} {
		x, err := root(c.f, c.left, c.right, 0)
		var e *RootError
		if !errors.As(err, &e) || e.Cause != c.cause || x != e.At || !(x == c.at || math.Abs(x-c.at) < 1e-12) || e.Error() == "" {
			t.Errorf("%s: %v, %v", c.name, x, err)
		}
	}
}

// Whatever the function, root comes back, and its roots lie in the bracket.
func FuzzRoot(f *testing.F) {
	f.Add(1., 0., -2., -5., 2., 3.)
	f.Add(0., 1., 1e300, -1., -1e300, 5.)
	f.Fuzz(func(t *testing.T, a, b, c, d, left, right float64) {
		calls := 0
		x, err := root(func(x float64) float64 { calls++; return ((a*x+b)*x+c)*x + d }, left, right, 0)
		if calls > 400 {
			t.Fatalf("%d calls", calls)
		}
		if err == nil && !(min(left, right) <= x && x <= max(left, right)) {
			t.Fatalf("%v lies outside", x)
		}
	})
}

func BenchmarkRoot(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_, _ = root(func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 0)
	}
}
