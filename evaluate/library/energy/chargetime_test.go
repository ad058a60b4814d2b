package energy

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// TestChargeTimePublished: 50 F from 0 to 5 V at 20 W, 60 % from the crank: 625 J,
// 31.25 s, 33.33 W and 1041.67 J (energy balance).
func TestChargeTimePublished(t *testing.T) {
	const source = "energy balance, textbook"
	store := Store{Capacitance: 50, RatedVoltage: 5.4, Series: 2}
	got := kit.Must(ChargeTime(ChargeTimeInput{Store: store, To: 5, Power: 20, Efficiency: 0.6}))(t)
	kit.Near(t, source, got.Stored, 625, kit.Exact)
	kit.Near(t, source, got.Time, 31.25, kit.Exact)
	kit.Near(t, source, got.CrankPower, 33.33, 2e-4)
	kit.Near(t, source, got.Work, 1041.67, 5e-6)
	kit.Near(t, source, got.Loss, 0, kit.Exact)
}

// TestChargeTimeStepped steps the voltage, with the current that the power
// drives into store and resistance.
func TestChargeTimeStepped(t *testing.T) {
	for _, r := range []float64{1e-9, 0.05, 2} {
		store := Store{Capacitance: 20, RatedVoltage: 13.5, Resistance: r, Series: 5}
		got := kit.Must(ChargeTime(ChargeTimeInput{Store: store, From: 1, To: 12, Power: 25, Efficiency: 1}))(t)
		rise := func(v float64) float64 { return 2 * 25 / (v + math.Sqrt(v*v+100*r)) / 20 }
		kit.Near(t, "stepped", kit.RungeKutta(rise, 1, got.Time/4000, 4000), 12, 1e-9)
		kit.Near(t, "energy", got.Work, got.Stored+got.Loss, kit.Exact)
	}
	over := kit.Must(ChargeTime(ChargeTimeInput{Store: Store{Capacitance: 20, RatedVoltage: 2.7, Series: 1}, To: 3, Power: 5, Efficiency: 1}))(t)
	if !kit.Raised(over.List, "store-over-rating") {
		t.Errorf("3 V in a cell of 2.7 V raises %v", over.List)
	}
}

func TestChargeTimeRefuses(t *testing.T) {
	store := Store{Capacitance: 20, RatedVoltage: 2.7, Series: 1}
	for field, in := range map[string]ChargeTimeInput{
		"to":         {Store: store, From: 2, To: 2, Power: 5, Efficiency: 1},
		"from":       {Store: store, From: -1, To: 2, Power: 5, Efficiency: 1},
		"power":      {Store: store, To: 2, Efficiency: 1},
		"efficiency": {Store: store, To: 2, Power: 5, Efficiency: 1.1},
	} {
		_, err := ChargeTime(in)
		kit.Refuses(t, err, field)
	}
}
