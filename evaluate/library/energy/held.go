package energy

import "inkwing/evaluate/library/internal/require"

// StoredEnergyInput is a capacitor at a voltage.
type StoredEnergyInput struct {
	Capacitance float64 `unit:"F" range:"(0,)" help:"taken as constant" symbol:"C"`
	Voltage     float64 `unit:"V" range:"[0,)" help:"rested" symbol:"V"`
}

// StoredEnergyResult is what it holds.
type StoredEnergyResult struct {
	Energy float64 `unit:"J" help:"held" symbol:"E"`
}

// StoredEnergy is what a capacitance holds at a voltage.
//
// Formula: E = C·V²/2.
//
// Letters: C capacitance; V voltage; E = result.
//
// Validity: constant capacitance; a double-layer cell holds somewhat more, since its capacitance rises with its voltage.
//
// Source: definition.
//
// Example:
//
//	held [J] = stored_energy(capacitance: 10 F, voltage: 2.7 V)
func StoredEnergy(in StoredEnergyInput) (StoredEnergyResult, error) {
	if err := require.Positive("capacitance", in.Capacitance, "F"); err != nil {
		return StoredEnergyResult{}, err
	}
	return StoredEnergyResult{in.Capacitance * in.Voltage * in.Voltage / 2}, nil
}

// UsableEnergyInput is a capacitor and the voltages between which it works.
type UsableEnergyInput struct {
	Capacitance float64 `unit:"F" range:"(0,)" help:"taken as constant" symbol:"C"`
	From        float64 `unit:"V" range:"[0,)" help:"rested, at the start"`
	To          float64 `unit:"V" range:"[0,)" help:"rested, at the end"`
}

// UsableEnergyResult is what it gives between them.
type UsableEnergyResult struct {
	Energy float64 `unit:"J" help:"between the two voltages" symbol:"E"`
}

// UsableEnergy is what a capacitance gives between two rested voltages, the
// loss in its own resistance included.
//
// Formula: E = C·(Va² − Vb²)/2.
//
// Letters: C capacitance; Va from; Vb to; E = result.
//
// Validity: constant capacitance.
//
// Source: definition.
//
// Example:
//
//	usable [J] = usable_energy(capacitance: 12.5 F, from: 10 V, to: 5 V)
func UsableEnergy(in UsableEnergyInput) (UsableEnergyResult, error) {
	if err := require.Positive("capacitance", in.Capacitance, "F"); err != nil {
		return UsableEnergyResult{}, err
	}
	if in.From < in.To {
		return UsableEnergyResult{}, require.NotFalling("from", in.From, in.To)
	}
	// The product keeps its digits where the two voltages are close.
	return UsableEnergyResult{in.Capacitance * (in.From - in.To) * (in.From + in.To) / 2}, nil
}
