package energy

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// CapacitanceByDischargeInput is two readings on the straight part of a
// discharge by constant current.
type CapacitanceByDischargeInput struct {
	Current float64 `unit:"A" range:"(0,)" help:"constant, while the voltage falls" symbol:"I"`
	From    float64 `unit:"V" range:"(0,)" help:"terminal, the standard takes 80 % of the rating"`
	To      float64 `unit:"V" range:"[0,)" help:"terminal, the standard takes 40 % of the rating"`
	Time    float64 `unit:"s" range:"(0,)" help:"between the two readings" symbol:"t"`
}

// CapacitanceByDischargeResult is the capacitance.
type CapacitanceByDischargeResult struct {
	Capacitance float64 `unit:"F" help:"between the two voltages" symbol:"C"`
}

// CapacitanceByDischarge is the capacitance from the time that a constant
// current takes between two voltages.
//
// Formula: C = I·t/(U1 − U2).
//
// Letters: I current; t time; U1 from; U2 to; C = result.
//
// Validity: charged at the rated voltage for 30 min before; a higher current reads lower.
//
// Source: IEC 62391-1, constant-current method; that a higher current reads lower: PMC7153758.
//
// Example:
//
//	C [F] = capacitance_by_discharge(current: 0.5 A, from: 2.16 V, to: 1.08 V, time: 23.2 s)
func CapacitanceByDischarge(in CapacitanceByDischargeInput) (CapacitanceByDischargeResult, error) {
	if !(in.From > in.To) {
		return CapacitanceByDischargeResult{}, require.NotFalling("from", in.From, in.To)
	}
	return CapacitanceByDischargeResult{in.Current * in.Time / (in.From - in.To)}, nil
}

// ResistanceByStepInput is what the voltage does as a current is switched on.
type ResistanceByStepInput struct {
	Step    float64 `unit:"V" range:"[0,)" help:"the straight part of the discharge carried back to the moment of switching"`
	Current float64 `unit:"A" range:"(0,)" help:"switched on" symbol:"I"`
}

// ResistanceByStepResult is the resistance.
type ResistanceByStepResult struct {
	Resistance float64 `unit:"Ω" help:"in series, for direct current" symbol:"R"`
}

// ResistanceByStep is the resistance from the step of voltage as a current is
// switched on.
//
// Formula: R = ΔU/I.
//
// Letters: ΔU step; I current; R = result.
//
// Validity: the step to the straight part carried back, not to the first sample, which reads low.
//
// Source: IEC 62391-1, direct-current method.
//
// Example:
//
//	R [mΩ] = resistance_by_step(step: 81 mV, current: 2.7 A)
func ResistanceByStep(in ResistanceByStepInput) (ResistanceByStepResult, error) {
	if err := require.Positive("current", in.Current, "A"); err != nil {
		return ResistanceByStepResult{}, err
	}
	return ResistanceByStepResult{in.Step / in.Current}, nil
}

// CurrentFromSlopeInput is a capacitance and how fast its voltage moves.
type CurrentFromSlopeInput struct {
	Capacitance float64 `unit:"F" range:"(0,)" help:"of the store" symbol:"C"`
	Slope       float64 `unit:"V/s" help:"of its voltage, taken as positive for a fall that feeds a load"`
}

// CurrentFromSlopeResult is the current.
type CurrentFromSlopeResult struct {
	Current float64 `unit:"A" help:"in the sense of the slope" symbol:"I"`
}

// CurrentFromSlope is the current that moves a store's voltage at a rate: what
// the radio of a resting model draws, without an ammeter.
//
// Formula: I = C·s, s the slope of the voltage.
//
// Letters: C capacitance; s slope; I = result.
//
// Validity: constant capacitance, some minutes after a charge.
//
// Source: definition.
//
// Example:
//
//	I_radio [A] = current_from_slope(capacitance: 16.7 F, slope: 0.01 V/s)
func CurrentFromSlope(in CurrentFromSlopeInput) (CurrentFromSlopeResult, error) {
	if err := require.Positive("capacitance", in.Capacitance, "F"); err != nil {
		return CurrentFromSlopeResult{}, err
	}
	return CurrentFromSlopeResult{in.Capacitance * in.Slope}, nil
}

