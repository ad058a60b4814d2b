package energy

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"inkwing/evaluate/library/model"
)

// A Reading is a row of a logged table.
type Reading struct {
	Time    float64 `name:"t" unit:"s" help:"since any moment"`
	Voltage float64 `name:"V" unit:"V" help:"at the terminals"`
}

// FitRundownInput is the log of a discharge by constant current.
type FitRundownInput struct {
	Log     []Reading `help:"the straight part of the fall, as columns t and V"`
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

// FitRundown is capacitance and resistance from a logged discharge, by least
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
//	log = [
//	  rundown_reading(0 s, 2.62 V), rundown_reading(10 s, 2.52 V),
//	  rundown_reading(20 s, 2.43 V), rundown_reading(30 s, 2.33 V)
//	]
//	fitted = fit_rundown(log, current: 0.5 A, rested: 2.65 V)
func FitRundown(in FitRundownInput) (FitRundownResult, error) {
	if err := above("current", in.Current, "A"); err != nil {
		return FitRundownResult{}, err
	}
	line, err := fitLine(in.Log, in.Start, func(v float64) float64 { return v })
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

// RundownReadingInput is one reading by hand.
type RundownReadingInput struct {
	Time    float64 `unit:"s" help:"since any moment"`
	Voltage float64 `unit:"V" help:"at the terminals"`
}

// RundownReadingResult is a row for a log.
type RundownReadingResult struct{ Reading }

// RundownReading is a row of a log that is typed in rather than read from a
// table.
//
// Formula: none; it gives back what it takes, as t and V.
//
// Validity: any reading.
//
// Source: definition.
//
// Example:
//
//	first = rundown_reading(0 s, 2.62 V)
func RundownReading(in RundownReadingInput) (RundownReadingResult, error) {
	return RundownReadingResult{Reading(in)}, nil
}

// FitLeakageInput is the log of a store left alone.
type FitLeakageInput struct {
	Log         []Reading `help:"readings at rest, as columns t and V"`
	Capacitance float64   `unit:"F" range:"(0,)" help:"of the store"`
}

// FitLeakageResult is the leak that the log shows.
type FitLeakageResult struct {
	Resistance   float64 `unit:"Ω" show:"1" help:"the leak taken as one"`
	UResistance  float64 `unit:"Ω" show:"2" help:"its standard uncertainty, from the scatter"`
	TimeConstant float64 `unit:"s" show:"3" help:"of the fall"`
	Freedom      int     `help:"degrees of freedom: readings less two"`
}

// FitLeakage is the leakage resistance from a log at rest, by least squares.
//
// Formula: the line ln V = a − t/τ through all readings; R = τ/C, u(R) = R·τ·u(1/τ).
//
// Validity: long after the charge; readings with a meter of 1 MΩ or more, whose own resistance is part of the result.
//
// Source: V = V0·e^(−t/(R·C)), textbook; JCGM 100:2008, H.3 for the line.
//
// Example:
//
//	log = [rundown_reading(0 h, 2.50 V), rundown_reading(8 h, 2.42 V), rundown_reading(24 h, 2.27 V)]
//	leak = fit_leakage(log, capacitance: 10 F)
func FitLeakage(in FitLeakageInput) (FitLeakageResult, error) {
	if err := above("capacitance", in.Capacitance, "F"); err != nil {
		return FitLeakageResult{}, err
	}
	for _, r := range in.Log {
		if err := above("log", r.Voltage, "V"); err != nil {
			return FitLeakageResult{}, err
		}
	}
	line, err := fitLine(in.Log, 0, math.Log)
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

// fitLine fits by least squares (JCGM 100:2008, H.3), y of the voltages against
// the time from t0. The sums run about the mean time, where they keep their
// digits for a log that starts late.
func fitLine(log []Reading, t0 float64, y func(float64) float64) (line, error) {
	n := len(log)
	if n < 3 {
		return line{}, tooFew(n)
	}
	ts, ys := make([]float64, n), make([]float64, n)
	for i, r := range log {
		ts[i], ys[i] = r.Time-t0, y(r.Voltage)
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

func tooFew(n int) error {
	return &model.Error{
		Field:  "log",
		Says:   "has {0} readings, too few for a line and its scatter",
		Values: []model.Value{value(float64(n), "1")},
		Mend:   "Log three readings or more.",
	}
}

func oneMoment() error {
	return &model.Error{Field: "log", Says: "has all its readings at one time", Mend: "Log readings apart in time."}
}

func noFall() error {
	return &model.Error{Field: "log", Says: "shows no fall of the voltage", Mend: "Take the part of the log in which the voltage falls."}
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
