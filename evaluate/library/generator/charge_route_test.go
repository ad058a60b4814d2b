package generator

import (
	"context"
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"inkwing/evaluate/library/internal/kit"
)

// TestChargeLossesByResistance: one current flows through leads and store, so
// their losses are as their resistances, and what has none loses nothing.
func TestChargeLossesByResistance(t *testing.T) {
	in := lapwingCharge(t)
	in.Generator.LeadResistance, in.Store.Resistance = 30e-3, 90e-3
	got := kit.Must(HandCharge(t.Context(), in))(t)
	kit.Near(t, "three times the resistance", got.StoreR, 3*got.Leads, 1e-9)
	in.Generator.LeadResistance, in.Store.Resistance = 0, 90e-3
	if got := kit.Must(HandCharge(t.Context(), in))(t); got.Leads != 0 || !(got.StoreR > 0) {
		t.Errorf("leads without resistance lose %g J, the store %g J", got.Leads, got.StoreR)
	}
}

// TestChargeNearItsCeiling charges to a hundredth of a volt below it, where the
// current dies as the power 3/2 of what is left. The independent route puts
// u = 1/√(ceiling − v), by which what is integrated is smooth.
func TestChargeNearItsCeiling(t *testing.T) {
	m := Machine{PhaseConstant: 0.1, CeilingConstant: 0.1, PhaseResistance: 0.5, DiodeDrop: 0.7, Phases: 1, Rectifiers: "common", Bridges: 1, Poles: 2}
	in := HandChargeInput{Generator: m, Store: ChargedStore{Capacitance: 10}, To: 8.59, Cadence: 100, Gearing: 1, GearEfficiency: 1}
	const ceiling = 8.6
	u := func(v float64) float64 { return 1 / math.Sqrt(ceiling-v) }
	want := quad.Fixed(func(u float64) float64 {
		return 10 / in.at(ceiling-1/(u*u)).net * 2 / (u * u * u)
	}, u(0), u(8.59), 400, nil, 0)
	kit.Near(t, "time", kit.Must(HandCharge(t.Context(), in))(t).Time, want, 2e-9)
}

// TestStallNamesTurns: without leak and limits the bare minimum of turns puts
// the ceiling at the target; what is named is whole, and the next above a
// twentieth more.
func TestStallNamesTurns(t *testing.T) {
	in := lapwingCharge(t)
	in.PowerLimit, in.TorqueLimit, in.Store.LeakageResistance = nil, nil, nil
	for cadence := 20.0; cadence < 40; cadence++ {
		in.Cadence = cadence * rpm
		e := in.stalls(t)
		bare := in.Generator.Turns * (in.To + 2*in.Generator.leastDrop()) / (in.Generator.CeilingConstant * in.Cadence * in.Gearing)
		if got := e.Values[5].Number; got != math.Trunc(got) || got < 1.05*bare || got >= 1.05*bare+1 {
			t.Errorf("%g rpm: %g turns, the bare minimum is %g", cadence, got, bare)
		}
	}
}

// TestEndsWithTheContext: what integrates ends when the run does.
func TestEndsWithTheContext(t *testing.T) {
	over, cancel := context.WithCancel(t.Context())
	cancel()
	in := lapwingCharge(t)
	_, charge := HandCharge(over, in)
	_, groups := Groupings(over, GroupingsInput{in})
	_, top := ChargeCeiling(over, ChargeCeilingInput{Generator: in.Generator, Store: in.Store, Cadence: in.Cadence, Gearing: in.Gearing, To: new(12.5), GearEfficiency: 1})
	for name, err := range map[string]error{"hand_charge": charge, "groupings": groups, "charge_ceiling": top} {
		if !errors.Is(err, context.Canceled) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestTorqueLimitAtTheDrag: an arm that has nothing left beyond the drag is
// refused, and told of which of the two it is.
func TestTorqueLimitAtTheDrag(t *testing.T) {
	in := lapwingCharge(t)
	in.TorqueLimit, in.Store.LeakageResistance, in.Generator.EddyConstant = &in.Drag, nil, 0
	for in.To = 1; in.To < 14; in.To++ {
		_, err := HandCharge(t.Context(), in)
		kit.Refuses(t, err, "torque_limit")
	}
	// Hardly more is enough to charge by, however slowly.
	in.TorqueLimit, in.To = new(in.Drag*1.01), 2
	if h := kit.Must(HandCharge(t.Context(), in))(t); h.PeakTorque > in.Drag*1.01*(1+1e-9) {
		t.Errorf("%g N·m", h.PeakTorque)
	}
}
