package flight

import (
	"math"
	"testing"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/internal/kit"
)

// first is an answer that has to be there.
func first[T any](x T, err error) T {
	if err != nil {
		panic(err)
	}
	return x
}

func TestGradient(t *testing.T) {
	disc := func(p drive.PropellerModel) *drive.Disc { return first(p.Disc("")) }
	formula := disc(drive.PropellerModel{Diameter: 0.2, CT0: new(0.105), CP0: new(0.048), ZeroThrustJ: new(0.75)})
	table := disc(drive.PropellerModel{Diameter: 0.2, Data: []drive.MeasuredRow{{J: 0, CT: 0.12, CP: 0.05}, {J: 0.3, CT: 0.09, CP: 0.045}, {J: 0.7, CT: 0.01, CP: 0.02}}})
	const h = 1e-6
	for _, d := range []*drive.Disc{formula, table} {
		for _, at := range [][2]float64{{90, 7}, {60, 4.1}, {120, 1}, {75, 9}} {
			n, v := at[0], at[1]
			g, ok := d.Gradient(n, v)
			if !ok {
				t.Fatalf("%v lies outside", at)
			}
			ct1, cp1, _ := d.Coefficients(n-h*n, v)
			ct2, cp2, _ := d.Coefficients(n+h*n, v)
			kit.Near(t, "CT by turns", g.CTByTurns, (ct2-ct1)/(2*h*n), 1e-7)
			kit.Near(t, "CP by turns", g.CPByTurns, (cp2-cp1)/(2*h*n), 1e-7)
			ct1, cp1, _ = d.Coefficients(n, v-h*v)
			ct2, cp2, _ = d.Coefficients(n, v+h*v)
			kit.Near(t, "CT by airspeed", g.CTBySpeed, (ct2-ct1)/(2*h*v), 1e-6)
			kit.Near(t, "CP by airspeed", g.CPBySpeed, (cp2-cp1)/(2*h*v), 1e-6)
		}
	}
	if _, ok := table.Gradient(50, 9); ok {
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
			l, err := k.newLeg(in.Airframe, ph, 1, Home{})
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
				kit.Near(t, "forces", got.thrust, got.drag+l.plane.Weight()*math.Sin(got.angle), 1e-11)
			}
		}
	}
}
