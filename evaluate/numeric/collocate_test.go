package numeric

import (
	"context"
	"math"
	"slices"
	"testing"
)

// TestCollocate follows y' = |x − 1| and z' = e^x + z/10, z fed back: a kink and a feed.
func TestCollocate(t *testing.T) {
	track := &Track{Start: []float64{0, 1}, Also: 2, Exits: 1, Feed: 1, Most: []float64{1e-10, 1e-9},
		Rates: func(mode int, x, z float64, out []float64) {
			out[0], out[1], out[2], out[3] = x-1, math.Exp(x)+z/10, -1, math.Sin(x)
			if mode == 0 {
				out[0], out[2] = 1-x, x-1
			}
		},
		Mode: func(x, _ float64) int {
			if x > 1 {
				return 1
			}
			return 0
		},
	}
	c, ok := Collocate(t.Context(), track, 0, 3)
	if !ok {
		t.Fatal("it gives up")
	}
	if j := c.Joints(); len(j) == 0 || math.Abs(j[0]-1) > 1e-12 || c.Looks > 120 {
		t.Errorf("%d looks, pieces meet at %v", c.Looks, c.Joints())
	}
	z := func(x float64) float64 { return math.Exp(x)/0.9 - (1/0.9-1)*math.Exp(x/10) }
	for _, x := range []float64{0, 0.3, 1, 2.2, 3} {
		y, known := make([]float64, 2), make([]float64, 2)
		c.At(x, y, known)
		area := x - x*x/2
		if x > 1 {
			area = 0.5 + (x-1)*(x-1)/2
		}
		if math.Abs(y[0]-area) > 1e-12 || math.Abs(y[1]-z(x)) > 1e-9 || math.Abs(known[1]-math.Sin(x)) > 1e-8 {
			t.Errorf("at %g: %v (%g, %g), %v", x, y, y[0]-area, y[1]-z(x), known[1]-math.Sin(x))
		}
	}
	if most := c.Largest(1); math.Abs(most-1) > 1e-5 {
		t.Errorf("sin reaches %g", most)
	}
}

// TestCollocateHard follows ∫ (1−x)^(-3/2), which runs away at the end of the way, ever
// shorter pieces; and gives up where there is no rate, no way, and no time.
func TestCollocateHard(t *testing.T) {
	singular := &Track{Start: []float64{0}, Feed: -1, Most: []float64{1e-7},
		Rates: func(_ int, x, _ float64, out []float64) { out[0] = math.Pow(1-x, -1.5) }}
	for _, to := range []float64{0.9, 0.999, 0.999999} {
		c, ok := Collocate(t.Context(), singular, 0, to)
		if want := 2/math.Sqrt(1-to) - 2; !ok || math.Abs(c.Y[0]-want) > 1e-7 {
			t.Errorf("to %g: %v, %v, want %g", to, ok, c.Y, want)
		}
	}
	down, ok := Collocate(t.Context(), singular, 0.9, 0)
	if want := 2 - 2/math.Sqrt(0.1); !ok || math.Abs(down.Y[0]-want) > 1e-7 {
		t.Errorf("downwards %v, want %g", down.Y, want)
	}
	for name, to := range map[string]float64{"past the end": 1.5, "no way": math.SmallestNonzeroFloat64} {
		if c, ok := Collocate(t.Context(), singular, 0, to); ok && !(to < 1) || c.Looks > mostLooks+20 {
			t.Errorf("%s: %v after %d looks", name, ok, c.Looks)
		}
	}
	stopped, stop := context.WithCancel(t.Context())
	stop()
	if _, ok := Collocate(stopped, singular, 0, 0.5); ok {
		t.Error("it goes on when it was told to stop")
	}
}

// TestSeries goes to Chebyshev series and back: powers up to the number of places are met
// exactly, and so are their integrals.
func TestSeries(t *testing.T) {
	for _, l := range []*level{coarse, fine} {
		for power := range l.n + 1 {
			values, c := make([]float64, l.n+1), make([]float64, l.n+1)
			for j, x := range l.nodes {
				values[j] = math.Pow(x, float64(power))
			}
			for k := range c {
				c[k] = dot(l.series[k], values)
			}
			if low, high := bounds(c); low > slices.Min(values)+1e-15 || high < slices.Max(values)-1e-15 {
				t.Errorf("x^%d leaves %g to %g", power, low, high)
			}
			whole := integrated(make([]float64, l.n+2), c)
			for i, x := range append([]float64{0.3}, l.nodes...) {
				n := float64(power + 1)
				area := (math.Pow(x, n) - math.Pow(-1, n)) / n
				if math.Abs(chebyshev(c, x)-math.Pow(x, n-1)) > 1e-14 || math.Abs(chebyshev(whole, x)-area) > 1e-14 {
					t.Errorf("x^%d at %g", power, x)
				}
				if i > 0 && math.Abs(dot(l.within[i-1], values)-area) > 1e-14 {
					t.Errorf("x^%d up to %g", power, x)
				}
			}
		}
	}
}

// TestCollocateBend follows ∫ |x − 1|, whose bend only its kind tells of.
func TestCollocateBend(t *testing.T) {
	kind, margin := 0, 0.0
	bent := &Track{Start: []float64{0}, Feed: -1, Most: []float64{1e-9}, Kind: func() (int, float64) { return kind, margin },
		Rates: func(_ int, x, _ float64, out []float64) {
			if out[0], kind, margin = math.Abs(x-1), 0, math.Exp(x)-math.E; x > 1 {
				kind = 1
			}
		}}
	c, ok := Collocate(t.Context(), bent, 0, 3)
	if !ok || math.Abs(c.Y[0]-2.5) > 1e-9 || c.Looks > 120 {
		t.Errorf("%v, %v after %d looks", ok, c.Y, c.Looks)
	}
	if x, ok := c.Rises(0, 0.5); !ok || math.Abs(x-1) > 1e-4 {
		t.Errorf("half an area is reached at %g", x)
	}
	if _, ok := c.Falls(0, 1); ok {
		t.Error("it never falls")
	}
}
