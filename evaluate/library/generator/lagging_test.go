package generator

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// TestLaggingSingle holds the closed forms against values from outside.
func TestLaggingSingle(t *testing.T) {
	f := laggingSingle(1, 1, 1, 0.5)
	kit.Near(t, "q 1, x 0.5: current", f.mean, 0.16215, 5e-5)
	kit.Near(t, "q 1, x 0.5: power", f.power, 0.12210, 5e-5)
	for _, q := range []float64{0.01, 0.1, 1, 10} {
		kit.Near(t, "x 0", laggingSingle(1, 1, q, 0).mean, 2/math.Pi/math.Sqrt(1+q*q), 1e-12)
	}
}

// A steppedFlow is a bridge with inductance stepped in time until it repeats.
// Every diode that could conduct is tried: the pair of rails is the one at
// which no diode is left that conducts backwards or blocks forwards.
func steppedSingle(q, x float64, turns, parts int) flow {
	var f flow
	i, h := 0.0, 2*math.Pi/float64(parts)
	step := func(i, e float64) float64 { // implicit midpoint on the piece's law
		sign := math.Copysign(1, i)
		if i == 0 {
			if math.Abs(e) <= x {
				return 0
			}
			sign = math.Copysign(1, e)
		}
		next := (i*(q-h/2) + h*(e-sign*x)) / (q + h/2)
		if next*sign < 0 {
			return 0
		}
		return next
	}
	for n := range turns * parts {
		e := math.Sin((float64(n) + 0.5) * h)
		next := step(i, e)
		if n >= (turns-1)*parts {
			m := (i + next) / 2
			f.mean += math.Abs(m) / float64(parts)
			f.power += e * m / float64(parts)
			f.square += m * m / float64(parts)
		}
		i = next
	}
	return f
}

func TestLaggingSingleStepped(t *testing.T) {
	for _, q := range []float64{0.05, 0.3, 1, 3} {
		for _, x := range []float64{0.02, 0.2, 0.5, 0.8, 0.95} {
			got, want := laggingSingle(1, 1, q, x), steppedSingle(q, x, 5+int(3*q), 40000)
			kit.Near(t, "current", got.mean, want.mean, 1e-3)
			kit.Near(t, "power", got.power, want.power, 1e-3)
			kit.Near(t, "square", got.square, want.square, 1e-3)
		}
	}
}

// A leg of the bridge conducts upwards (+1), downwards (-1), or not.
type legs [3]int

// tried solves a step of the circuit with the legs conducting so: implicit
// Euler, the rails p and n, their distance x and the drop in rd. It reports
// whether no leg then conducts backwards or blocks forwards.
func (s legs) tried(push [3]float64, z, rd, x float64) (next [3]float64, ok bool) {
	var up, down, pushUp, pushDown float64
	for k, dir := range s {
		if dir > 0 {
			up, pushUp = up+1, pushUp+push[k]
		} else if dir < 0 {
			down, pushDown = down+1, pushDown+push[k]
		}
	}
	var dc, p, n float64
	if up > 0 && down > 0 { // dc·z = pushUp − up·p = down·n − pushDown, p − n = x + rd·dc
		dc = (pushUp/up - pushDown/down - x) / (z/up + z/down + rd)
		p, n = (pushUp-dc*z)/up, (pushDown+dc*z)/down
	} else if up+down > 0 {
		return next, false
	} else { // open: some place of the rails has to keep every leg between them
		return next, max(push[0], push[1], push[2])-min(push[0], push[1], push[2]) <= x
	}
	for k, dir := range s {
		switch {
		case dir > 0:
			next[k] = (push[k] - p) / z
		case dir < 0:
			next[k] = (push[k] - n) / z
		}
		if float64(dir)*next[k] < 0 || dir == 0 && (push[k] > p || push[k] < n) {
			return next, false
		}
	}
	return next, true
}

