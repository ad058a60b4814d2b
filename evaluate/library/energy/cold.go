package energy

import (
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/internal/twobranch"
	"inkwing/evaluate/library/model"
)

// StoreAtInput is a store and how warm it is.
type StoreAtInput struct {
	Store       Store   `help:"a cell or pack as its sheet has it"`
	Temperature float64 `unit:"°C" help:"of the cells"`
	twobranch.Frost
}

// StoreAtResult is the store as it then is.
type StoreAtResult struct {
	Store
	Ratings
	model.Cautions
}

// StoreAt is a store at a temperature: in the cold a double-layer cell has more
// resistance and somewhat less capacitance.
//
// Formula: x = max(0, (25 °C − T)/(25 °C − T_cold)); R = R0·f^x, C = C0·(1 − (1 − g)·x), f and g the ratios at T_cold; so do k = k0·(1 − (1 − g)·x) and a slow branch.
//
// Letters: T temperature; T_cold cold; f resistance_ratio; g capacitance_ratio; R0 store.resistance; C0 store.capacitance; k0 store.capacitance_slope; R = resistance; C = capacitance; k = capacitance_slope.
//
// Validity: −40 °C to 65 °C; cells whose electrolyte is acetonitrile; others, and cells for backup, thicken by more: give the sheet's own ratios.
//
// Source: makers' data sheets, which allow about twice the resistance and 5 % less capacitance at −40 °C, from memory; the exponential between is common practice.
//
// Example:
//
//	store = pack(capacitor(100 F, 2.7 V, resistance: 10 mΩ), series: 5)
//	cold = store_at(store, -5 °C)
//	R_cold [mΩ] = cold.resistance
func StoreAt(in StoreAtInput) (StoreAtResult, error) {
	if err := in.Store.check("store"); err != nil {
		return StoreAtResult{}, err
	}
	more, less, err := in.Frost.At(in.Temperature)
	if err != nil {
		return StoreAtResult{}, err
	}
	s := in.Store
	s.Resistance *= more
	s.Capacitance *= less
	s.Fields = s.Chilled(more, less)
	if err := require.Positive("store.capacitance", s.Capacitance, "F"); err != nil {
		return StoreAtResult{}, err
	}
	out := StoreAtResult{Store: s, Ratings: s.ratings()}
	out.Raise(out.standing(out.RatedVoltage))
	return out, nil
}
