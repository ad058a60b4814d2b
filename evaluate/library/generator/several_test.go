package generator

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// TestSeveralBridges sums bridges of unlike emfs over a turn, the voltage of what
// they share found at each angle by halving.
func TestSeveralBridges(t *testing.T) {
	for _, n := range []int{1, 2, 3, 9} {
		for _, rd := range []float64{0, 0.1, 0.4, 2} {
			for _, x := range []float64{0, 0.3, 0.8, 0.95} {
				var want flow
				const parts = 3000
				for k := range parts {
					a := (float64(k) + 0.5) * math.Pi / parts
					lo, hi := x, 1.0
					current := func(u float64) (sum, power float64) {
						for j := range n {
							e := math.Abs(math.Cos(a + float64(j)*math.Pi/float64(n)))
							sum, power = sum+max(0, e-u), power+e*max(0, e-u)
						}
						return sum, power
					}
					for range 40 {
						u := (lo + hi) / 2
						if i, _ := current(u); u < x+rd*i {
							lo = u
						} else {
							hi = u
						}
					}
					i, p := current(lo)
					want.mean, want.power, want.square, want.peak = want.mean+i/parts, want.power+p/parts, want.square+i*i/parts, max(want.peak, i)
				}
				got := severalFlow(n, 10, 0.5, 0.5*rd, 10*x)
				kit.Near(t, "current", got.mean, want.mean*20, 2e-5)
				kit.Near(t, "power", got.power, want.power*200, 2e-5)
				kit.Near(t, "square", got.square, want.square*400, 2e-5)
				kit.Near(t, "peak", got.peak, want.peak*20, 1e-4)
				less := severalFlow(n, 10, 0.5, 0.5*rd, 10*x+1e-5)
				kit.Near(t, "yield", got.yield, (got.mean-less.mean)/1e-5, 1e-3)
				if t.Failed() {
					t.Fatal(n, rd, x)
				}
			}
		}
	}
}

// TestSeveralSmooth has how far the sum of smooth means read high that stood for
// the circuit before: values from an independent audit.
func TestSeveralSmooth(t *testing.T) {
	for _, c := range []struct{ n, rd, x, high float64 }{{2, 0.4, 0.8, 6.6}, {2, 0.4, 0.95, 21}, {2, 0.1, 0.8, 1.8}, {2, 0.1, 0.95, 5.8}} {
		m := Machine{PhaseConstant: 1, PhaseResistance: 1, Phases: 1, Bridges: int(c.n), Rectifiers: "each"}
		kit.Near(t, "smooth", 100*(m.several(1, c.rd, c.x).mean/severalFlow(int(c.n), 1, 1, c.rd, c.x).mean-1), c.high, 0.02)
	}
}
