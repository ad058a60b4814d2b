package energy

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// CellHeatingInput is a store under a current.
type CellHeatingInput struct {
	Store        Store   `help:"a cell or pack with its mass, thermal resistance, or both"`
	Current      float64 `unit:"A" range:"[0,)" help:"at the terminals, effective value" symbol:"I"`
	Time         float64 `unit:"s" range:"(0,)" help:"for which it flows" symbol:"t"`
	HeatCapacity float64 `unit:"J/(kg·K)" range:"(0,)" default:"1000 J/(kg·K)" help:"of the cells, a round figure"`
	AllowedRise  float64 `unit:"K" range:"(0,)" default:"10 K" help:"for the steady current"`
}

// CellHeatingResult is how warm it gets. What needs a mass or a thermal
// resistance that is not known stays unknown.
type CellHeatingResult struct {
	Power         float64  `unit:"W" show:"1" help:"lost in the store" symbol:"P"`
	Rise          float64  `unit:"K" show:"2" help:"above the air at the end, by what is known"`
	LifeFactor    float64  `unit:"1" show:"3" help:"while it is so warm, by the 10 K rule"`
	AdiabaticRise *float64 `unit:"K" help:"if no heat left it"`
	SteadyRise    *float64 `unit:"K" help:"if the current never stopped"`
	SteadyCurrent *float64 `unit:"A" help:"that keeps the allowed rise for ever"`
	model.Cautions
}

// CellHeating is how warm a store gets by its own resistance.
//
// Formula: P = I²·R; adiabatic ΔT_a = P·t/(m·c); steady ΔT_s = P·R_th; by what is known ΔT = ΔT_a, ΔT = ΔT_s, both ΔT = ΔT_s·(1 − e^(−t/(m·c·R_th))); steady current I_s = √(ΔT_max/(R·R_th)); life factor L = 2^(−ΔT/(10 K)).
//
// Letters: I current; R store.resistance; t time; m store.mass; c heat_capacity; R_th store.thermal_resistance; ΔT_max allowed_rise; P = power; ΔT = rise; ΔT_a = adiabatic_rise; ΔT_s = steady_rise; I_s = steady_current; L = life_factor.
//
// Validity: one temperature for all cells; constant resistance.
//
// Source: definitions; makers commonly allow 10 K to 15 K (common practice); the heat capacity is from memory.
//
// Example:
//
//	cell = capacitor(capacitance: 50 F, rated_voltage: 2.7 V, resistance: 16 mΩ, mass: 12.4 g, thermal_resistance: 30 K/W)
//	warm = cell_heating(cell, current: 5 A, time: 90 s)
func CellHeating(in CellHeatingInput) (CellHeatingResult, error) {
	if err := in.check(); err != nil {
		return CellHeatingResult{}, err
	}
	s := in.Store
	out := CellHeatingResult{Power: in.Current * in.Current * s.Resistance}
	if s.Mass != nil {
		out.AdiabaticRise = known(out.Power * in.Time / (*s.Mass * in.HeatCapacity))
	}
	if s.ThermalResistance != nil {
		out.SteadyRise = known(out.Power * *s.ThermalResistance)
		out.SteadyCurrent = known(math.Sqrt(in.AllowedRise / (s.Resistance * *s.ThermalResistance)))
	}
	if out.AdiabaticRise == nil && out.SteadyRise == nil {
		return CellHeatingResult{}, &model.Error{Field: "current", Summary: "warms the store beyond any number",
			Hint: "check the current, the time, and the mass of a cell"}
	}
	out.Rise = rise(out.AdiabaticRise, out.SteadyRise)
	out.LifeFactor = math.Exp2(-out.Rise / 10)
	if out.Rise > highRise {
		out.Raise(warmCells(out.Rise, in.Current))
	}
	return out, nil
}

func (in CellHeatingInput) check() error {
	if in.Store.Mass == nil && in.Store.ThermalResistance == nil {
		return &model.Error{
			Field:   "store",
			Summary: "has neither a mass nor a thermal resistance, so nothing says how warm it gets",
			Hint:    "add one of the two to the cell, or a heading for it to its table",
		}
	}
	return require.All(in.Store.check("store"), require.Positive("time", in.Time, "s"),
		require.Positive("heat_capacity", in.HeatCapacity, "J/(kg·K)"))
}

// rise joins the two bounds, of which at least one is known: adiabatic over
// steady is the time over the thermal time constant.
func rise(adiabatic, steady *float64) float64 {
	switch {
	case steady == nil:
		return *adiabatic
	case adiabatic == nil || *steady == 0:
		return *steady
	}
	return -*steady * math.Expm1(-*adiabatic / *steady)
}

// highRise is the most that makers commonly allow in steady use.
const highRise = 15

func warmCells(got, current float64) model.Caution {
	return model.Caution{
		ID: "cells-warm", Level: model.Warning, Severity: got,
		Summary: "{0} warms the cells by {1}; makers allow 10 K to 15 K.",
		Values:  []model.Value{model.In(current, "A"), model.In(got, "K")},
		Why:     "That much is common. Every 10 K halves their life, and their leakage grows with it; cells in parallel share the current.",
		Hint:    "Draw less, or let them cool.",
		Source:  practice,
	}
}
