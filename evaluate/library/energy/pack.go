package energy

import (
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// PackInput is a cell and how many of them there are.
type PackInput struct {
	Cell     Store    `help:"a capacitor, a row of a parts table, or a pack of its own"`
	Series   int      `range:"[1,)" help:"rows in series"`
	Parallel int      `range:"[1,)" default:"1" help:"cells side by side in a row"`
	Settling *float64 `unit:"%" range:"[0,)" overrides:"cell.settling" help:"instead of the cell's"`
	Clamped  bool     `default:"false" help:"each row is held at its rating by a clamp or balancer"`
}

// PackResult is the store that the cells make.
type PackResult struct {
	Store
	Ratings
	model.Cautions
}

// Pack joins like cells in series and parallel. The spread between cells
// (tolerance) does not change the pack's capacitance, which is the lot's, but
// says how far the weakest cell may run ahead of the others.
//
// Formula: C = C1·np/ns, R = R1·ns/np, V = ns·V1, m = m1·ns·np; safe voltage V_safe = V1·((ns − 1)·(1 − d) + 1 + d)/(1 + d) with the tolerance d; slope k = k1·np/ns²; slow branch C_s = C_s1·np/ns, R_s = R_s1·ns/np; leak R_l = R_l1·ns/np.
//
// Letters: C1 cell.capacitance; R1 cell.resistance; V1 cell.rated_voltage; m1 cell.mass; d cell.tolerance; k1 cell.capacitance_slope; C_s1 cell.slow_capacitance; R_s1 cell.slow_resistance; R_l1 cell.leakage_resistance; np parallel; ns series; C = capacitance; R = resistance; V = rated_voltage; m = mass; V_safe = safe_voltage; k = capacitance_slope; C_s = slow_capacitance; R_s = slow_resistance; R_l = leakage_resistance.
//
// Validity: cells of one kind, joined while empty, links without resistance; a slope goes as k1·np/ns², a slow branch as C and R.
//
// Source: definitions.
//
// Example:
//
//	cell = capacitor(capacitance: 50 F, rated_voltage: 2.7 V, resistance: 16 mΩ, tolerance: 3 %)
//	store = pack(cell, series: 4)
func Pack(in PackInput) (PackResult, error) {
	if err := require.All(in.Cell.check("cell"), require.Count("series", in.Series),
		require.Count("parallel", in.Parallel)); err != nil {
		return PackResult{}, err
	}
	out := PackResult{Store: in.Cell.joined(in.Series, in.Parallel)}
	out.Clamped = in.Clamped
	if in.Settling != nil {
		out.Settling = *in.Settling
	}
	if err := require.Share("settling", out.Settling); err != nil {
		return PackResult{}, err
	}
	out.Ratings = out.ratings()
	out.Raise(out.standing(out.RatedVoltage))
	if cell := out.Energy / float64(out.Cells); cell > transportLimit {
		out.Raise(dangerousGoods(cell))
	}
	if out.Cells > 1 {
		out.Raise(joiningCells())
	}
	if out.RatedVoltage > touchVolts {
		out.Raise(touchVoltage(out.RatedVoltage))
	}
	return out, nil
}

// joined is the store of ns rows of np like stores each.
func (s Store) joined(series, parallel int) Store {
	ns, np := float64(series), float64(parallel)
	out := s
	out.Capacitance = s.Capacitance * np / ns
	out.RatedVoltage = s.RatedVoltage * ns
	out.Resistance = s.Resistance * ns / np
	out.Mass = times(s.Mass, ns*np)
	out.LeakageResistance = times(s.LeakageResistance, ns/np)
	out.ThermalResistance = times(s.ThermalResistance, 1/(ns*np))
	out.Fields = s.Fields.Joined(ns, np)
	out.Series = s.rows() * series
	out.Parallel = max(s.Parallel, 1) * parallel
	out.Cells = max(s.Cells, 1) * series * parallel
	return out
}
