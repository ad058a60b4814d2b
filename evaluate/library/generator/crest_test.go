package generator

import (
	"math"
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/internal/twobranch"
)

// TestArmMeetsTheFirstLimit: where reactance is large, torque has a crest and a limit may be
// met twice. An arm that speeds up from rest is held where it meets one first: that is looked for
// in small steps of cadence, at voltages one after the other, each found from those before.
func TestArmMeetsTheFirstLimit(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 12))
	between := func(a, b float64) float64 { return a * math.Pow(b/a, random.Float64()) }
	held, crests := 0, 0
	for range 30 {
		m := Machine{PhaseConstant: 0.05, CeilingConstant: 0.05, PhaseResistance: between(0.3, 3), PhaseInductance: between(0.2e-3, 20e-3), DiodeDrop: 0.4,
			Phases: 1, Rectifiers: "common", Bridges: 1, Poles: 12}
		if random.IntN(2) == 0 {
			m.Phases, m.CeilingConstant = 3, 0.05*math.Sqrt(3)
		}
		in := &HandChargeInput{Generator: m, Store: ChargedStore{Capacitance: 10}, Cadence: 8, Gearing: between(5, 60), GearEfficiency: 0.9,
			Drag: between(0.01, 0.3)}
		in.Generator.EddyConstant = between(1e-7, 1e-5)
		a, limit, work := in.arm(in.start()), 0.0, 0.0
		if random.IntN(2) == 0 {
			work = between(5, 60)
			in.PowerLimit = &work
		}
		top := m.ceiling(in.Cadence * in.Gearing)
		for k := range 100 { // a limit that is a part of the crest half way
			limit = max(limit, a.turning(top/2, in.Cadence*float64(k+1)/100).torque)
		}
		limit *= 0.3 + 0.8*random.Float64()
		in.TorqueLimit = &limit
		for k := range 12 {
			v := top * float64(k) / 12
			p, first, falls := a.at(v), firstMet(in, v), false
			if math.Abs(p.cadence-first) > in.Cadence/firstSteps {
				t.Errorf("at %g V of %g the cadence is %g, and a limit is met at %g first", v, top, p.cadence, first)
			}
			if first < in.Cadence {
				held++
				falls = a.turning(v, in.Cadence).torque < limit
			}
			if falls {
				crests++
			}
		}
	}
	if held < 60 || crests < 12 {
		t.Errorf("limits held %d times, %d times below a crest", held, crests)
	}
}

const firstSteps = 2000

// firstMet is the cadence at which a limit is met first, in so many steps.
func firstMet(in *HandChargeInput, v float64) float64 {
	a, before := in.arm(in.start()), -1.0
	for i := 1; i <= firstSteps; i++ {
		c := in.Cadence * float64(i) / firstSteps
		over := in.over(a.turning(v, c))
		if over > 0 {
			return c - in.Cadence/firstSteps*over/(over-before)
		}
		before = over
	}
	return in.Cadence
}

// TestChargeBySteps follows charges by series and by steps, which share nothing but the arm: with
// a slow branch quick and slow, coils that warm and ones that cool at once, and limits that cease
// to hold on the way, where steps begin anew.
func TestChargeBySteps(t *testing.T) {
	in := lapwingCharge(t)
	for _, slow := range []*float64{nil, new(0.8), new(5.0), new(60.0)} {
		for _, shed := range []float64{0, 0.5, 5} {
			in.Store.Fields = twobranch.Fields{}
			if slow != nil {
				in.Store.Fields = twobranch.Fields{SlowCapacitance: new(3.0), SlowResistance: slow}
			}
			in.HeatLoss = &shed
			start := make([]float64, in.Store.states())
			start[iKelvin] = in.start()
			got, ok := in.collocated(t.Context(), in.From, in.To, start)
			want, looks := start, 0
			for from, joints := in.From, append(got.joints(), in.To); len(joints) > 0; from, joints = joints[0], joints[1:] {
				c := kit.Must(in.steps(t.Context(), from, joints[0], want))(t)
				want, looks = c.y, looks+c.looks
			}
			if !ok {
				t.Fatalf("no series with a slow branch of %v and %g W/K", slow, shed)
			}
			kit.Near(t, "time", got.y[iTime], want[iTime], 2e-8)
			kit.Near(t, "work", got.y[iWork], want[iWork], 2e-8)
			kit.Near(t, "temperature", got.y[iKelvin], want[iKelvin], 2e-8)
			if slow != nil {
				kit.Near(t, "slow branch", got.y[iSlow], want[iSlow], 2e-8)
			}
			if got.looks > looks/2 {
				t.Errorf("a slow branch of %v and %g W/K: %d looks by series, %d by steps", slow, shed, got.looks, looks)
			}
		}
	}
}
