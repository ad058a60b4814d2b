package twobranch_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/internal/twobranch"
)

func of(v float64) *float64 { return &v }

// TestSettled: 15 F and 1.8 F that stands empty settle from 12.5 V at
// 12.5 V·15/16.8 (conservation of charge; worked by hand).
func TestSettled(t *testing.T) {
	f := twobranch.Fields{SlowCapacitance: of(1.8), SlowResistance: of(30)}
	l := f.Law(15, nil)
	kit.Within(t, "settled", l.Settled(12.5, 0), 11.1607, 5e-5)
	kit.Near(t, "time", l.Time(5), 30*15*1.8/16.8, kit.Exact)
	kit.Near(t, "settled already", l.Settled(7, 7), 7, kit.Exact)
}

// TestChargeAndEnergy holds both against sums over small steps of the voltage.
func TestChargeAndEnergy(t *testing.T) {
	l := twobranch.Fields{CapacitanceSlope: of(12.0)}.Law(60, of(2.7))
	kit.Near(t, "at 60 % of the rating", l.At(1.62), 60, kit.Exact)
	const n = 20_000
	charge, energy := 0.0, 0.0
	for i := range n {
		v := 0.4 + (2.5-0.4)*(float64(i)+0.5)/n
		dq := l.At(v) * (2.5 - 0.4) / n
		charge, energy = charge+dq, energy+v*dq
	}
	kit.Near(t, "charge", l.Charge(0.4, 2.5), charge, 1e-8)
	kit.Near(t, "energy", l.Energy(0.4, 2.5), energy, 1e-8)
}

// TestStandardCapacitance: between 80 % and 40 % of the rating, where IEC 62391-1
// measures, the charge by the volt is the record's capacitance.
func TestStandardCapacitance(t *testing.T) {
	l := twobranch.Fields{CapacitanceSlope: of(12.0)}.Law(60, of(2.7))
	kit.Near(t, "capacitance", l.Charge(0.4*2.7, 0.8*2.7)/(0.4*2.7), 60, kit.Exact)
}

// TestJoined: a pack's cells, each with its own branches, hold what the pack does.
func TestJoined(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	for range 200 {
		ns, np := float64(1+r.IntN(6)), float64(1+r.IntN(3))
		cell := twobranch.Fields{CapacitanceSlope: of(12 * r.Float64()), SlowCapacitance: of(1 + 9*r.Float64()), SlowResistance: of(5 + 20*r.Float64())}
		one, all := cell.Law(60, of(2.7)), cell.Joined(ns, np).Law(60*np/ns, of(2.7*ns))
		v, slow := 2.7*r.Float64(), 2.7*r.Float64()
		kit.Near(t, "energy", all.Held(ns*v, ns*slow), ns*np*one.Held(v, slow), 1e-12)
		kit.Near(t, "settled", all.Settled(ns*v, ns*slow), ns*one.Settled(v, slow), 1e-12)
		kit.Near(t, "time", all.Time(ns*v), one.Time(v), 1e-12)
		kit.Near(t, "flow", all.Into(ns*v, ns*slow), np*one.Into(v, slow), 1e-9)
	}
}

// TestSettledKeepsTheCharge: what flows from one branch is in the other.
func TestSettledKeepsTheCharge(t *testing.T) {
	l := twobranch.Fields{CapacitanceSlope: of(12.0), SlowCapacitance: of(8), SlowResistance: of(10)}.Law(60, of(2.7))
	end := l.Settled(2.5, 0.3)
	kit.Near(t, "charge", l.Charge(0, end)+8*end, l.Charge(0, 2.5)+8*0.3, 1e-12)
	if lost := l.Held(2.5, 0.3) - l.Held(end, end); !(lost > 0) {
		t.Errorf("settling loses %v J", lost)
	}
}

func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		field string
		of    twobranch.Fields
		rated *float64
	}{
		{"capacitance_slope", twobranch.Fields{CapacitanceSlope: of(-1.0)}, of(2.7)},
		{"capacitance_slope", twobranch.Fields{CapacitanceSlope: of(math.NaN())}, of(2.7)},
		{"capacitance_slope", twobranch.Fields{CapacitanceSlope: of(40.0)}, of(2.7)},
		{"rated_voltage", twobranch.Fields{CapacitanceSlope: of(4.0)}, nil},
		{"slow_resistance", twobranch.Fields{SlowCapacitance: of(5)}, of(2.7)},
		{"slow_capacitance", twobranch.Fields{SlowResistance: of(5)}, of(2.7)},
		{"slow_capacitance", twobranch.Fields{SlowCapacitance: of(0), SlowResistance: of(5)}, of(2.7)},
		{"slow_resistance", twobranch.Fields{SlowCapacitance: of(5), SlowResistance: of(-5)}, of(2.7)},
		{"slow_resistance", twobranch.Fields{SlowCapacitance: of(5), SlowResistance: of(0.1)}, of(2.7)},
	} {
		kit.Refuses(t, c.of.Check(60, c.rated), c.field)
	}
	if err := (twobranch.Fields{CapacitanceSlope: of(12.0), SlowCapacitance: of(5), SlowResistance: of(10)}).Check(60, of(2.7)); err != nil {
		t.Error(err)
	}
	if err := (twobranch.Fields{}).Check(60, nil); err != nil {
		t.Error(err)
	}
}
