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
				if t.Failed() {
					t.Fatal(n, rd, x)
				}
			}
		}
	}
}

// TestSeveralSmooth has how far the sum of smooth means reads high that stood for
// the circuit once: values worked apart from this code.
func TestSeveralSmooth(t *testing.T) {
	for _, c := range []struct{ n, rd, x, high float64 }{{2, 0.4, 0.8, 6.6}, {2, 0.4, 0.95, 21}, {2, 0.1, 0.8, 1.8}, {2, 0.1, 0.95, 5.8}, {3, 0.4, 0.95, 13}} {
		smooth := 0.0
		for range 200 { // what they share lifts the voltage of all by the mean
			smooth = (smooth + c.n*singleFlow(1, 1, c.x+c.rd*smooth).mean) / 2
		}
		kit.Near(t, "smooth", 100*(smooth/severalFlow(int(c.n), 1, 1, c.rd, c.x).mean-1), c.high, 0.04)
	}
}

// TestSeveralLagging steps bridges with inductance side by side in time; what the
// reactance takes is worked from the mean of what they share.
func TestSeveralLagging(t *testing.T) {
	for _, n := range []int{2, 3} {
		for _, q := range []float64{0.1, 0.3} {
			for _, rd := range []float64{0.1, 0.4} {
				for _, x := range []float64{0.2, 0.5, 0.8} {
					got, want := laggingSeveral(n, 1, 1, rd, q, x), steppedSeveral(n, q, rd, x)
					kit.Near(t, "current", got.mean, want.mean, 0.03)
					kit.Near(t, "power", got.power, want.power, 0.03)
					t.Logf("%d bridges, q %g, rd %g, x %g: %+.2f %%, %+.2f %%", n, q, rd, x, 100*(got.mean/want.mean-1), 100*(got.power/want.power-1))
				}
			}
		}
	}
}

// steppedSeveral is bridges with inductance in short steps, the node that they
// share at what it was a step before.
func steppedSeveral(n int, q, rd, x float64) flow {
	const parts, turns = 20000, 4
	const h = 2 * math.Pi / parts
	var f flow
	i, dc := make([]float64, n), 0.0
	for k := range turns * parts {
		u, next, power := x+rd*dc, 0.0, 0.0
		for j := range i {
			e := math.Cos((float64(k)+0.5)*h + float64(j)*math.Pi/float64(n))
			sign := math.Copysign(1, i[j])
			if i[j] == 0 {
				if math.Abs(e) <= u {
					continue
				}
				sign = math.Copysign(1, e)
			}
			new := (i[j]*(q-h/2) + h*(e-sign*u)) / (q + h/2)
			if new*sign < 0 {
				new = 0
			}
			power += e * (i[j] + new) / 2
			i[j] = new
			next += math.Abs(new)
		}
		if dc = next; k >= (turns-1)*parts {
			f.mean, f.power = f.mean+dc/parts, f.power+power/parts
		}
	}
	return f
}
