package generator

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/internal/twobranch"
)

// TestChargeOfBothBranches holds a charge against both branches stepped in time by the
// classical method of fourth order, cold coils; energies close, and the store settles
// where its charge says.
func TestChargeOfBothBranches(t *testing.T) {
	in := lapwingCharge(t)
	in.Generator.CopperMass = 0
	in.Store.Fields = twobranch.Fields{CapacitanceSlope: new(0.45), SlowCapacitance: new(2.0), SlowResistance: new(25.0)}
	got := kit.Must(HandCharge(t.Context(), in))(t)
	kit.Near(t, "energy sum", got.Work, got.Stored+got.Copper+got.Leads+got.StoreR+got.Diodes+got.Gears+got.Drag+got.Eddy+got.Leakage+got.Settling, 1e-8)
	c0 := 20 - 0.45*0.6*13.5
	f := func(v, s float64) (dv, ds float64) {
		into := (v - s) / 25
		return (in.at(v).net - into) / (c0 + 0.45*v), into / 2
	}
	v, s := 0.0, 0.0
	const n = 4000
	h := got.Time / n
	for range n {
		a, b := f(v, s)
		c, d := f(v+h/2*a, s+h/2*b)
		e, g := f(v+h/2*c, s+h/2*d)
		p, q := f(v+h*e, s+h*g)
		v, s = v+h/6*(a+2*c+2*e+p), s+h/6*(b+2*d+2*g+q)
	}
	kit.Near(t, "voltage", v, in.To, 1e-6)
	kit.Near(t, "slow branch", *got.SlowVoltage, s, 1e-6)
	q := c0*v + 0.45*v*v/2 + 2*s
	settled := *got.SettledVoltage
	kit.Near(t, "charge", (c0+2)*settled+0.45*settled*settled/2, q, 1e-6)
}

// TestChargeOfASlowBranchThatTakesAll: where the slow branch takes nearly all that comes,
// the charge waits for it and still arrives.
func TestChargeOfASlowBranchThatTakesAll(t *testing.T) {
	in := lapwingCharge(t)
	in.Store.Capacitance = 2
	in.Store.Fields = twobranch.Fields{SlowCapacitance: new(40.0), SlowResistance: new(0.8)}
	got := kit.Must(HandCharge(t.Context(), in))(t)
	kit.Near(t, "energy sum", got.Work, got.Stored+got.Copper+got.Leads+got.StoreR+got.Diodes+got.Gears+got.Drag+got.Eddy+got.Leakage+got.Settling, 1e-7)
}

// TestChargeOfARisingCapacitance: C0 + k·V is charged in the time of the charge by the
// volt, step by step.
func TestChargeOfARisingCapacitance(t *testing.T) {
	in := lapwingCharge(t)
	in.Generator.CopperMass = 0
	in.Store.CapacitanceSlope = new(0.45)
	got := kit.Must(HandCharge(t.Context(), in))(t)
	v := kit.RungeKutta(func(v float64) float64 {
		return in.at(v).net / (20 - 0.45*0.6*13.5 + 0.45*v)
	}, 0, got.Time/4000, 4000)
	kit.Near(t, "voltage", v, in.To, 1e-6)
	if got.SlowVoltage != nil || got.Settling != 0 {
		t.Error("a store without a slow branch settles")
	}
}

func TestChargeRefusesBranches(t *testing.T) {
	in := lapwingCharge(t)
	in.Store.CapacitanceSlope = new(9.0)
	_, err := HandCharge(t.Context(), in)
	kit.Refuses(t, err, "store.capacitance_slope")
	_, err = ChargeCeiling(t.Context(), ChargeCeilingInput{Generator: in.Generator, Store: in.Store, Cadence: in.Cadence, Gearing: 12, GearEfficiency: 0.9})
	kit.Refuses(t, err, "store.capacitance_slope")
	in.Store.CapacitanceSlope, in.Store.SlowResistance = nil, new(5.0)
	_, err = HandCharge(t.Context(), in)
	kit.Refuses(t, err, "store.slow_capacitance")
}

// TestPlausibleBranchedCharges: energies close whatever the branches, the store settles
// between them, and a thousandth more of a branch moves the time by no more than a few.
func TestPlausibleBranchedCharges(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 2026))
	arrived := 0
	for n := range *sets {
		in := plausible(r)
		c := in.Store.Capacitance
		in.Store.CapacitanceSlope = new(0.8 * r.Float64() * c / *in.Store.RatedVoltage)
		in.Store.SlowCapacitance = new(c * (0.02 + 0.3*r.Float64()))
		in.Store.SlowResistance = new((20 + 200*r.Float64()) / *in.Store.SlowCapacitance)
		h, err := HandCharge(t.Context(), in)
		if err != nil {
			refused(t, in, err)
			continue
		}
		arrived++
		sum := h.Stored + h.Copper + h.Leads + h.StoreR + h.Diodes + h.Gears + h.Drag + h.Eddy + h.Leakage + h.Settling
		kit.Near(t, fmt.Sprintf("set %d: energy sum", n), h.Work, sum, 1e-6)
		finite(t, h.Time, h.Work, h.Settling, *h.SlowVoltage, *h.SettledVoltage)
		if !(*h.SlowVoltage <= *h.SettledVoltage && *h.SettledVoltage <= in.To && h.Settling >= 0) {
			t.Errorf("set %d: %g V and %g V settle at %g V", n, *h.SlowVoltage, in.To, *h.SettledVoltage)
		}
		if end := in.at(in.To); in.To > 0.92*h.Ceiling || end.net < 0.5*end.mean {
			continue
		}
		in.Store.SlowCapacitance = new(*in.Store.SlowCapacitance * 1.001)
		in.Store.CapacitanceSlope = new(*in.Store.CapacitanceSlope * 1.001)
		kit.Near(t, fmt.Sprintf("set %d: time", n), kit.Must(HandCharge(t.Context(), in))(t).Time, h.Time, 0.01)
	}
	if arrived < *sets/8 {
		t.Error("few arrive")
	}
}

func BenchmarkHandChargeOfBothBranches(b *testing.B) {
	in := lapwingCharge(b)
	in.Store.Fields = twobranch.Fields{CapacitanceSlope: new(0.45), SlowCapacitance: new(2.0), SlowResistance: new(25.0)}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := HandCharge(b.Context(), in); err != nil {
			b.Fatal(err)
		}
	}
}
