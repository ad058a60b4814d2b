package energy

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"inkwing/evaluate/library/model"
)

// FitRundownInput is the log of a discharge by constant current.
type FitRundownInput struct {
	Time    []float64 `unit:"s" same:"log" help:"of each reading: a column of the log"`
	Voltage []float64 `unit:"V" same:"log" help:"at the terminals, the straight part of the fall"`
	Current float64   `unit:"A" range:"(0,)" help:"constant"`
	Rested  float64   `unit:"V" range:"(0,)" help:"right before the current was switched on"`
	Start   float64   `unit:"s" default:"0 s" help:"when it was switched on, in the log's time"`
}

// FitRundownResult is the store that the log shows.
type FitRundownResult struct {
	Capacitance  float64 `unit:"F" show:"1" help:"over the voltages of the log"`
	UCapacitance float64 `unit:"F" show:"2" help:"its standard uncertainty, from the scatter"`
	Resistance   float64 `unit:"Ω" show:"3" help:"by the line carried back to the start"`
	UResistance  float64 `unit:"Ω" show:"4" help:"its standard uncertainty, from the scatter"`
	Scatter      float64 `unit:"V" show:"5" help:"of the readings about the line"`
	Freedom      int     `help:"degrees of freedom: readings less two"`
	model.Cautions
}

// FitRundown finds capacitance and resistance from a logged discharge, by least
// squares.
//
// Formula: the line V = a − b·(t − start) through all readings; C = I/b, u(C) = C·u(b)/b; R = (V_rested − a)/I, u(R) = u(a)/I.
//
// Validity: constant current; the straight part only; the meter's own error is not in the scatter and comes on top.
//
// Source: IEC 62391-1 for the method; JCGM 100:2008, H.3 for the line and its uncertainties.
//
// Example:
//
//	fitted = fit_rundown([0 s, 10 s, 20 s, 30 s], [2.62 V, 2.52 V, 2.43 V, 2.33 V], current: 0.5 A, rested: 2.65 V)
func FitRundown(in FitRundownInput) (FitRundownResult, error) {
	if err := above("current", in.Current, "A"); err != nil {
		return FitRundownResult{}, err
	}
	line, err := fitLine(in.Time, in.Voltage, in.Start)
	if err != nil {
		return FitRundownResult{}, err
	}
	if line.slope >= 0 {
		return FitRundownResult{}, noFall()
	}
	c := -in.Current / line.slope
	out := FitRundownResult{
		Capacitance:  c,
		UCapacitance: c * line.uSlope / -line.slope,
		Resistance:   (in.Rested - line.start) / in.Current,
		UResistance:  line.uStart / in.Current,
		Scatter:      line.scatter,
		Freedom:      line.freedom,
	}
	if out.Resistance < 0 {
		out.Raise(risingStep(in.Rested, line.start))
	}
	return out, nil
}

// FitLeakageInput is the log of a store left alone.
type FitLeakageInput struct {
	Time        []float64 `unit:"h" same:"log" help:"of each reading: a column of the log"`
	Voltage     []float64 `unit:"V" range:"(0,)" same:"log" help:"at rest"`
	Capacitance float64   `unit:"F" range:"(0,)" help:"of the store"`
}

// FitLeakageResult is the leak that the log shows.
type FitLeakageResult struct {
	Resistance   float64 `unit:"Ω" show:"1" help:"the leak taken as one"`
	UResistance  float64 `unit:"Ω" show:"2" help:"its standard uncertainty, from the scatter"`
	TimeConstant float64 `unit:"s" show:"3" help:"of the fall"`
	Freedom      int     `help:"degrees of freedom: readings less two"`
}

// FitLeakage finds the leakage resistance from a log at rest, by least squares.
//
// Formula: the line ln V = a − t/τ through all readings; R = τ/C, u(R) = R·τ·u(1/τ).
//
// Validity: long after the charge; readings with a meter of 1 MΩ or more, whose own resistance is part of the result.
//
// Source: V = V0·e^(−t/(R·C)), textbook; JCGM 100:2008, H.3 for the line.
//
// Example:
//
//	leak = fit_leakage([0 h, 8 h, 24 h], [2.50 V, 2.42 V, 2.27 V], capacitance: 10 F)
func FitLeakage(in FitLeakageInput) (FitLeakageResult, error) {
	if err := above("capacitance", in.Capacitance, "F"); err != nil {
		return FitLeakageResult{}, err
	}
	logs := make([]float64, len(in.Voltage))
	for i, v := range in.Voltage {
		if err := above("voltage", v, "V"); err != nil {
			return FitLeakageResult{}, err
		}
		logs[i] = math.Log(v)
	}
	line, err := fitLine(in.Time, logs, 0)
	if err != nil {
		return FitLeakageResult{}, err
	}
	if line.slope >= 0 {
		return FitLeakageResult{}, noFall()
	}
	tau := -1 / line.slope
	r := tau / in.Capacitance
	return FitLeakageResult{Resistance: r, UResistance: r * line.uSlope * tau, TimeConstant: tau, Freedom: line.freedom}, nil
}

// A line is y = start + slope·(t − t0) with standard uncertainties.
type line struct {
	start, slope   float64
	uStart, uSlope float64
	scatter        float64
	freedom        int
}

// fitLine fits by least squares (JCGM 100:2008, H.3), y against the time from
// t0. A line through two points has no scatter, hence three at least.
func fitLine(times, ys []float64, t0 float64) (line, error) {
	n := len(times)
	if n < 3 || len(ys) != n {
		return line{}, tooFew(n, len(ys))
	}
	ts := make([]float64, n)
	for i, t := range times {
		ts[i] = t - t0
	}
	mean := stat.Mean(ts, nil)
	spread := stat.Variance(ts, nil) * float64(n-1)
	if spread == 0 {
		return line{}, oneMoment()
	}
	a, b := stat.LinearRegression(ts, ys, nil, false)
	squares := 0.0
	for i := range ts {
		d := ys[i] - a - b*ts[i]
		squares += d * d
	}
	s := math.Sqrt(squares / float64(n-2))
	return line{
		start: a, slope: b, scatter: s, freedom: n - 2,
		uStart: s * math.Sqrt(1/float64(n)+mean*mean/spread),
		uSlope: s / math.Sqrt(spread),
	}, nil
}

func tooFew(times, voltages int) error {
	return &model.Error{
		Field:  "time",
		Says:   "has {0} readings for {1} voltages; a line and its scatter want three of each",
		Values: []model.Value{value(float64(times), "1"), value(float64(voltages), "1")},
		Mend:   "Log three readings or more, each with its time.",
	}
}

func oneMoment() error {
	return &model.Error{Field: "time", Says: "has all its readings at one time", Mend: "Log readings apart in time."}
}

func noFall() error {
	return &model.Error{Field: "voltage", Says: "shows no fall of the voltage", Mend: "Take the part of the log in which the voltage falls."}
}

func risingStep(rested, start float64) model.Caution {
	return model.Caution{
		ID: "step-upwards", Level: model.Warning,
		Says:   "The line begins at {0}, above the {1} before the current: the resistance comes out negative.",
		Values: []model.Value{value(start, "V"), value(rested, "V")},
		Why:    "The start, the rested voltage or the part of the log does not fit.",
		Mend:   "Check when the current was switched on, and take the straight part only.",
		Source: "IEC 62391-1, direct-current method",
	}
}
