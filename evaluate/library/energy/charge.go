package energy

import (
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// ChargingEfficiencyInput is a store charged from a fixed voltage.
type ChargingEfficiencyInput struct {
	Source float64 `unit:"V" range:"(0,)" help:"of the supply, fixed"`
	To     float64 `unit:"V" range:"(0,)" help:"of the store, rested, at the end"`
	From   float64 `unit:"V" range:"[0,)" default:"0 V" help:"of the store, rested, at the start"`
}

// ChargingEfficiencyResult is how much of the supply's energy gets in.
type ChargingEfficiencyResult struct {
	Efficiency float64 `unit:"%" help:"stored over given" symbol:"eta"`
}

// ChargingEfficiency is how much of a fixed supply's energy ends in the store,
// whatever the resistance between the two.
//
// Formula: η = (V1 + V2)/(2·Vs).
//
// Letters: V1 from; V2 to; Vs source; η = result.
//
// Validity: constant capacitance, nothing but resistance between supply and store.
//
// Source: textbook; from empty to the supply's voltage it is one half.
//
// Example:
//
//	share = charging_efficiency(source: 6 V, from: 2 V, to: 5 V)
func ChargingEfficiency(in ChargingEfficiencyInput) (ChargingEfficiencyResult, error) {
	if err := require.Positive("source", in.Source, "V"); err != nil {
		return ChargingEfficiencyResult{}, err
	}
	if in.To > in.Source || in.From > in.To {
		return ChargingEfficiencyResult{}, &model.Error{
			Field:   "to",
			Summary: "is {0}, which a supply of {1} does not reach from {2}",
			Values:  []model.Value{model.In(in.To, "V"), model.In(in.Source, "V"), model.In(in.From, "V")},
			Hint:    "let it lie between the start and the supply's voltage",
		}
	}
	return ChargingEfficiencyResult{(in.From + in.To) / (2 * in.Source)}, nil
}

// SteadyChargeEfficiencyInput is a store charged by a constant current.
type SteadyChargeEfficiencyInput struct {
	Store Store   `help:"with its resistance"`
	Time  float64 `unit:"s" range:"(0,)" help:"of the whole charge, from empty" symbol:"t"`
}

// SteadyChargeEfficiencyResult is how much of the energy gets in.
type SteadyChargeEfficiencyResult struct {
	Efficiency float64 `unit:"%" help:"stored over given" symbol:"eta"`
}

// SteadyChargeEfficiency is how much of the energy ends in the store when a
// constant current fills it from empty: the best that a given time allows.
//
// Formula: η = 1/(1 + 2·R·C/t).
//
// Letters: R store.resistance; C store.capacitance; t time; η = result.
//
// Validity: constant capacitance and resistance.
//
// Source: textbook: loss I²·R·t against C·V²/2, V = I·t/C.
//
// Example:
//
//	cell = capacitor(capacitance: 50 F, rated_voltage: 2.7 V, resistance: 16 mΩ)
//	share = steady_charge_efficiency(cell, time: 90 s)
func SteadyChargeEfficiency(in SteadyChargeEfficiencyInput) (SteadyChargeEfficiencyResult, error) {
	if err := require.All(in.Store.check("store"), require.Positive("time", in.Time, "s")); err != nil {
		return SteadyChargeEfficiencyResult{}, err
	}
	rc := in.Store.Resistance * in.Store.Capacitance
	return SteadyChargeEfficiencyResult{1 / (1 + 2*rc/in.Time)}, nil
}

// JoinedCapacitorsInput is two capacitors, each at its voltage.
type JoinedCapacitorsInput struct {
	FirstCapacitance  float64 `unit:"F" range:"(0,)" help:"of the first"`
	FirstVoltage      float64 `unit:"V" range:"[0,)" help:"of the first"`
	SecondCapacitance float64 `unit:"F" range:"(0,)" help:"of the second"`
	SecondVoltage     float64 `unit:"V" range:"[0,)" default:"0 V" help:"of the second"`
}

// JoinedCapacitorsResult is what becomes of them.
type JoinedCapacitorsResult struct {
	Voltage float64 `unit:"V" show:"1" help:"of both" symbol:"V"`
	Lost    float64 `unit:"J" show:"2" help:"as heat and spark"`
	model.Cautions
}

// JoinedCapacitors is what becomes of two capacitors that are joined in
// parallel at different voltages.
//
// Formula: V = (C1·V1 + C2·V2)/(C1 + C2); lost E = C1·C2/(C1 + C2)·(V1 − V2)²/2.
//
// Letters: C1 first_capacitance; V1 first_voltage; C2 second_capacitance; V2 second_voltage; V = voltage; E = lost.
//
// Validity: whatever the resistance of the joint; a small one makes a hard spark.
//
// Source: textbook.
//
// Example:
//
//	both = joined_capacitors(first_capacitance: 10 F, first_voltage: 5 V, second_capacitance: 5 F, second_voltage: 1 V)
func JoinedCapacitors(in JoinedCapacitorsInput) (JoinedCapacitorsResult, error) {
	c1, c2 := in.FirstCapacitance, in.SecondCapacitance
	if err := require.All(require.Positive("first_capacitance", c1, "F"),
		require.Positive("second_capacitance", c2, "F")); err != nil {
		return JoinedCapacitorsResult{}, err
	}
	apart := in.FirstVoltage - in.SecondVoltage
	out := JoinedCapacitorsResult{
		Voltage: (c1*in.FirstVoltage + c2*in.SecondVoltage) / (c1 + c2),
		Lost:    c1 * c2 / (c1 + c2) * apart * apart / 2,
	}
	if out.Lost > mostWithoutSpark {
		out.Raise(joiningSpark(out.Lost))
	}
	return out, nil
}
