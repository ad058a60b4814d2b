package energy

import (
	"math"

	"inkwing/evaluate/library/internal/line"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// FitRundownInput is the log of a discharge by constant current.
type FitRundownInput struct {
	Time    []float64 `unit:"s" same:"log" help:"of each reading: a column of the log"`
	Voltage []float64 `unit:"V" same:"log" help:"at the terminals, the straight part of the fall"`
	Current float64   `unit:"A" range:"(0,)" help:"constant" symbol:"I"`
	Rested  float64   `unit:"V" range:"(0,)" help:"right before the current was switched on"`
	Start   float64   `unit:"s" default:"0 s" help:"when it was switched on, in the log's time"`
}

// FitRundownResult is the store that the log shows.
type FitRundownResult struct {
	Capacitance  float64 `unit:"F" estimated:"true" show:"1" help:"over the voltages of the log" symbol:"C"`
	UCapacitance float64 `unit:"F" show:"2" help:"its standard uncertainty, from the scatter"`
	Resistance   float64 `unit:"Ω" estimated:"true" show:"3" help:"by the line carried back to the start" symbol:"R"`
	UResistance  float64 `unit:"Ω" show:"4" help:"its standard uncertainty, from the scatter"`
	Scatter      float64 `unit:"V" show:"5" help:"of the readings about the line"`
	Freedom      int     `help:"degrees of freedom: readings less two"`
	model.Estimate
	model.Cautions
}

// FitRundown finds capacitance and resistance from a logged discharge, by least
// squares.
//
// Formula: the line V = a − b·(t − t0) through all readings, with t̄ = Σ t/n, V̄ = Σ V/n, b = −Σ (t − t̄)·(V − V̄)/Σ (t − t̄)², a = V̄ + b·(t̄ − t0); C = I/b, u_C = C/b·s/√(Σ (t − t̄)²); R = (V_rested − a)/I, u_R = s/I·√(1/n + (t̄ − t0)²/Σ (t − t̄)²); s = √(Σ (V − V̄ + b·(t − t̄))²/ν), ν = n − 2.
//
// Letters: t time; V voltage; n #time; I current; V_rested rested; t0 start; C = capacitance; R = resistance; u_C = u_capacitance; u_R = u_resistance; s = scatter; ν = freedom.
//
// Validity: constant current; the straight part only; the meter's own error is not in the scatter and comes on top.
//
// Source: IEC 62391-1 for the method; JCGM 100:2008, H.3 for the line and its uncertainties.
//
// Example:
//
//	fitted = fit_rundown([0 s, 10 s, 20 s, 30 s], [2.62 V, 2.52 V, 2.43 V, 2.33 V], current: 0.5 A, rested: 2.65 V)
func FitRundown(in FitRundownInput) (FitRundownResult, error) {
	if err := require.Positive("current", in.Current, "A"); err != nil {
		return FitRundownResult{}, err
	}
	fit, err := fitLine(in.Time, in.Voltage, in.Start)
	if err != nil {
		return FitRundownResult{}, err
	}
	if fit.Slope >= 0 {
		return FitRundownResult{}, noFall()
	}
	c := -in.Current / fit.Slope
	out := FitRundownResult{
		Capacitance: c, Resistance: (in.Rested - fit.Intercept) / in.Current,
		Scatter: fit.Scatter, Freedom: fit.Freedom,
		Estimate: fit.Estimate([2]float64{-c / fit.Slope, 0}, [2]float64{0, -1 / in.Current}),
	}
	out.UCapacitance, out.UResistance = math.Sqrt(out.Covariance[0][0]), math.Sqrt(out.Covariance[1][1])
	if out.Resistance < 0 {
		out.Raise(risingStep(in.Rested, fit.Intercept))
	}
	return out, nil
}

// FitLeakageInput is the log of a store left alone.
type FitLeakageInput struct {
	Time        []float64 `unit:"h" same:"log" help:"of each reading: a column of the log"`
	Voltage     []float64 `unit:"V" range:"(0,)" same:"log" help:"at rest"`
	Capacitance float64   `unit:"F" range:"(0,)" help:"of the store" symbol:"C"`
}

// FitLeakageResult is the leak that the log shows.
type FitLeakageResult struct {
	Resistance   float64 `unit:"Ω" estimated:"true" show:"1" help:"the leak taken as one" symbol:"R"`
	UResistance  float64 `unit:"Ω" show:"2" help:"its standard uncertainty, from the scatter"`
	TimeConstant float64 `unit:"s" estimated:"true" show:"3" help:"of the fall"`
	Freedom      int     `help:"degrees of freedom: readings less two"`
	model.Estimate
}

// FitLeakage finds the leakage resistance from a log at rest, by least squares.
//
// Formula: the line ln V = a − t/τ through all readings, so with y = ln(V/(1 V)), t̄ = Σ t/n, ȳ = Σ y/n, its fall b = −Σ (t − t̄)·(y − ȳ)/Σ (t − t̄)²; τ = 1/b; R = τ/C; u_R = R·τ·s/√(Σ (t − t̄)²), s = √(Σ (y − ȳ + b·(t − t̄))²/ν), ν = n − 2.
//
// Letters: t time; V voltage; n #time; C capacitance; R = resistance; τ = time_constant; u_R = u_resistance; ν = freedom.
//
// Validity: long after the charge; readings with a meter of 1 MΩ or more, whose own resistance is part of the result.
//
// Source: V = V0·e^(−t/(R·C)), textbook; JCGM 100:2008, H.3 for the line.
//
// Example:
//
//	leak = fit_leakage([0 h, 8 h, 24 h], [2.50 V, 2.42 V, 2.27 V], capacitance: 10 F)
func FitLeakage(in FitLeakageInput) (FitLeakageResult, error) {
	if err := require.Positive("capacitance", in.Capacitance, "F"); err != nil {
		return FitLeakageResult{}, err
	}
	logs := make([]float64, len(in.Voltage))
	for i, v := range in.Voltage {
		if err := require.Positive("voltage", v, "V"); err != nil {
			return FitLeakageResult{}, err
		}
		logs[i] = math.Log(v)
	}
	fit, err := fitLine(in.Time, logs, 0)
	if err != nil {
		return FitLeakageResult{}, err
	}
	if fit.Slope >= 0 {
		return FitLeakageResult{}, noFall()
	}
	tau := -1 / fit.Slope
	out := FitLeakageResult{
		Resistance: tau / in.Capacitance, TimeConstant: tau, Freedom: fit.Freedom,
		Estimate: fit.Estimate([2]float64{tau * tau / in.Capacitance, 0}, [2]float64{tau * tau, 0}),
	}
	out.UResistance = math.Sqrt(out.Covariance[0][0])
	return out, nil
}

// fitLine fits by least squares, y against the time from t0, or says what keeps
// the log from being a line.
func fitLine(times, ys []float64, t0 float64) (line.Fit, error) {
	fit, ok := line.Through(times, ys, t0)
	switch {
	case ok:
		return fit, nil
	case len(times) < line.Least || len(ys) != len(times):
		return fit, tooFew(len(times), len(ys))
	}
	return fit, oneMoment()
}

func tooFew(times, voltages int) error {
	return &model.Error{
		Field:   "time",
		Summary: "has {0} readings for {1} voltages; a line and its scatter want three of each",
		Values:  []model.Value{model.In(float64(times), "1"), model.In(float64(voltages), "1")},
		Hint:    "log three readings or more, each with its time",
	}
}

func oneMoment() error {
	return &model.Error{Field: "time", Summary: "has all its readings at one time", Hint: "log readings apart in time"}
}

func noFall() error {
	return &model.Error{Field: "voltage", Summary: "shows no fall of the voltage", Hint: "take the part of the log in which the voltage falls"}
}

func risingStep(rested, start float64) model.Caution {
	return model.Caution{
		ID: "step-upwards", Level: model.Warning,
		Summary: "The line begins at {0}, above the {1} before it.",
		Values:  []model.Value{model.In(start, "V"), model.In(rested, "V")},
		Why:     "So the resistance comes out negative: the start, the rested voltage or the part of the log does not fit. Take the straight part only.",
		Hint:    "Check when the current began.",
		Source:  "IEC 62391-1, direct-current method",
	}
}
