package energy

import (
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// StoreGivesInput is a store and the voltages between which it works.
type StoreGivesInput struct {
	Store Store   `help:"a cell or pack, with its capacitance_slope and slow branch if they are known"`
	From  float64 `unit:"V" range:"[0,)" help:"rested and settled"`
	To    float64 `unit:"V" range:"[0,)" default:"0 V" help:"rested and settled"`
}

// StoreGivesResult is what it gives between them.
type StoreGivesResult struct {
	Energy float64 `unit:"J" show:"1" help:"between the two voltages" symbol:"E"`
	Charge float64 `unit:"C" show:"2" help:"likewise"`
	Share  float64 `unit:"%" show:"3" help:"of the energy at the upper voltage"`
	model.Cautions
}

// StoreGives is what a store gives between two voltages at which it has settled; unlike
// usable_energy it knows a capacitance that rises.
//
// Formula: C0 = C − 0.6·k·V_rated; E = C0·(Va² − Vb²)/2 + k·(Va³ − Vb³)/3 + C_slow·(Va² − Vb²)/2; Q = C0·(Va − Vb) + k·(Va² − Vb²)/2 + C_slow·(Va − Vb); share s = E/(C0·Va²/2 + k·Va³/3 + C_slow·Va²/2).
//
// Letters: C store.capacitance; k store.capacitance_slope or 0 F/V; V_rated store.rated_voltage; C_slow store.slow_capacitance or 0 F; Va from; Vb to; E = energy; Q = charge; s = share.
//
// Validity: what is lost in its resistance, and as it settles, included.
//
// Source: E = ∫ C(V)·V dV; L. Zubieta, R. Bonert, IEEE Trans. Ind. Appl. 36 (2000) 199, from memory.
//
// Example:
//
//	cell = capacitor(capacitance: 100 F, rated_voltage: 2.7 V, capacitance_slope: 12 F/V)
//	gives = store_gives(pack(cell, series: 5), from: 12.5 V, to: 5.5 V)
//	E [J] = gives.energy
func StoreGives(in StoreGivesInput) (StoreGivesResult, error) {
	if err := require.All(in.Store.check("store"), require.Positive("from", in.From, "V"), require.NotNegative("to", in.To, "V")); err != nil {
		return StoreGivesResult{}, err
	}
	if in.From < in.To {
		return StoreGivesResult{}, require.NotFalling("from", in.From, in.To)
	}
	l := in.Store.law()
	out := StoreGivesResult{Energy: l.Energy(in.To, in.From) + l.Slow*(in.From-in.To)*(in.From+in.To)/2,
		Charge: l.Charge(in.To, in.From) + l.Slow*(in.From-in.To)}
	out.Share = out.Energy / l.Held(in.From, in.From)
	out.List = in.Store.Charged(in.From)
	return out, nil
}
