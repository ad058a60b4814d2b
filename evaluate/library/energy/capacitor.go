package energy

import (
	"inkwing/evaluate/library/internal/twobranch"
	"inkwing/evaluate/library/model"
)

// CapacitorInput is what a maker's sheet says of one cell.
type CapacitorInput struct {
	Capacitance       float64  `unit:"F" range:"(0,)" help:"of the lot, common to all its cells" symbol:"C"`
	RatedVoltage      float64  `unit:"V" range:"(0,)" help:"highest voltage that the maker allows" symbol:"V_rated"`
	Resistance        float64  `unit:"Ω" range:"[0,)" default:"0 Ω" help:"in series, for direct current" symbol:"R"`
	Mass              *float64 `unit:"g" range:"(0,)" help:"of the cell" symbol:"m"`
	LeakageResistance *float64 `unit:"Ω" range:"(0,)" help:"what the cell seems to have across it at rest"`
	Tolerance         float64  `unit:"%" range:"[0,)" default:"20 %" help:"spread of capacitance between cells, to either side"`
	Settling          float64  `unit:"%" range:"[0,)" default:"0 %" help:"share of the voltage that a fast charge loses as it settles"`
	ThermalResistance *float64 `unit:"K/W" range:"(0,)" help:"from the cell to the air"`
	twobranch.Fields
}

// Ratings is what a store can do at its rated voltage.
type Ratings struct {
	Energy              float64  `unit:"J" show:"2" help:"at the rated voltage" symbol:"E"`
	SafeVoltage         float64  `unit:"V" show:"3" help:"at which no cell can pass its rating"`
	ShortCircuitCurrent *float64 `unit:"A" help:"at the rated voltage; known if the resistance is"`
	MatchedPower        *float64 `unit:"W" help:"into a load like the resistance, half of it lost"`
	SpecificEnergy      *float64 `unit:"Wh/kg" help:"known if the mass is"`
	SpecificPower       *float64 `unit:"W/kg" help:"matched power over mass"`
}

// CapacitorResult is a store of one cell.
type CapacitorResult struct {
	Store   `show:"none"`
	Ratings `show:"none"`
	model.Cautions
}

// Capacitor describes one cell. A row of a parts table with the same headings
// serves as well wherever a cell is wanted.
//
// A double-layer cell holds less at low voltage, and settles after a fast charge. A
// sheet rarely says by how much: fit_capacitance and fit_rest find it from a log.
//
// Formula: C(V) = C + k·(V − 0.6·V_rated); a slow branch takes (V − V_slow)/R_slow; E = ∫ C(V)·V dV, at the rating E = C0·V²/2 + k·V³/3 + C_slow·V²/2, C0 = C − 0.6·k·V; short-circuit current I = V/R; matched power P = V²/(4·R); e = E/m, p = P/m.
//
// Letters: C capacitance; k capacitance_slope or 0 F/V; V rated_voltage; R resistance; m mass; C_slow slow_capacitance or 0 F; E = energy; I = short_circuit_current; P = matched_power; e = specific_energy; p = specific_power.
//
// Validity: without slope and slow branch the capacitance is taken as constant. A power near the matched one overheats the cell within seconds.
//
// Source: definitions; L. Zubieta, R. Bonert, IEEE Trans. Ind. Appl. 36 (2000) 199, from memory; 60 % is the middle of the fall over which IEC 62391-1 measures.
//
// Example:
//
//	cell = capacitor(capacitance: 50 F, rated_voltage: 2.7 V, resistance: 16 mΩ, mass: 12.4 g)
func Capacitor(in CapacitorInput) (CapacitorResult, error) {
	out := CapacitorResult{Store: Store{
		Capacitance:       in.Capacitance,
		RatedVoltage:      in.RatedVoltage,
		Resistance:        in.Resistance,
		Mass:              in.Mass,
		LeakageResistance: in.LeakageResistance,
		Tolerance:         in.Tolerance,
		Settling:          in.Settling,
		ThermalResistance: in.ThermalResistance,
		Fields:            in.Fields,
		Series:            1,
		Parallel:          1,
		Cells:             1,
	}}
	if err := out.check(""); err != nil {
		return CapacitorResult{}, err
	}
	out.Ratings = out.ratings()
	if out.Energy > transportLimit {
		out.Raise(dangerousGoods(out.Energy))
	}
	return out, nil
}

// ratings works what follows from the rated voltage.
func (s Store) ratings() Ratings {
	out := Ratings{Energy: s.EnergyAt(s.RatedVoltage), SafeVoltage: s.safeVoltage()}
	if s.Resistance > 0 {
		out.ShortCircuitCurrent = known(s.RatedVoltage / s.Resistance)
		out.MatchedPower = known(s.RatedVoltage * s.RatedVoltage / (4 * s.Resistance))
	}
	if s.Mass != nil && *s.Mass > 0 {
		out.SpecificEnergy = known(out.Energy / *s.Mass)
		out.SpecificPower = times(out.MatchedPower, 1 / *s.Mass)
	}
	return out
}
