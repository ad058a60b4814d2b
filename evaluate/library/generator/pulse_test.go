package generator

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// TestPulse has the peak of the power over its mean of a single-phase bridge,
// (1 − x)/P by the closed form, worked apart from this code, and the steady currents
// of a shorted bridge, whose pulse textbooks have.
func TestPulse(t *testing.T) {
	for x, want := range map[float64]float64{0: 2, 0.3: 2.24, 0.5: 2.56, 0.8: 3.84, 0.9: 5.35} {
		kit.Near(t, "without reactance", singleBeat(10, 0.5, 0, 10*x).peakPower()*200/singleFlow(10, 0.5, 10*x).power, want, 2e-3)
		kit.Near(t, "with next to none", singleBeat(10, 0.5, 1e-4, 10*x).peakPower()*200/singleFlow(10, 0.5, 10*x).power, want, 2e-3)
	}
	for _, q := range []float64{0.2, 1, 3} {
		// sin θ·sin(θ − φ) is cos φ/2 in the mean, (1 + cos φ)/2 at its largest.
		cos := 1 / math.Hypot(1, q)
		kit.Near(t, "shorted", singleBeat(1, 1, q, 0).peakPower(), cos*(1+cos)/2, 1e-6)
		kit.Near(t, "shorted: current", singleBeat(1, 1, q, 0).peakCurrent(), cos, 1e-6)
		// Three currents in a star of no voltage give a power that does not pulse.
		kit.Near(t, "three shorted", threeBeat(1, 1, 0, q, 0, new(track)).peakPower(), 1.5*cos*cos, 1e-6)
	}
}

// TestPulseOfThree holds the pulse of three phases without reactance against the
// circuit, angle by angle.
func TestPulseOfThree(t *testing.T) {
	for _, x := range []float64{0.2, 0.9, 1.4, 1.6} {
		power, current := 0.0, 0.0
		for k := range 3000 {
			a := 2 * math.Pi * float64(k) / 3000
			i, p := kirchhoff([3]float64{math.Cos(a), math.Cos(a - 2*math.Pi/3), math.Cos(a + 2*math.Pi/3)}, 1, 0.2, x)
			power, current = max(power, p), max(current, i)
		}
		got := threeBeat(1, 1, 0.2, 0, x, new(track))
		kit.Near(t, "power", got.peakPower(), power, 1e-4)
		kit.Near(t, "current", got.peakCurrent(), current, 1e-4)
	}
}