// steppedThree steps a star with inductance behind a bridge until it repeats:
// of all 27 ways to conduct the one that contradicts no diode, with no order of
// conduction assumed and no event looked for.
func steppedThree(q, rd, x float64, turns, parts int) flow {
	var f flow
	var i [3]float64
	var state legs
	h := 2 * math.Pi / float64(parts)
	for n := range turns * parts {
		var e, push [3]float64
		for k := range 3 {
			e[k] = math.Cos((float64(n)+1)*h - float64(k)*2*math.Pi/3)
			push[k] = e[k] + q/h*i[k]
		}
		next, ok := state.tried(push, 1+q/h, rd, x)
		for way := 0; !ok && way < 27; way++ {
			state = legs{way%3 - 1, way/3%3 - 1, way/9 - 1}
			next, ok = state.tried(push, 1+q/h, rd, x)
		}
		if n >= (turns-1)*parts {
			dc := (math.Abs(next[0]) + math.Abs(next[1]) + math.Abs(next[2])) / 2
			f.mean += dc / float64(parts)
			f.square += dc * dc / float64(parts)
			for k := range 3 {
				f.power += e[k] * next[k] / float64(parts)
			}
		}
		i = next
	}
	return f
}

func TestLaggingThreeStepped(t *testing.T) {
	kinds := map[lagKind]int{}
	for _, q := range []float64{0.05, 0.3, 1, 3} {
		for _, rd := range []float64{0, 0.3, 2} {
			for _, x := range []float64{0, 0.1, 0.5, 1, 1.3, 1.45, 1.51, 1.56, 1.65} {
				got, kind := laggingThree(1, 1, rd, q, x, new(track)), lag{q, rd}.three(x, new(track)).kind
				kinds[kind]++
				const parts = 6000
				turns := 3 + int(4*q)
				a, b := steppedThree(q, rd, x, turns, parts), steppedThree(q, rd, x, turns, 2*parts)
				kit.Near(t, "current", got.mean, 2*b.mean-a.mean, 1e-3)
				kit.Near(t, "power", got.power, 2*b.power-a.power, 1e-3)
				kit.Near(t, "square", got.square, 2*b.square-a.square, 2e-3)
				if t.Failed() {
					t.Fatalf("q %g, rd %g, x %g: %d, %v against %v", q, rd, x, kind, got, b)
				}
			}
		}
	}
	if len(kinds) != 4 {
		t.Errorf("only %v", kinds)
	}
}

// TestLaggingEnergy sums a period's currents by quadrature: what the emfs give is
// what x, the coils and the resistance behind the bridge take.
func TestLaggingEnergy(t *testing.T) {
	sum := func(p piece, f func(y, angle float64) float64) float64 {
		if p.r == 0 {
			return 0
		}
		const parts = 400
		total, from := 0.0, p.at0
		for n := range parts { // finer where what dies away is large
			u := float64(n+1) / parts
			to := p.at0 + (p.end.at-p.at0)*u*u*u
			total += waves.over(from, to, func(a float64) float64 { return f(p.branch.at(a).y, a) })
			from = to
		}
		return total
	}
	rnd := rand.New(rand.NewPCG(3, 1))
	for range 60 {
		l := lag{q: math.Pow(10, -2.5+3.5*rnd.Float64()), rd: 2 * rnd.Float64()}
		x := 1.73 * rnd.Float64()
		if _, ok := l.always(x); ok && x > 3*l.q/math.Hypot(1, l.q) {
			t.Errorf("three diodes at all times at q %g, rd %g, x %g", l.q, l.rd, x)
		}
		f := laggingThree(1, 1, l.rd, l.q, x, new(track))
		s := l.three(x, new(track))
		square := func(y, _ float64) float64 { return y * y }
		coils := 2*sum(s.early, square) + 2*sum(s.late, square) + 1.5*sum(s.lone, square) + 0.5*sum(s.apart, square)
		direct := sum(s.early, square) + sum(s.late, square) + sum(s.lone, square)
		kit.Near(t, "three: sum", f.power, x*f.mean+(coils+l.rd*direct)/sixth, 1e-9)
		if x < 1 {
			f, p := laggingSingle(1, 1, l.q, x), lag{q: l.q}.single(x)
			kit.Near(t, "single: sum", f.power, x*f.mean+sum(p, square)/math.Pi, 1e-9)
		}
	}
}

