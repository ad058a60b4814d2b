package workshop

import (
	"math"

	"inkwing/evaluate/library/internal/eseries"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// PreferredValueInput is a value that was worked, and what parts come in.
type PreferredValueInput struct {
	Value     float64 `dim:"x" range:"(0,)" help:"wanted: a resistance, a capacitance"`
	Series    string  `values:"E3 E6 E12 E24 E48 E96 E192" default:"E24" help:"how many values a decade has"`
	Direction string  `values:"nearest up down" default:"nearest" help:"by ratio; up is the least that is not below, down the greatest that is not above"`
}

// PreferredValueResult is the value to buy.
type PreferredValueResult struct {
	Value float64 `dim:"x"`
}

// PreferredValue is the value nearest to one that was worked in which resistors and
// capacitors are made, or the next one up or down.
//
// Formula: 10^(k/n) of a decade in n steps, rounded to two digits (E3 to E24) or three (E48 to E192); by the standard's list, which departs from that at 27, 30, 33, 36, 39, 43, 47, 82 and 9.20.
//
// Validity: any decade; E24 is stocked with 5 % or better, E96 with 1 %.
//
// Source: IEC 60063, from memory.
//
// Example:
//
//	R_bleed [kΩ] = preferred_value(4.2 kΩ, series: "E12", direction: "down")
func PreferredValue(in PreferredValueInput) (PreferredValueResult, error) {
	if !(in.Value > 0) || math.IsInf(in.Value, 0) {
		return PreferredValueResult{}, &model.Error{Field: "value", Summary: "must be above zero", Hint: "give the value that was worked, as in 4.2 kΩ"}
	}
	down, up, ok := eseries.Around(in.Series, in.Value)
	if !ok {
		return PreferredValueResult{}, &model.Error{Field: "series", Summary: "is none of E3, E6, E12, E24, E48, E96 and E192", Hint: "write it as in series: \"E24\""}
	}
	switch {
	case in.Direction == "down", in.Direction == "nearest" && in.Value*in.Value <= down*up:
		return PreferredValueResult{down}, nil
	}
	return PreferredValueResult{up}, nil
}

// BleedResistorInput is a store that a resistor shall empty within a time.
type BleedResistorInput struct {
	Capacitance float64 `unit:"F" range:"(0,)" help:"of the store" symbol:"C"`
	Voltage     float64 `unit:"V" range:"(0,)" help:"that it stands at" symbol:"V"`
	Time        float64 `unit:"s" range:"(0,)" help:"within which it shall be empty" symbol:"t"`
	To          float64 `unit:"V" range:"(0,)" default:"0.1 V" help:"at which it counts as empty"`
	Series      string  `values:"E3 E6 E12 E24 E48 E96 E192" default:"E12" help:"of the resistor"`
}

// BleedResistorResult is the resistor to take.
type BleedResistorResult struct {
	Resistance float64 `unit:"Ω" show:"1" help:"to buy: the next value down" symbol:"R"`
	Rating     float64 `unit:"W" show:"2" help:"of the resistor at least: twice the power at the start"`
	Time       float64 `unit:"s" show:"3" help:"that it takes" symbol:"t"`
	PeakPower  float64 `unit:"W" help:"in the resistor, at the start"`
	Heat       float64 `unit:"J" help:"in the resistor, altogether"`
	model.Cautions
}

// BleedResistor is the resistor to buy that empties a store within a time.
//
// Formula: R ≤ t_most/(C·ln(V/V_end)), the next value down; t = R·C·ln(V/V_end); peak power P = V²/R, rating P_r = 2·P; heat E = C·(V² − V_end²)/2.
//
// Letters: C capacitance; V voltage; t_most time; V_end to; R = resistance; t = time; P = peak_power; P_r = rating; E = heat.
//
// Validity: constant capacitance; the last tenths of a volt come back from the depth of the electrodes.
//
// Source: V·e^(−t/(R·C)), textbook; IEC 60063, from memory; twice the power: common practice.
//
// Example:
//
//	empty = bleed_resistor(20 F, 12.5 V, time: 10 min)
//	R [Ω] = empty.resistance
func BleedResistor(in BleedResistorInput) (BleedResistorResult, error) {
	err := require.All(require.Positive("capacitance", in.Capacitance, "F"), require.Positive("voltage", in.Voltage, "V"),
		require.Positive("time", in.Time, "s"), require.Positive("to", in.To, "V"))
	if err != nil {
		return BleedResistorResult{}, err
	}
	if in.To >= in.Voltage {
		return BleedResistorResult{}, require.NotFalling("voltage", in.Voltage, in.To)
	}
	falls := in.Capacitance * math.Log(in.Voltage/in.To)
	value, err := PreferredValue(PreferredValueInput{Value: in.Time / falls, Series: in.Series, Direction: "down"})
	if err != nil {
		return BleedResistorResult{}, err
	}
	r := value.Value
	out := BleedResistorResult{Resistance: r, Time: r * falls, PeakPower: in.Voltage * in.Voltage / r,
		Heat: in.Capacitance * (in.Voltage - in.To) * (in.Voltage + in.To) / 2}
	out.Rating = 2 * out.PeakPower
	if out.PeakPower > hotResistor {
		out.Raise(resistorHot(out.PeakPower))
	}
	return out, nil
}

// hotResistor is a power from which a small resistor is too hot for a finger, W
// (common practice).
const hotResistor = 1.0
