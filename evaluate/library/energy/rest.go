package energy

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// SelfDischargeInput is a store left alone.
type SelfDischargeInput struct {
	Capacitance float64  `unit:"F" range:"(0,)" help:"taken as constant" symbol:"C"`
	Voltage     float64  `unit:"V" range:"[0,)" help:"at the start" symbol:"V"`
	Time        float64  `unit:"h" range:"[0,)" help:"left alone" symbol:"t"`
	Resistance  *float64 `unit:"Ω" range:"(0,)" choose:"leak" help:"across the store, or its leakage taken as one" symbol:"R"`
	Current     *float64 `unit:"µA" range:"[0,)" choose:"leak" help:"constant leakage" symbol:"I"`
}

// SelfDischargeResult is what is left.
type SelfDischargeResult struct {
	Voltage float64 `unit:"V" help:"after the time" symbol:"V"`
}

// SelfDischarge is the voltage that a store keeps, through a resistance across
// it or with a constant leakage current.
//
// Formula: resistance: V = V0·e^(−t/(R·C)); current: V = V0 − I·t/C, not below zero.
//
// Letters: V0 voltage; t time; R resistance; C capacitance; I current; V = result.
//
// Validity: real cells redistribute their charge first, which looks like a fast leak, and leak slowly afterwards.
//
// Source: textbook.
//
// Example:
//
//	V_morning [V] = self_discharge(capacitance: 10 F, voltage: 2.5 V, time: 24 h, resistance: 20 kΩ)
func SelfDischarge(in SelfDischargeInput) (SelfDischargeResult, error) {
	if err := require.Positive("capacitance", in.Capacitance, "F"); err != nil {
		return SelfDischargeResult{}, err
	}
	switch {
	case in.Resistance != nil && in.Current == nil:
		tau := *in.Resistance * in.Capacitance
		return SelfDischargeResult{in.Voltage * math.Exp(-in.Time/tau)}, require.Positive("resistance", *in.Resistance, "Ω")
	case in.Current != nil && in.Resistance == nil:
		return SelfDischargeResult{max(0, in.Voltage-*in.Current*in.Time/in.Capacitance)}, nil
	}
	return SelfDischargeResult{}, &model.Error{
		Summary: "exactly one of resistance and current says how the store leaks",
		Hint:    "give one of the two",
	}
}

// SettledVoltageInput is a store right after a fast charge.
type SettledVoltageInput struct {
	Store       Store    `help:"the pack, with its slow branch or its settling"`
	Voltage     float64  `unit:"V" range:"[0,)" help:"rested, right after the charge" symbol:"V"`
	SlowVoltage float64  `unit:"V" range:"[0,)" default:"0 V" help:"of the slow branch then, if the store has one; hand_charge says it"`
	Time        *float64 `unit:"s" range:"[0,)" help:"after which, with a slow branch; when all is over if not given" symbol:"t"`
}

// SettledVoltageResult is where it settles.
type SettledVoltageResult struct {
	Voltage float64 `unit:"V" help:"some minutes later" symbol:"V"`
	model.Cautions
}

// SettledVoltage is what a fast charge leaves once the charge has spread into
// the depth of the electrodes.
//
// Formula: with a slow branch the charge stays, C0·V_e + k·V_e²/2 + C_slow·V_e = C0·V + k·V²/2 + C_slow·V_slow in the end, C0 = C − 0.6·k·V_rated, and V − V_slow dies by ∫ dt/(R_slow·C·C_slow/(C + C_slow)); without one V_e = V·(1 − s), s the settling.
//
// Letters: V voltage; s store.settling; V_slow slow_voltage; C store.capacitance; k store.capacitance_slope or 0 F/V; C_slow store.slow_capacitance; V_rated store.rated_voltage; V_e = result.
//
// Validity: settling is measured: a few per cent after a charge of a minute or two, less after a slow one; leakage neglected.
//
// Source: L. Zubieta, R. Bonert, IEEE Trans. Ind. Appl. 36 (2000) 199, from memory; the share: common practice.
//
// Example:
//
//	cell = capacitor(capacitance: 50 F, rated_voltage: 2.7 V, settling: 4 %)
//	V_launch [V] = settled_voltage(cell, voltage: 2.5 V)
func SettledVoltage(in SettledVoltageInput) (SettledVoltageResult, error) {
	if err := in.Store.check("store"); err != nil {
		return SettledVoltageResult{}, err
	}
	if err := require.All(require.NotNegative("voltage", in.Voltage, "V"), require.NotNegative("slow_voltage", in.SlowVoltage, "V")); err != nil {
		return SettledVoltageResult{}, err
	}
	out := SettledVoltageResult{}
	var err error
	if out.Voltage, err = in.settled(); err != nil {
		return SettledVoltageResult{}, err
	}
	out.List = in.Store.Charged(in.Voltage)
	if out.Voltage < in.Voltage {
		out.Raise(settles(in.Voltage, out.Voltage))
	}
	return out, nil
}

