package numeric

import (
	"math"
	"testing"
)

// TestCollocateLag follows s' = k·(x − s) with t' = 1/(2 − (x − s)), from gentle to so stiff that
// steps would be lost: s = x − (1 − e^(−k·x))/k, and t by its closed form, since x − s = u obeys
// u' = 1 − k·u.
func TestCollocateLag(t *testing.T) {
	for _, k := range []float64{0, 0.1, 3, 100, 1e4, 1e5} {
		track := &Track{Start: []float64{0, 0}, Feed: -1, Most: []float64{1e-9, 1e-9}, Lag: 1,
			Rates: func(_ int, x, _ float64, out []float64) { out[0], out[1] = 0.5, 0 },
			Given: func(x, s float64, out []float64) bool {
				out[0], out[1] = 1/(2-(x-s)), k*(x-s)
				return x-s < 2
			}}
		c, ok := Collocate(t.Context(), track, 0, 1.5)
		if !ok {
			t.Errorf("k = %g: it gives up after %d looks", k, c.Looks)
			continue
		}
		lag, sum := 1.5, math.Log(2/0.5)
		if k > 0 {
			lag = -math.Expm1(-1.5*k) / k
			// ∫ dx/(2 − u) with e = e^(−k·x), u = (1 − e)/k: ln((2k − 1)·e^(k·x) + 1)/(2k − 1) less its start.
			q := 2*k - 1
			sum = math.Log((q*math.Exp(min(1.5*k, 700))+1)/(q+1)) / q
			if 1.5*k > 700 {
				sum = (1.5*k + math.Log(q/(q+1))) / q
			}
		}
		if math.Abs(c.Y[1]-(1.5-lag)) > 1e-9 || math.Abs(c.Y[0]-sum) > 1e-9 || c.Looks > 900 {
			t.Errorf("k = %g: %v after %d looks, want %g and %g", k, c.Y, c.Looks, sum, 1.5-lag)
		}
	}
}

// TestCollocateEases follows a feed that runs to rest at once, z' = k·(1 + x − z), and what depends on
// it: z = 1 + x − 1/k + (1/k − 1)·e^(−k·x) from z = 0.
func TestCollocateEases(t *testing.T) {
	for _, k := range []float64{1, 10, 30, 100} {
		track := &Track{Start: []float64{0, 0}, Feed: 1, Most: []float64{1e-8, 1e-8},
			Rates: func(_ int, x, z float64, out []float64) { out[0], out[1] = 1+z/10, k*(1+x-z) },
			Eases: func([]float64) float64 { return -k }}
		c, ok := Collocate(t.Context(), track, 0, 2)
		fade := math.Exp(-2 * k)
		z := 3 - 1/k + (1/k-1)*fade
		area := 4 - 2/k + (1/k-1)*(1-fade)/k
		if !ok || math.Abs(c.Y[1]-z) > 1e-8 || math.Abs(c.Y[0]-2-area/10) > 1e-8 || c.Looks > 1000 {
			t.Errorf("k = %g: %v, %v after %d looks, want %g and %g", k, ok, c.Y, c.Looks, 2+area/10, z)
		}
	}
}

// TestEliminate: equations that need another pivot, and two that say the same.
func TestEliminate(t *testing.T) {
	out := eliminate([][]float64{{0, 2, 1, 7}, {1, -1, 0, -1}, {3, 0, -2, -3}}, make([]float64, 3))
	for i, want := range []float64{1, 2, 3} {
		if out == nil || math.Abs(out[i]-want) > 1e-14 {
			t.Fatalf("%v", out)
		}
	}
	if out := eliminate([][]float64{{1, 2, 3}, {2, 4, 6}}, make([]float64, 2)); out != nil {
		t.Errorf("two equations that say the same have %v", out)
	}
}
