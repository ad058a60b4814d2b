package energy

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// ChargeTimeInput is a store charged at constant power.
type ChargeTimeInput struct {
	Store      Store   `help:"with its resistance"`
	To         float64 `unit:"V" range:"(0,)" help:"rested, at the end"`
	Power      float64 `unit:"W" range:"(0,)" help:"into the store's terminals, held constant" symbol:"P"`
	From       float64 `unit:"V" range:"[0,)" default:"0 V" help:"rested, at the start"`
	Efficiency float64 `unit:"%" range:"(0,100]" default:"100 %" help:"from the crank to the terminals" symbol:"eta"`
}

// ChargeTimeResult is how that goes.
type ChargeTimeResult struct {
	Time       float64 `unit:"s" show:"1" symbol:"t"`
	Stored     float64 `unit:"J" show:"2" help:"in the store, beyond what was there"`
	Loss       float64 `unit:"J" help:"in the store's own resistances"`
	CrankPower float64 `unit:"W" show:"3" help:"that the arm gives"`
	Work       float64 `unit:"J" show:"4" help:"that the arm gives altogether"`
	model.Cautions
}

// ChargeTime is how long a store charges at constant power: a first guess,
// before there is a generator for hand_charge.
//
// Formula: I = (√(V² + 4·P·R) − V)/(2·R) at every V, from V1 to V2 t = C0/(2·P)·q + k/(6·P)·(V2³ + s2³ − V1³ − s1³), q = ½·(V2² − V1² + V2·s2 − V1·s1 + 4·P·R·ln((V2 + s2)/(V1 + s1))), s1 = √(V1² + 4·P·R), s2 = √(V2² + 4·P·R); without resistance t = C0·(V2² − V1²)/(2·P) + k·(V2³ − V1³)/(3·P); C0 = C − 0.6·k·V_rated; stored E = C0·(V2² − V1²)/2 + k·(V2³ − V1³)/3; lost E_lost = P·t − E; crank power P_crank = P/η; W = P_crank·t.
//
// Letters: P power; V1 from; V2 to; η efficiency; C store.capacitance; k store.capacitance_slope or 0 F/V; R store.resistance; V_rated store.rated_voltage; t = time; E = stored; E_lost = loss; P_crank = crank_power; W = work.
//
// Validity: with a capacitance_slope C is C0 + k·V within the integral, and a slow branch is stepped along; a power that is the same at every voltage, which a generator alone never gives: it starts strong and ends weak.
//
// Source: energy balance, textbook.
//
// Example:
//
//	cell = capacitor(capacitance: 250 F, rated_voltage: 2.7 V, resistance: 4 mΩ, tolerance: 3 %)
//	first = charge_time(pack(cell, series: 5), to: 12.5 V, power: 20 W, efficiency: 60 %)
func ChargeTime(in ChargeTimeInput) (ChargeTimeResult, error) {
	err := require.All(in.Store.check("store"), require.Positive("to", in.To, "V"),
		require.Positive("power", in.Power, "W"), require.NotNegative("from", in.From, "V"),
		require.Efficiency("efficiency", in.Efficiency))
	switch {
	case err != nil:
		return ChargeTimeResult{}, err
	case in.From >= in.To:
		return ChargeTimeResult{}, &model.Error{
			Field: "to", Summary: "is {0}, which is not above the start at {1}",
			Values: []model.Value{model.In(in.To, "V"), model.In(in.From, "V")}, Hint: "let it lie above the start",
		}
	}
	a := 2 * math.Sqrt(in.Power*in.Store.Resistance)
	out := ChargeTimeResult{
		CrankPower: in.Power / in.Efficiency,
	}
	if out.Time, out.Stored, err = in.fill(a); err != nil {
		return ChargeTimeResult{}, err
	}
	out.Loss = max(0, in.Power*out.Time-out.Stored)
	out.Work = out.CrankPower * out.Time
	out.List = in.Store.Charged(in.To)
	return out, nil
}

// fill is the time from one voltage to the other, and what is stored then; a² is
// four times the power by the resistance.
func (in ChargeTimeInput) fill(a float64) (time, stored float64, err error) {
	l := in.Store.law()
	if l.Lags() {
		return in.fillSlowly(l, a)
	}
	time = l.C0 / (2 * in.Power) * (chargeArea(in.To, a) - chargeArea(in.From, a))
	time += l.Slope / (2 * in.Power) * (risingArea(in.To, a) - risingArea(in.From, a))
	return time, l.Energy(in.From, in.To), nil
}

// risingArea is the integral of v·(v + √(v² + a²)) from 0, and a³/3 more.
func risingArea(v, a float64) float64 { return (v*v*v + math.Pow(math.Hypot(v, a), 3)) / 3 }

// chargeArea is the integral of v + √(v² + a²) from 0.
func chargeArea(v, a float64) float64 {
	if a == 0 {
		return v * v
	}
	return (v*v + v*math.Hypot(v, a) + a*a*math.Asinh(v/a)) / 2
}
