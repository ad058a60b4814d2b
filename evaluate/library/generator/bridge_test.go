package generator

import (
	"math"
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func TestBridgeSinglePublished(t *testing.T) {
	const source = "power-electronics textbooks (charger example); closed form = quadrature"
	for _, c := range []struct {
		v, vd, angle, i, rms, power, loss, diodes float64
	}{
		{6, 0, 106.2602, 3.1019027, 4.4416848, 18.611416, 9.8642817, 0},
		{5, 0.7, 100.4164, 2.6425342, 3.8905625, 13.212671, 7.5682383, 3.699548},
	} {
		b, err := BridgeSinglePhase(BridgeSinglePhaseInput{Emf: 10, Resistance: 0.5, Voltage: c.v, DiodeDrop: c.vd})
		if err != nil {
			t.Fatal(err)
		}
		kit.Near(t, source+" conduction", b.Conduction*180/math.Pi, c.angle, 1e-6)
		kit.Near(t, source+" I", b.Current, c.i, 2e-8)
		kit.Near(t, source+" Irms", b.CurrentRms, c.rms, 2e-8)
		kit.Near(t, source+" P", b.Power, c.power, 3e-8)
		kit.Near(t, source+" loss in R", b.ResistanceLoss, c.loss, 2e-8)
		kit.Near(t, source+" diodes", b.DiodeLoss, c.diodes, 2e-7)
	}
}

func TestBatteryChargerTextbook(t *testing.T) {
	// M. H. Rashid, Power Electronics, battery charger: 60 V rms, 12 V, 5 A mean,
	// half wave: half the current and half the mean square of the full bridge.
	f := singleFlow(60*math.Sqrt2, 4.256, 12)
	kit.Near(t, "mean", f.mean/2, 5, 2e-4)
	kit.Near(t, "rms", math.Sqrt(f.square/2), 8.212, 2e-4)
	kit.Near(t, "R loss", 4.256*f.square/2, 287, 2e-3)
}

func TestBridgeThreePublished(t *testing.T) {
	const source = "Kirchhoff's laws: instantaneous diode solution averaged; quadrature"
	for _, c := range []struct{ v, vd, i, p, relative float64 }{
		{15.5, 0, 1.06844, 16.5608, 4e-6},
		{8, 0.7, 7.5107, 60.0856, 4e-6},
	} {
		b, _ := BridgeThreePhase(BridgeThreePhaseInput{Emf: 10, Resistance: 0.5, Voltage: c.v, DiodeDrop: c.vd})
		kit.Near(t, source+" I", b.Current, c.i, c.relative)
		kit.Near(t, source+" P", b.Power, c.p, c.relative)
	}
	for _, c := range []struct{ x, i, p float64 }{
		{0, 19.0985932, 300}, {2, 16.4743836, 261.831127}, {15, 1.53986686, 25.9509985},
	} {
		f := threeFlow(10, 0.5, 0, c.x)
		kit.Near(t, source+" I", f.mean, c.i, 4e-9)
		kit.Near(t, source+" P", f.power, c.p, 2e-9)
	}
	// Ideal outputs (textbook): 2/π Vm, 3√3/π Vm, as R goes to zero current is
	// set by the mean open voltage: I·2R + X for a drain so small that X ≈ mean.
	// A large Rd makes the source nearly ideal: mean output ≈ Rd·I.
	f := threeFlow(1, 1e-6, 1, 0)
	kit.Near(t, "3√3/π", f.mean*1, 1.65398669, 3e-6)
	g := singleFlow(1, 1, 0)
	kit.Near(t, "2/π", g.mean, 0.636619772, 1e-9)
	kit.Near(t, "ripple factor", math.Sqrt(g.square/(g.mean*g.mean)-1), 0.4834258, 2e-7)
}

// TestThreeFlowByKirchhoff solves the circuit at many instants by bisection on
// the d.c. voltage and the star point, and averages.
func TestThreeFlowByKirchhoff(t *testing.T) {
	for _, c := range []struct{ e, r, rd, x float64 }{
		{10, 0.5, 0, 2}, {10, 0.5, 0, 9.4}, {10, 0.5, 0.2, 9.4}, {10, 0.5, 0.03, 14}, {10, 0.5, 1, 0}, {6, 0.2, 0.05, 10.3},
	} {
		const n = 600
		var mean, power, square float64
		for k := range n {
			a := 2 * math.Pi * (float64(k) + 0.5) / n
			i, p := kirchhoff([3]float64{c.e * math.Cos(a), c.e * math.Cos(a-2*math.Pi/3), c.e * math.Cos(a+2*math.Pi/3)}, c.r, c.rd, c.x)
			mean, power, square = mean+i/n, power+p/n, square+i*i/n
		}
		f := threeFlow(c.e, c.r, c.rd, c.x)
		kit.Near(t, "mean", f.mean, mean, 3e-4)
		kit.Near(t, "power", f.power, power, 3e-4)
		kit.Near(t, "square", f.square, square, 3e-4)
	}
}

// kirchhoff is the d.c. current and the power of the emfs at one instant.
func kirchhoff(e [3]float64, r, rd, x float64) (current, power float64) {
	legs := func(plus, minus float64) (up, down, p float64) {
		for _, v := range e {
			switch {
			case v > plus:
				up, p = up+(v-plus)/r, p+v*(v-plus)/r
			case v < minus:
				down, p = down+(minus-v)/r, p-v*(minus-v)/r
			}
		}
		return up, down, p
	}
	star := func(u float64) (float64, float64) { // plus rail at u above minus: what flows
		lo, hi := -30.0, 30.0
		for range 100 {
			m := (lo + hi) / 2
			if up, down, _ := legs(m+u, m); up > down {
				lo = m
			} else {
				hi = m
			}
		}
		up, _, p := legs(lo+u, lo)
		return up, p
	}
	lo, hi := x, x+40
	for range 100 {
		m := (lo + hi) / 2
		if i, _ := star(m); x+i*rd > m {
			lo = m
		} else {
			hi = m
		}
		if rd == 0 {
			lo = x
			break
		}
	}
	return star(lo)
}

func TestSingleFlowByQuadrature(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		e, res := 1+20*r.Float64(), 0.05+r.Float64()
		x := e * r.Float64() * 0.98
		const n = 40000
		var mean, power, square float64
		for k := range n {
			v := e * math.Sin(math.Pi*(float64(k)+0.5)/n)
			if i := (v - x) / res; i > 0 {
				mean, power, square = mean+i/n, power+v*i/n, square+i*i/n
			}
		}
		f := singleFlow(e, res, x)
		kit.Near(t, "mean", f.mean, mean, 3e-4)
		kit.Near(t, "power", f.power, power, 3e-4)
		kit.Near(t, "square", f.square, square, 3e-4)
	}
}

func TestFlowProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 3000 {
		e, res, rd := 20*r.Float64()+0.1, 0.01+r.Float64(), r.Float64()*float64(r.IntN(2))
		x := 2 * e * r.Float64()
		s, d := singleFlow(e, res, x), threeFlow(e, res, rd, x)
		if s.mean < 0 || d.mean < 0 {
			t.Fatalf("current flows back: %v %v", s, d)
		}
		kit.Near(t, "single: P − X·I is R·I²", s.power-x*s.mean+1, res*s.square+1, 1e-9)
		if loss := d.power - x*d.mean - rd*d.square; loss < -1e-9*(1+d.power) {
			t.Fatalf("e %g r %g rd %g x %g: copper loss %g", e, res, rd, x, loss)
		}
		if more := threeFlow(1.01*e, res, rd, x); more.mean < d.mean {
			t.Fatal("more emf, less current")
		}
		if small := threeFlow(e, res, rd+1e-9, x); math.Abs(small.mean-d.mean) > 1e-5*(1+d.mean) {
			t.Fatal("a tiny resistance on the d.c. side jumps")
		}
	}
	// Continuous where the three-diode interval ends.
	a, b := threeFlow(10, 0.5, 0, 15-1e-9), threeFlow(10, 0.5, 0, 15+1e-9)
	kit.Near(t, "at 1.5 E", a.mean, b.mean, 1e-7)
	if f := threeFlow(10, 0.5, 0, 18); f != (flow{}) {
		t.Error("above the line peak nothing flows")
	}
}

func TestBridgeErrorsAndCautions(t *testing.T) {
	if _, err := BridgeSinglePhase(BridgeSinglePhaseInput{Emf: 10, Voltage: 1}); err == nil {
		t.Error("no resistance has no answer")
	}
	b, err := BridgeThreePhase(BridgeThreePhaseInput{Emf: 40, Resistance: 1, Voltage: 80})
	if err != nil || b.Current != 0 || len(b.List) != 2 || b.List[0].ID != "above-charging-ceiling" || b.List[1].ID != "open-circuit-touch-voltage" {
		t.Errorf("%v %v", b, err)
	}
}

// TestThreeConduction holds the time that each pulse lasts against the part of a
// turn in which the circuit carries a current at all.
func TestThreeConduction(t *testing.T) {
	for _, x := range []float64{0, 8, 15, 15.5, 16.5, 17.3, 18} {
		const n = 60000
		flows := 0
		for k := range n {
			a := 2 * math.Pi * (float64(k) + 0.5) / n
			if i, _ := kirchhoff([3]float64{10 * math.Cos(a), 10 * math.Cos(a-2*math.Pi/3), 10 * math.Cos(a+2*math.Pi/3)}, 0.5, 0, x); i > 1e-9 {
				flows++
			}
		}
		b, err := BridgeThreePhase(BridgeThreePhaseInput{Emf: 10, Resistance: 0.5, Voltage: x})
		if err != nil {
			t.Fatal(err)
		}
		kit.Near(t, "conduction", b.Conduction+1, math.Pi/3*float64(flows)/n+1, 1e-3)
	}
}

// TestTouchVoltage: 30 V a.c. or 60 V d.c. count as hazardous (IEC 61010-1, from
// memory); a sine of 30 V has a peak of 42.43 V.
func TestTouchVoltage(t *testing.T) {
	for emf, want := range map[float64]bool{42.42: false, 42.43: true, 60: true} {
		b, err := BridgeSinglePhase(BridgeSinglePhaseInput{Emf: emf, Resistance: 1, Voltage: 10})
		if err != nil {
			t.Fatal(err)
		}
		if got := kit.Raised(b.List, "open-circuit-touch-voltage"); got != want {
			t.Errorf("a peak of %g V: said %v", emf, got)
		}
	}
}