// LeakageFromRestInput is two readings of a store left alone.
type LeakageFromRestInput struct {
	Capacitance float64 `unit:"F" range:"(0,)" help:"of the store" symbol:"C"`
	From        float64 `unit:"V" range:"(0,)" help:"first reading"`
	To          float64 `unit:"V" range:"(0,)" help:"last reading"`
	Time        float64 `unit:"h" range:"(0,)" help:"between the two" symbol:"t"`
}

// LeakageFromRestResult is the leak.
type LeakageFromRestResult struct {
	Current    float64  `unit:"µA" show:"1" help:"mean" symbol:"I"`
	Resistance *float64 `unit:"Ω" show:"2" help:"the leak taken as one; none if the voltage stayed" symbol:"R"`
	model.Cautions
}

// LeakageFromRest is the leak of a store from two readings at rest.
//
// Formula: I = C·(Va − Vb)/t; R = t/(C·ln(Va/Vb)).
//
// Letters: C capacitance; Va from; Vb to; t time; I = current; R = resistance.
//
// Validity: readings with a meter of 1 MΩ or more, long after the charge.
//
// Source: IEC 62391-1, self-discharge test: 8 h at the rating, 16 h or 24 h of rest.
//
// Example:
//
//	leak = leakage_from_rest(capacitance: 10 F, from: 2.5 V, to: 2.2 V, time: 24 h)
func LeakageFromRest(in LeakageFromRestInput) (LeakageFromRestResult, error) {
	err := require.All(require.Positive("capacitance", in.Capacitance, "F"), require.Positive("time", in.Time, "s"),
		require.Positive("to", in.To, "V"))
	if err != nil {
		return LeakageFromRestResult{}, err
	}
	if in.From < in.To {
		return LeakageFromRestResult{}, require.NotFalling("from", in.From, in.To)
	}
	out := LeakageFromRestResult{
		Current:    in.Capacitance * (in.From - in.To) / in.Time,
		Resistance: known(in.Time / (in.Capacitance * math.Log(in.From/in.To))),
	}
	if in.Time < restTime {
		out.Raise(shortRest(in.Time))
	}
	return out, nil
}

// restTime is the shorter rest of the standard's self-discharge test.
const restTime = 16 * 3600

func shortRest(got float64) model.Caution {
	return model.Caution{
		ID: "rest-too-short", Level: model.Advice,
		Summary: "The store rested for {0}; the standard test takes {1}.",
		Values:  []model.Value{model.In(got/3600, "h"), model.In(restTime/3600, "h")},
		Why:     "In the first hours charge spreads into the depth of the electrodes, which looks like a leak and is none: the result is an upper bound.",
		Hint:    "Rest longer, or take an upper bound.",
		Source:  "IEC 62391-1, self-discharge",
	}
}

// MeasuringCurrentsInput is a cell to be measured.
type MeasuringCurrentsInput struct {
	RatedVoltage float64 `unit:"V" range:"(0,)" help:"of the cell" symbol:"V_rated"`
	Resistance   float64 `unit:"Ω" range:"(0,)" help:"nominal, of the cell" symbol:"R"`
}

// MeasuringCurrentsResult is the currents of the test.
type MeasuringCurrentsResult struct {
	Charge    float64 `unit:"A" show:"1" help:"for the charge"`
	Discharge float64 `unit:"A" show:"2" help:"for the discharge"`
}

// MeasuringCurrents are the currents with which a cell for power is measured, at
// which 95 % of the energy passes either way.
//
// Formula: charge I_c = U/(38·R), discharge I_d = U/(40·R).
//
// Letters: U rated_voltage; R resistance; I_c = charge; I_d = discharge.
//
// Validity: double-layer cells made for power; those for backup are measured with less.
//
// Source: IEC 62576, 4.3.3.
//
// Example:
//
//	bench = measuring_currents(rated_voltage: 2.7 V, resistance: 29 mΩ)
func MeasuringCurrents(in MeasuringCurrentsInput) (MeasuringCurrentsResult, error) {
	if err := require.Positive("resistance", in.Resistance, "Ω"); err != nil {
		return MeasuringCurrentsResult{}, err
	}
	most := in.RatedVoltage / in.Resistance
	return MeasuringCurrentsResult{Charge: most / 38, Discharge: most / 40}, nil
}
