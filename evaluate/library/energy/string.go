package energy

import (
	"slices"

	"inkwing/evaluate/library/model"
)

// WorstCellVoltageInput is a string of cells at a voltage.
type WorstCellVoltageInput struct {
	Store   Store   `help:"the pack, with the tolerance of its cells"`
	Voltage float64 `unit:"V" range:"[0,)" help:"rested, of the whole string" symbol:"V"`
}

// WorstCellVoltageResult is what its weakest row may see.
type WorstCellVoltageResult struct {
	Voltage float64 `unit:"V" help:"of the weakest row" symbol:"V"`
	model.Cautions
}

// WorstCellVoltage is the highest voltage that a cell of an unbalanced string
// may see: one row is low by the tolerance, all others are high by it.
//
// Formula: V_worst = V·(1/(1 − d))/(1/(1 − d) + (ns − 1)/(1 + d)), d the tolerance.
//
// Letters: V voltage; d store.tolerance; ns store.series; V_worst = result.
//
// Validity: charged from empty, so that every row takes the same charge; leakage neglected.
//
// Source: a series string splits as V·(1/Ci)/Σ(1/Cj), textbook.
//
// Example:
//
//	cell = capacitor(capacitance: 50 F, rated_voltage: 2.7 V, tolerance: 10 %)
//	store = pack(cell, series: 4)
//	V_worst [V] = worst_cell_voltage(store, voltage: 9 V)
func WorstCellVoltage(in WorstCellVoltageInput) (WorstCellVoltageResult, error) {
	if err := in.Store.check("store"); err != nil {
		return WorstCellVoltageResult{}, err
	}
	out := WorstCellVoltageResult{Voltage: in.Store.WorstCell(in.Voltage)}
	out.List = in.Store.Charged(in.Voltage)
	return out, nil
}

// CellVoltagesInput is a string of measured rows.
type CellVoltagesInput struct {
	Voltage     float64   `unit:"V" range:"[0,)" help:"of the whole string" symbol:"V"`
	Capacitance []float64 `unit:"F" range:"(0,)" help:"of each row, measured"`
}

// CellVoltagesResult is how the string shares its voltage.
type CellVoltagesResult struct {
	Highest     float64   `unit:"V" show:"1" help:"on the smallest row"`
	Lowest      float64   `unit:"V" show:"2" help:"on the largest row"`
	Capacitance float64   `unit:"F" show:"3" help:"of the string" symbol:"C"`
	Voltage     []float64 `unit:"V" help:"of each row, in their order"`
}

// CellVoltages is how a string of unequal rows shares its voltage when it is
// charged from empty.
//
// Formula: C = 1/Σ(1/Ci); Vi = V·C/Ci; V_high = max(Vi), V_low = min(Vi).
//
// Letters: V voltage; Ci capacitance; C = capacitance; Vi = voltage; V_high = highest; V_low = lowest.
//
// Validity: all rows empty at first; leakage neglected.
//
// Source: textbook: the same charge passes through all of them.
//
// Example:
//
//	split = cell_voltages(8.1 V, [8 F, 12 F, 12 F])
func CellVoltages(in CellVoltagesInput) (CellVoltagesResult, error) {
	c, err := seriesCapacitance(in.Capacitance)
	if err != nil {
		return CellVoltagesResult{}, err
	}
	out := CellVoltagesResult{Capacitance: c}
	for _, row := range in.Capacitance {
		out.Voltage = append(out.Voltage, in.Voltage*c/row)
	}
	out.Highest, out.Lowest = slices.Max(out.Voltage), slices.Min(out.Voltage)
	return out, nil
}

