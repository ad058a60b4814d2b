package generator

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/model"
)

// singleWithInductance steps a full bridge on e·sin through r and a reactance
// of q·r into x, and is its mean current once it repeats.
func singleWithInductance(e, r, q, x float64) float64 {
	const n = 20000
	i, mean := 0.0, 0.0
	for k := range 6 * n {
		v := e * math.Sin(2*math.Pi*float64(k)/n)
		back := math.Copysign(x, i)
		if i == 0 {
			if math.Abs(v) <= x {
				continue
			}
			back = math.Copysign(x, v)
		}
		next := i + (v-back-r*i)/(q*r)*2*math.Pi/n
		if next*i < 0 {
			next = 0
		}
		if i = next; k >= 5*n {
			mean += math.Abs(i) / n
		}
	}
	return mean
}

// TestReactanceBounds holds what the caution says against the circuit in time.
func TestReactanceBounds(t *testing.T) {
	for _, q := range []float64{0.1, 0.15, 0.2, 0.25, 0.3} {
		worst := 0.0
		for _, x := range []float64{0.05, 0.2, 0.4, 0.6, 0.7, 0.8} {
			worst = max(worst, singleFlow(10, 0.5, 10*x).mean/singleWithInductance(10, 0.5, q, 10*x)-1)
		}
		if said := readsHigh(q); worst > said*1.01 || worst < 0.7*said {
			t.Errorf("at a reactance of %g R it reads %.2f %% high, said %.2f %%", q, 100*worst, 100*said)
		}
	}
}

// TestReactanceRatio holds what the caution says against ω·L/R: of all that is
// in series with one phase, and of a phase alone in a star, where the leads are
// behind the bridge.
func TestReactanceRatio(t *testing.T) {
	for phases, loop := range map[int]float64{1: 0.5 + 0.1 + 0.05, 3: 0.5} {
		m := Machine{PhaseResistance: 0.5, PhaseInductance: 200e-6, LeadResistance: 0.1, Poles: 12, Phases: phases, Rectifiers: "common"}
		var list model.Cautions
		reactanceCaution(&list, m, 100, 0.05)
		if len(list.List) != 1 || list.List[0].ID != "winding-reactance" {
			t.Fatalf("%d phases: %v", phases, list.List)
		}
		kit.Near(t, "6·100 s^-1·200 µH/R", list.List[0].Values[0].Number, 100*6*100*200e-6/loop, 1e-12)
	}
}
