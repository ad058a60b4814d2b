package generator

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"inkwing/evaluate/library/internal/kit"
)

// TestMoment holds ∫ t·J1 against ∫ J0 of Abramowitz and Stegun, Handbook of
// Mathematical Functions, table 11.1 (from memory), and against quadrature.
func TestMoment(t *testing.T) {
	for z, want := range map[float64]float64{1: 0.9197304101, 10: 1.0670113040} {
		kit.Near(t, "Abramowitz and Stegun, table 11.1", moment(z)+z*math.J0(z), want, 2e-10)
	}
	f := func(t float64) float64 { return t * math.J1(t) }
	for _, z := range []float64{1e-3, 0.5, 3, 7.999, 8.001, 17, 24, 29.99, 30.01, 44, 120} {
		sum := 0.0
		for i := range 40 {
			sum += quad.Fixed(f, z*float64(i)/40, z*float64(i+1)/40, 16, quad.Legendre{}, 0)
		}
		kit.Near(t, "quadrature", moment(z)/z+1, sum/z+1, 3e-13)
	}
	// J1 is t/2 at first.
	kit.Near(t, "small", moment(1e-4), 1e-12/6, 1e-8)
}

func TestOddOrders(t *testing.T) {
	var got [3]float64
	for _, p := range []int{1, 2, 6, 10} {
		for x := 0.3; x < 90; x *= 1.13 {
			odd(got[:], p, x)
			for i, y := range got {
				kit.Near(t, "math.Jn", y+1, math.Jn((2*i+1)*p, x)+1, 1e-13)
			}
		}
	}
}

// TestThinWinding lets the winding's leg go to nothing.
func TestThinWinding(t *testing.T) {
	d := testRing()
	for _, leg := range []float64{1e-4, 1e-5, 1e-7, 0} {
		d.inner, d.outer = 6.5e-3-leg/2, 6.5e-3+leg/2
		for _, k := range []float64{1, 50, 400, 3000} {
			kit.Near(t, "filament", d.section(k)/6.5e-3+1, math.J1(k*6.5e-3)+1, 1e-12+3e-2*leg*leg*1e8)
		}
	}
}
