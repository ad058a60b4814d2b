package flight

import (
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/numeric"
)

// What a pulsing current leaves of the pack's voltage, by Newton's steps, is what halving
// finds, and the demand's slope is that of differences.
func TestPulsesByHalving(t *testing.T) {
	for name, in := range kinds() {
		k := kit.Must(in.circuit())(t)
		switched, ok := k.drive.Chopper(0)
		if !ok {
			continue
		}
		for _, on := range []float64{0.2, 0.5, 0.9} {
			for _, emf := range []float64{0.5, 2, 4} {
				v, c, _ := k.through(11, emf, switched.During(on))
				over := func(v float64) bool {
					pack := switched.At(v, emf, on).Pack
					left, _ := k.terminal(11, pack, 0)
					return v > left-pack*k.drive.LeadResistance
				}
				kit.Near(t, name+": volts", v, numeric.Bisect(0, 11, over), 1e-11)
				kit.Near(t, name+": pack", c.Pack, switched.At(v, emf, on).Pack, 1e-11)
				demand := k.chopped(11, on, switched)
				const h = 1e-5
				up, _, _ := demand(0, emf+h)
				down, _, _ := demand(0, emf-h)
				_, _, by := demand(0, emf)
				kit.Near(t, name+": slope", by, (up-down)/(2*h), 1e-4)
			}
		}
	}
}

// The throttle of a speed is the same wherever the search for it begins.
func TestThrottleFromAnywhere(t *testing.T) {
	ends := 0
	for name, in := range kinds() {
		warm := kit.Must(in.circuit())(t)
		if _, ok := warm.drive.Chopper(0); !ok {
			continue
		}
		for _, rested := range []float64{14, 11, 8, 12} {
			for _, n := range []float64{60, 75, 100} {
				cold := kit.Must(in.circuit())(t)
				want, fits := cold.atTurns(rested, n, 8)
				got, _ := warm.atTurns(rested, n, 8)
				if fits <= 0 {
					continue
				}
				if got.kind == broken {
					ends++
				}
				kit.Near(t, name+": throttle", got.throttle, want.throttle, 1e-11)
				kit.Near(t, name+": pack", got.pack, want.pack, 1e-11)
				kit.Near(t, name+": square", got.square, want.square, 1e-10)
			}
		}
	}
	if ends < 20 {
		t.Errorf("only %d currents end", ends)
	}
}
