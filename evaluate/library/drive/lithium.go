package drive

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// LithiumGuessInput is what [LithiumGuess] wants.
type LithiumGuessInput struct {
	StartVoltage float64  `unit:"V" range:"(0,)" help:"of the pack, as it is plugged in"`
	CutOff       *float64 `unit:"V" range:"(0,)" help:"that is wanted"`
	FullCell     float64  `unit:"V" range:"(0,)" default:"4.3 V" help:"by which the control counts cells: no lithium cell is above it"`
	CellCutOff   float64  `unit:"V" range:"(0,)" default:"3.0 V" help:"at which it stops the motor, for each cell that it counted"`
}

// LithiumGuessResult is what [LithiumGuess] answers.
type LithiumGuessResult struct {
	Cells    int      `show:"1" help:"that the control counts"`
	CutOff   float64  `unit:"V" show:"2" help:"at which it stops the motor"`
	Stranded *float64 `unit:"%" show:"3" help:"of the energy between start and wanted cut-off, that is left in the pack; negative where it runs the pack down further"`
	model.Cautions
}

// LithiumGuess is what a speed control makes of a capacitor pack that it takes for lithium cells.
//
// Formula: cells z = ceil(V_start/V_full); cut-off V_cut = z·V_cell; stranded s = (V_cut² − V_wanted²)/(V_start² − V_wanted²).
//
// Letters: V_start start_voltage; V_full full_cell; V_cell cell_cut_off; V_wanted cut_off; z = cells; V_cut = cut_off; s = stranded.
//
// Validity: a control that counts cells as it is plugged in; its manual gives both voltages.
//
// Source: common practice, no source; the share: energy of a capacitor.
//
// Example:
//
//	guess = lithium_guess(12.5 V, cut_off: 5.5 V)
//	V_stop [V] = guess.cut_off
func LithiumGuess(in LithiumGuessInput) (LithiumGuessResult, error) {
	if err := require.All(require.Positive("start_voltage", in.StartVoltage, "V"),
		require.Positive("full_cell", in.FullCell, "V"), require.Positive("cell_cut_off", in.CellCutOff, "V")); err != nil {
		return LithiumGuessResult{}, err
	}
	cells := math.Ceil(in.StartVoltage / in.FullCell * (1 - 1e-12))
	if cells > math.MaxInt32 {
		return LithiumGuessResult{}, &model.Error{Field: "full_cell", Summary: "makes {0} cells of this pack",
			Values: []model.Value{model.In(cells, "1")}, Hint: "check its unit"}
	}
	out := LithiumGuessResult{Cells: int(cells), CutOff: cells * in.CellCutOff}
	if in.CutOff == nil {
		return out, nil
	}
	wanted := *in.CutOff
	if err := require.Positive("cut_off", wanted, "V"); err != nil {
		return LithiumGuessResult{}, err
	}
	if wanted >= in.StartVoltage {
		return LithiumGuessResult{}, require.NotFalling("start_voltage", in.StartVoltage, wanted)
	}
	share := (out.CutOff*out.CutOff - wanted*wanted) / (in.StartVoltage*in.StartVoltage - wanted*wanted)
	out.Stranded = &share
	if math.Abs(out.CutOff-wanted) > 0.01*wanted {
		out.Raise(model.Caution{ID: "control-guesses-cells", Level: model.Warning, Severity: math.Abs(out.CutOff - wanted),
			Summary: "Counting {0} lithium cells it cuts off at {1}, not {2}.",
			Values:  []model.Value{model.In(cells, "1"), model.In(out.CutOff, "V"), model.In(wanted, "V")},
			Why:     "Or to no battery type. Too high a cut-off strands what was cranked; too low a one takes what the radio needs to land.",
			Hint:    "Set its cut-off in volts.", Source: "common practice"})
	}
	return out, nil
}
