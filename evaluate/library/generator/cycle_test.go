package generator

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// A rectified is the d.c. current and the power of the emfs at a phase of the
// turn, into x.
type rectified func(phase, x float64) (current, power float64)

func singleAt(e, r float64) rectified {
	return func(phase, x float64) (float64, float64) {
		v := math.Abs(e * math.Sin(phase))
		i := max(0, v-x) / r
		return i, v * i
	}
}

func threeAt(e, r float64) rectified {
	return func(phase, x float64) (float64, float64) {
		return kirchhoff([3]float64{e * math.Cos(phase), e * math.Cos(phase-2*math.Pi/3), e * math.Cos(phase+2*math.Pi/3)}, r, 0, x)
	}
}

// TestBridgeInTime steps the circuits of both bridges in time, turn of the emf
// by turn, into a capacitor whose voltage rises all the while, and holds the
// charge by the closed forms against it: time, work and every loss.
func TestBridgeInTime(t *testing.T) {
	const e, r, drop, c, frequency, parts = 10, 0.5, 0.7, 1.0, 2000, 60
	for _, k := range []struct {
		name   string
		phases int
		at     rectified
		to     float64
	}{{"single", 1, singleAt(e, r), 6}, {"single, near its ceiling", 1, singleAt(e, r), 8}, {"three", 3, threeAt(e, r), 12}} {
		const h = 1.0 / frequency / parts
		var clock, v, work, charge, diodes float64
		for n := 0; v < k.to; n++ {
			i, p := k.at(2*math.Pi*(float64(n)+0.5)/parts, v+2*drop)
			step := h
			if v+i*h/c > k.to { // the last one, in part
				step = (k.to - v) * c / i
			}
			clock, v, work, charge, diodes = clock+step, v+i*step/c, work+p*step, charge+i*step, diodes+2*drop*i*step
		}
		m := Machine{PhaseConstant: e / 100.0, CeilingConstant: e / 100.0, PhaseResistance: r, DiodeDrop: drop, Phases: k.phases, Rectifiers: "common", Bridges: 1, Poles: 2}
		if k.phases == 3 {
			m.CeilingConstant *= math.Sqrt(3)
		}
		got, err := HandCharge(t.Context(), HandChargeInput{Generator: m, Store: ChargedStore{Capacitance: c}, To: k.to, Cadence: 100, Gearing: 1, GearEfficiency: 1})
		if err != nil {
			t.Fatal(err)
		}
		kit.Near(t, k.name+": charge stepped", charge, c*k.to, 1e-9)
		kit.Near(t, k.name+": time", got.Time, clock, 1e-3)
		kit.Near(t, k.name+": work", got.Work, work, 1e-3)
		kit.Near(t, k.name+": diodes", got.Diodes, diodes, 1e-9)
		kit.Near(t, k.name+": copper", got.Copper, work-diodes-c*k.to*k.to/2, 2e-3)
	}
}