// TestLaggingLimits lets the reactance go: what is left is the formula without.
func TestLaggingLimits(t *testing.T) {
	for _, x := range []float64{0, 0.1, 0.5, 0.9, 1.2, 1.49, 1.51, 1.7} {
		got := laggingThree(10, 0.5, 0.1, 1e-6, 10*x, new(track))
		want := threeFlow(10, 0.5, 0.1, 10*x)
		kit.Near(t, "three: current", got.mean, want.mean, 1e-5)
		kit.Near(t, "three: power", got.power, want.power, 1e-5)
		kit.Near(t, "three: square", got.square, want.square, 1e-5)
		if x < 1 {
			got, want := laggingSingle(10, 0.5, 1e-6, 10*x), singleFlow(10, 0.5, 10*x)
			kit.Near(t, "single: current", got.mean, want.mean, 1e-5)
			kit.Near(t, "single: power", got.power, want.power, 1e-5)
		}
	}
}

func BenchmarkLagging(b *testing.B) {
	xs := []float64{0.02, 0.3, 0.6, 0.9, 1.2, 1.4, 1.52, 1.6}
	for n, k := range []struct{ q, rd float64 }{{0.1, 0}, {0.1, 0.2}, {0.5, 0.2}} {
		b.Run(fmt.Sprint("three", n), func(b *testing.B) {
			for i := range b.N {
				laggingThree(1, 1, k.rd, k.q, xs[i%8], new(track))
			}
		})
	}
	b.Run("single", func(b *testing.B) {
		for i := range b.N {
			laggingSingle(1, 1, 0.2, xs[i%8]/2)
		}
	})
	b.Run("threeFlow", func(b *testing.B) {
		for i := range b.N {
			threeFlow(1, 1, 0.2, xs[i%8])
		}
	})
}

// TestBridgesWithReactance: at ω·L/R 1 and X/E 0.5 a single phase gives 0.16215 E/R and
// 0.12210 E²/R (a circuit in time, apart from this code); without reactance each is the formula
// without, and its energies close.
func TestBridgesWithReactance(t *testing.T) {
	one := BridgeSinglePhaseInput{Emf: 10, Resistance: 0.5, Voltage: 5, Reactance: 0.5}
	b := kit.Must(BridgeSinglePhase(one))(t)
	kit.Near(t, "current", b.Current, 0.16215*20, 5e-5)
	kit.Near(t, "power", b.SourcePower, 0.12210*200, 5e-5)
	kit.Near(t, "energies", b.SourcePower, b.Power+b.ResistanceLoss+b.DiodeLoss, 1e-9)
	if one.Voltage = 0; kit.Must(BridgeSinglePhase(one))(t).Conduction != math.Pi {
		t.Error("a shorted winding conducts all the time")
	}
	three := BridgeThreePhaseInput{Emf: 10, Resistance: 0.5, Voltage: 8, DcResistance: 0.1, DiodeDrop: 0.4}
	without := kit.Must(BridgeThreePhase(three))(t)
	three.Reactance = 0.5 * 2e-6
	with := kit.Must(BridgeThreePhase(three))(t)
	kit.Near(t, "next to no reactance", with.Current, without.Current, 1e-5)
	kit.Near(t, "conduction", with.Conduction, without.Conduction, 1e-5)
	kit.Near(t, "peak", with.PeakCurrent, without.PeakCurrent, 1e-5)
	three.Reactance = 0.4
	with = kit.Must(BridgeThreePhase(three))(t)
	if with.Current >= without.Current || with.Pulse >= without.Pulse || with.Pulse < 1 {
		t.Errorf("%+v with, %+v without", with, without)
	}
	three.Reactance = -1
	_, err := BridgeThreePhase(three)
	kit.Refuses(t, err, "reactance")
}

// TestReactanceTable: how far the formula without inductance reads high, current and
// power, in percent (a circuit in time, apart from this code).
func TestReactanceTable(t *testing.T) {
	for q, row := range map[float64][8]float64{
		0.1: {0.3, 1.0, 0.6, 1.2, 1.6, 2.2, 3.2, 3.7},
		0.3: {2.9, 8.0, 4.9, 9.3, 11.7, 15.0, 20.8, 23.4},
		1.0: {28, 65, 34, 60, 68, 83, 106, 116},
	} {
		for i, x := range []float64{0.2, 0.5, 0.8, 0.9} {
			with, without := laggingSingle(1, 1, q, x), singleFlow(1, 1, x)
			kit.Within(t, "current", 100*(without.mean/with.mean-1), row[2*i], 0.06+0.02*row[2*i])
			kit.Within(t, "power", 100*(without.power/with.power-1), row[2*i+1], 0.06+0.02*row[2*i+1])
		}
	}
}