func seriesCapacitance(rows []float64) (float64, error) {
	if len(rows) == 0 {
		return 0, noCells("capacitance")
	}
	inverse := 0.0
	for i, c := range rows {
		if !(c > 0) {
			return 0, &model.Error{
				Field:   "capacitance",
				Summary: "of cell {0} is {1}, and must be above zero",
				Values:  []model.Value{model.In(float64(i+1), "1"), model.In(c, "F")},
				Hint:    "give the measured capacitance of every cell",
			}
		}
		inverse += 1 / c
	}
	return 1 / inverse, nil
}

func noCells(field string) error {
	return &model.Error{Field: field, Summary: "is an empty list", Hint: "give one value a cell"}
}

// MatchedCellsInput is measured cells that already stand at some voltage.
type MatchedCellsInput struct {
	Capacitance  []float64 `unit:"F" range:"(0,)" same:"cells" help:"of each cell, measured"`
	Voltage      []float64 `unit:"V" range:"[0,)" same:"cells" help:"of each cell, before the charge"`
	RatedVoltage float64   `unit:"V" range:"(0,)" help:"of a cell" symbol:"V_rated"`
}

// MatchedCellsResult is how far they may be charged in series.
type MatchedCellsResult struct {
	SafeVoltage  float64   `unit:"V" show:"1" help:"of the string, at which the first cell reaches its rating"`
	LimitingCell int       `show:"2" help:"that cell's place in the list, from 1"`
	Lowest       float64   `unit:"V" show:"3" help:"of a cell, then"`
	Charge       float64   `unit:"C" help:"until then"`
	CellVoltage  []float64 `unit:"V" help:"of each cell, then"`
	model.Cautions
}

// MatchedCells is the highest voltage to which measured cells may be charged in
// series, which cell sets it, and where all the others then stand.
//
// Formula: Q = min(Ci·(V_rated − Vi0)); Vi = Vi0 + Q/Ci; V = ΣVi; V_low = min(Vi).
//
// Letters: Ci capacitance; Vi0 voltage; V_rated rated_voltage; Q = charge; Vi = cell_voltage; V = safe_voltage; V_low = lowest.
//
// Validity: one charge, soon after the measurement; leakage neglected.
//
// Source: textbook: the same charge passes through all cells.
//
// Example:
//
//	match = matched_cells([98 F, 101 F, 103 F], [0.1 V, 0.2 V, 0 V], 2.7 V)
func MatchedCells(in MatchedCellsInput) (MatchedCellsResult, error) {
	if err := in.check(); err != nil {
		return MatchedCellsResult{}, err
	}
	out := MatchedCellsResult{}
	for i, c := range in.Capacitance {
		q := c * (in.RatedVoltage - in.Voltage[i])
		if out.LimitingCell == 0 || q < out.Charge {
			out.Charge, out.LimitingCell = q, i+1
		}
	}
	for i, c := range in.Capacitance {
		v := in.Voltage[i] + out.Charge/c
		out.CellVoltage = append(out.CellVoltage, v)
		out.SafeVoltage += v
	}
	out.Lowest = slices.Min(out.CellVoltage)
	out.Raise(noMargin(out.SafeVoltage))
	return out, nil
}

func (in MatchedCellsInput) check() error {
	if _, err := seriesCapacitance(in.Capacitance); err != nil {
		return err
	}
	if len(in.Voltage) != len(in.Capacitance) {
		return &model.Error{
			Field:   "voltage",
			Summary: "has {0} values for {1} cells",
			Values:  []model.Value{model.In(float64(len(in.Voltage)), "1"), model.In(float64(len(in.Capacitance)), "1")},
			Hint:    "give one voltage a cell, 0 V where it is empty",
		}
	}
	for i, v := range in.Voltage {
		if v > in.RatedVoltage {
			return &model.Error{
				Field:   "voltage",
				Summary: "of cell {2} is {0}, already above the rating of {1}",
				Values:  []model.Value{model.In(v, "V"), model.In(in.RatedVoltage, "V"), model.In(float64(i+1), "1")},
				Hint:    "discharge that cell before it is joined to the others",
			}
		}
	}
	return nil
}
