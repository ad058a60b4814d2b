package glide

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func TestGradient(t *testing.T) {
	formula := disc{diameter: 0.2, ct0: 0.105, cp0: 0.048, j0: 0.75}
	table := disc{diameter: 0.2, rows: []MeasuredRow{{0, 0.12, 0.05}, {0.3, 0.09, 0.045}, {0.7, 0.01, 0.02}}}
	const h = 1e-6
	for _, d := range []disc{formula, table} {
		for _, at := range [][2]float64{{90, 7}, {60, 4.1}, {120, 1}, {75, 9}} {
			n, v := at[0], at[1]
			g, ok := d.gradient(n, v)
			if !ok {
				t.Fatalf("%v lies outside", at)
			}
			ct1, cp1, _ := d.coefficients(n-h*n, v)
			ct2, cp2, _ := d.coefficients(n+h*n, v)
			kit.Near(t, "CT by turns", g.ctByTurns, (ct2-ct1)/(2*h*n), 1e-7)
			kit.Near(t, "CP by turns", g.cpByTurns, (cp2-cp1)/(2*h*n), 1e-7)
			ct1, cp1, _ = d.coefficients(n, v-h*v)
			ct2, cp2, _ = d.coefficients(n, v+h*v)
			kit.Near(t, "CT by airspeed", g.ctBySpeed, (ct2-ct1)/(2*h*v), 1e-6)
			kit.Near(t, "CP by airspeed", g.cpBySpeed, (cp2-cp1)/(2*h*v), 1e-6)
		}
	}
	if _, ok := table.gradient(50, 9); ok {
		t.Error("past measured data nothing is known")
	}
}

// TestStepsMeetSearch holds Newton's steps from a moment nearby against the
// nested search, which knows nothing of it.
func TestStepsMeetSearch(t *testing.T) {
	for _, ph := range []Phase{{Throttle: new(0.6)}, {Throttle: new(1.0)}, {Power: new(25.0)}, {Power: new(40.0)}} {
		for _, kind := range []string{"linear", "switching"} {
			in := lapwingFlight()
			in.Radio.Kind, in.Radio.Efficiency = kind, 0.85
			k, err := in.circuit()
			if err != nil {
				t.Fatal(err)
			}
			l, err := k.newLeg(in.Airframe, ph, 1)
			if err != nil {
				t.Fatal(err)
			}
			l.last = l.search(9)
			for v := 8.0; v < 12.5; v += 0.37 {
				got, ok := l.steps(v)
				if ok == l.tooSteep(v) {
					t.Errorf("%s at %g V: steps settle: %v", kind, v, ok)
				}
				if !ok {
					continue
				}
				want := l.search(v)
				kit.Near(t, "angle", got.angle+1, want.angle+1, 1e-11)
				kit.Near(t, "turns", got.turns, want.turns, 1e-11)
				kit.Near(t, "current", got.pack, want.pack, 1e-10)
				kit.Near(t, "terminal", got.terminal, want.terminal, 1e-11)
				kit.Near(t, "forces", got.thrust, got.drag+l.plane.weight()*math.Sin(got.angle), 1e-11)
			}
		}
	}
}