func settles(from, to float64) model.Caution {
	return model.Caution{
		ID: "settles-after-charge", Level: model.Advice,
		Summary: "After a fast charge {0} settles to {1}.",
		Values:  []model.Value{model.In(from, "V"), model.In(to, "V")},
		Why:     "The charge spreads into the depth of the electrodes; the meter shows more than will fly.",
		Hint:    "Launch at once, or top up before.",
		Source:  "L. Zubieta, R. Bonert, IEEE Trans. Ind. Appl. 36 (2000) 199, from memory",
	}
}

// SafeDischargeInput is a store that shall be emptied for work or transport.
type SafeDischargeInput struct {
	Capacitance float64  `unit:"F" range:"(0,)" help:"of the store" symbol:"C"`
	Voltage     float64  `unit:"V" range:"(0,)" help:"that it stands at" symbol:"V"`
	Resistance  float64  `unit:"Ω" range:"(0,)" help:"of the resistor, and the store's own if that counts" symbol:"R"`
	To          float64  `unit:"V" range:"(0,)" default:"0.1 V" help:"at which it counts as empty"`
	Rating      *float64 `unit:"W" range:"(0,)" help:"of the resistor"`
}

// SafeDischargeResult is how that goes.
type SafeDischargeResult struct {
	Time        float64 `unit:"s" show:"1" help:"until it counts as empty" symbol:"t"`
	PeakPower   float64 `unit:"W" show:"2" help:"in the resistor, at the start"`
	PeakCurrent float64 `unit:"A" show:"3" help:"at the start"`
	Heat        float64 `unit:"J" show:"4" help:"in the resistor, altogether"`
	model.Cautions
}

// SafeDischarge is how a resistor empties a store before work on it.
//
// Formula: t = R·C·ln(V/V_end); I = V/R; peak power P = V²/R; heat E = C·(V² − V_end²)/2.
//
// Letters: R resistance; C capacitance; V voltage; V_end to; t = time; I = peak_current; P = peak_power; E = heat.
//
// Validity: constant capacitance; the last tenths of a volt come back, since charge from the depth of the electrodes follows.
//
// Source: textbook.
//
// Example:
//
//	empty = safe_discharge(capacitance: 12.5 F, voltage: 10 V, resistance: 22 Ω, rating: 5 W)
func SafeDischarge(in SafeDischargeInput) (SafeDischargeResult, error) {
	err := require.All(require.Positive("capacitance", in.Capacitance, "F"),
		require.Positive("resistance", in.Resistance, "Ω"), require.Positive("to", in.To, "V"))
	if err != nil {
		return SafeDischargeResult{}, err
	}
	if in.Voltage < in.To {
		return SafeDischargeResult{}, require.NotFalling("voltage", in.Voltage, in.To)
	}
	v, r := in.Voltage, in.Resistance
	out := SafeDischargeResult{
		Time:        r * in.Capacitance * math.Log(v/in.To),
		PeakPower:   v * v / r,
		PeakCurrent: v / r,
		Heat:        in.Capacitance * (v - in.To) * (v + in.To) / 2,
	}
	if in.Rating != nil && out.PeakPower > *in.Rating {
		out.Raise(resistorOverRating(out.PeakPower, *in.Rating, v*v / *in.Rating))
	}
	out.Raise(residualCharge())
	return out, nil
}

func resistorOverRating(peak, rating, mend float64) model.Caution {
	return model.Caution{
		ID: "resistor-over-rating", Level: model.Danger,
		Summary: "The resistor takes {0} and is rated for {1}.",
		Values:  []model.Value{model.In(peak, "W"), model.In(rating, "W"), model.In(mend, "Ω")},
		Why:     "It takes that at the start, can burn fingers and what it lies on, and fail before the store is empty; one of a higher rating bears it.",
		Hint:    "Take {2} or more, off what burns.",
		Source:  practice,
	}
}
