package numeric

import (
	"math"
	"testing"
)

// TestCrossing holds it against roots known in closed form, and where a
// function is steep, flat or jumps.
func TestCrossing(t *testing.T) {
	for name, c := range map[string]struct {
		f         func(float64) float64
		a, b, out float64
	}{
		"cube root": {func(x float64) float64 { return x*x*x - 2 }, 0, 3, math.Cbrt(2)},
		"cosine":    {math.Cos, 0, 3, math.Pi / 2},
		"steep":     {func(x float64) float64 { return math.Expm1(50 * (x - 0.3)) }, 0, 1, 0.3},
		"backward":  {func(x float64) float64 { return 1 - x }, 5, -5, 1},
		"a jump":    {func(x float64) float64 { return math.Copysign(1, x-0.25) }, 0, 1, 0.25},
	} {
		if got := Crossing(c.f, c.a, c.b, c.f(c.a), c.f(c.b)); !(math.Abs(got-c.out) < 1e-12) {
			t.Errorf("%s: %.17g, want %.17g", name, got, c.out)
		}
	}
}
