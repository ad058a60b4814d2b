package energy

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/internal/twobranch"
	"inkwing/evaluate/library/model"
)

// CapacitanceSlopeInput is two capacitances of one store, each over a fall of its
// own.
type CapacitanceSlopeInput struct {
	High        float64  `unit:"F" range:"(0,)" help:"capacitance over a fall at high voltage, as capacitance_by_discharge finds it"`
	HighVoltage float64  `unit:"V" range:"(0,)" help:"the middle of that fall"`
	Low         float64  `unit:"F" range:"(0,)" help:"capacitance over a fall at low voltage"`
	LowVoltage  float64  `unit:"V" range:"[0,)" help:"the middle of that fall"`
	Rated       *float64 `unit:"V" range:"(0,)" name:"rated_voltage" help:"of the store, for its capacitance"`
}

// CapacitanceSlopeResult is how it rises.
type CapacitanceSlopeResult struct {
	Slope       float64  `unit:"F/V" show:"1" help:"rise by the volt, for capacitance_slope" symbol:"k"`
	Capacitance *float64 `unit:"F" show:"2" help:"at 60 % of the rating, for capacitance; known if the rating is" symbol:"C"`
}

// CapacitanceSlope is how a store's capacitance rises with its voltage, from two
// falls by constant current.
//
// Formula: k = (C_high − C_low)/(V_high − V_low); C = C_low + k·(0.6·V_rated − V_low).
//
// Letters: C_high high; C_low low; V_high high_voltage; V_low low_voltage; V_rated rated_voltage; k = slope; C = capacitance.
//
// Validity: a capacitance that rises evenly, as it does over most of the range; each fall short against the voltages between them.
//
// Source: L. Zubieta, R. Bonert, IEEE Trans. Ind. Appl. 36 (2000) 199, from memory; 60 %: the middle of the fall of IEC 62391-1.
//
// Example:
//
//	rises = capacitance_slope(high: 62 F, high_voltage: 2.2 V, low: 50 F, low_voltage: 0.9 V, rated_voltage: 2.7 V)
//	k [F/V] = rises.slope
func CapacitanceSlope(in CapacitanceSlopeInput) (CapacitanceSlopeResult, error) {
	if err := require.All(require.Positive("high", in.High, "F"), require.Positive("low", in.Low, "F")); err != nil {
		return CapacitanceSlopeResult{}, err
	}
	if !(in.HighVoltage > in.LowVoltage) {
		return CapacitanceSlopeResult{}, &model.Error{Field: "high_voltage", Summary: "is {0}, no higher than the {1} of the other fall",
			Values: []model.Value{model.In(in.HighVoltage, "V"), model.In(in.LowVoltage, "V")}, Hint: "give the middle of each fall, the higher one first"}
	}
	if in.High < in.Low {
		return CapacitanceSlopeResult{}, &model.Error{Field: "high", Summary: "is {0}, less than the {1} at low voltage: double-layer cells rise",
			Values: []model.Value{model.In(in.High, "F"), model.In(in.Low, "F")}, Hint: "check which is which; within the scatter leave the slope out"}
	}
	out := CapacitanceSlopeResult{Slope: (in.High - in.Low) / (in.HighVoltage - in.LowVoltage)}
	if in.Rated != nil {
		c := in.Low + out.Slope*(twobranch.StandardShare**in.Rated-in.LowVoltage)
		out.Capacitance = &c
	}
	return out, nil
}

// FitCapacitanceInput is the log of a discharge by constant current, over a wide
// fall.
type FitCapacitanceInput struct {
	Time         []float64 `unit:"s" same:"log" help:"of each reading: a column of the log"`
	Voltage      []float64 `unit:"V" range:"(0,)" same:"log" help:"at the terminals, from high to low"`
	Current      float64   `unit:"A" range:"(0,)" help:"constant" symbol:"I"`
	RatedVoltage float64   `unit:"V" range:"(0,)" help:"of the store" symbol:"V_rated"`
	Resistance   float64   `unit:"Ω" range:"[0,)" default:"0 Ω" help:"of the store: the current's drop is added to the voltages" symbol:"R"`
}

// FitCapacitanceResult is the store that the log shows.
type FitCapacitanceResult struct {
	Capacitance  float64 `unit:"F" estimated:"true" show:"1" help:"at 60 % of the rating" symbol:"C"`
	UCapacitance float64 `unit:"F" help:"its standard uncertainty, from the scatter"`
	Slope        float64 `unit:"F/V" estimated:"true" show:"2" help:"rise by the volt, for capacitance_slope" symbol:"k"`
	USlope       float64 `unit:"F/V" help:"its standard uncertainty, from the scatter"`
	Scatter      float64 `unit:"V" show:"3" help:"of the readings about the curve"`
	Freedom      int     `help:"degrees of freedom: readings less three"`
	model.Estimate
}

// FitCapacitance finds capacitance and its rise with the voltage from a logged
// discharge, by least squares.
//
// Formula: C0·(V0 − V) + k·(V0² − V²)/2 = I·t through all readings, by least squares with the scatter in V; C = C0 + 0.6·k·V_rated.
//
// Letters: V voltage; t time; I current; V_rated rated_voltage; k = slope; C = capacitance.
//
// Validity: constant current, from near the rating to a third of it or less; a fall within a minute or two, so that a slow branch takes no part.
//
// Source: L. Zubieta, R. Bonert, IEEE Trans. Ind. Appl. 36 (2000) 199, from memory; JCGM 100:2008, H.3 for the uncertainties.
//
// Example:
//
//	t = [0 s, 20 s, 40 s, 60 s, 80 s]
//	V = [2.60 V, 2.22 V, 1.79 V, 1.32 V, 0.78 V]
//	cell = fit_capacitance(t, V, current: 1 A, rated_voltage: 2.7 V)
func FitCapacitance(in FitCapacitanceInput) (FitCapacitanceResult, error) {
	if err := in.check(); err != nil {
		return FitCapacitanceResult{}, err
	}
	f, err := in.fit()
	if err != nil {
		return FitCapacitanceResult{}, err
	}
	at := twobranch.StandardShare * in.RatedVoltage
	out := FitCapacitanceResult{Capacitance: f.p[1] + at*f.p[2], Slope: f.p[2], Scatter: f.scatter, Freedom: f.freedom,
		Estimate: f.spread([]float64{0, 1, at}, []float64{0, 0, 1})}
	out.UCapacitance, out.USlope = math.Sqrt(out.Covariance[0][0]), math.Sqrt(out.Covariance[1][1])
	if !(f.p[1] > 0 && out.Capacitance > 0) {
		return FitCapacitanceResult{}, &model.Error{Field: "voltage", Summary: "bends so much that nothing would be left at 0 V", Hint: "log a constant current, down to a third of the rating"}
	}
	return out, nil
}

func (in FitCapacitanceInput) check() error {
	err := require.All(require.Positive("current", in.Current, "A"), require.Positive("rated_voltage", in.RatedVoltage, "V"),
		require.NotNegative("resistance", in.Resistance, "Ω"))
	n := len(in.Time)
	switch {
	case err != nil:
		return err
	case n < 4 || len(in.Voltage) != n:
		return &model.Error{Field: "time", Summary: "has {0} readings for {1} voltages; a curve and its scatter want four of each",
			Values: []model.Value{model.In(float64(n), "1"), model.In(float64(len(in.Voltage)), "1")}, Hint: "log four readings or more, each with its time"}
	case !(in.Voltage[0] > in.Voltage[n-1]):
		return noFall()
	}
	for i := range n - 1 {
		if !(in.Time[i+1] > in.Time[i]) {
			return notLater(in.Time[i], in.Time[i+1])
		}
	}
	return nil
}

func notLater(before, after float64) error {
	return &model.Error{Field: "time", Summary: "goes from {0} to {1}, which is no later",
		Values: []model.Value{model.In(before, "s"), model.In(after, "s")}, Hint: "put the readings in their order, each time once"}
}

// fit finds V0, C0 and k, first by the charge over the voltage, which is linear in
// them, then by steps with the scatter in the voltage.
func (in FitCapacitanceInput) fit() (curve, error) {
	n := len(in.Time)
	v := make([]float64, n)
	rows := mat.NewDense(n, 3, nil)
	gone := mat.NewVecDense(n, nil)
	for i := range v {
		v[i] = in.Voltage[i] + in.Current*in.Resistance
		rows.SetRow(i, []float64{1, -v[i], -v[i] * v[i] / 2})
		gone.SetVec(i, in.Current*(in.Time[i]-in.Time[0]))
	}
	var first mat.VecDense
	if err := first.SolveVec(rows, gone); err != nil {
		return curve{}, oneMoment()
	}
	c0, k := first.AtVec(1), first.AtVec(2)
	v0 := v[0]
	return steps([]float64{v0, c0, k}, v, func(p []float64, i int, by []float64) float64 {
		q := p[1]*p[0] + p[2]*p[0]*p[0]/2 - gone.AtVec(i)
		root := math.Sqrt(max(p[1]*p[1]+2*p[2]*q, 1e-12*p[1]*p[1]))
		at := 2 * q / (p[1] + root)
		c := p[1] + p[2]*at
		by[0], by[1], by[2] = (p[1]+p[2]*p[0])/c, (p[0]-at)/c, (p[0]*p[0]-at*at)/2/c
		return at
	})
}

// FitRestInput is the log of a rest after a fast charge.
type FitRestInput struct {
	Store       Store     `help:"a cell or pack with its capacitance, and its slope if that is known; not its slow branch"`
	Time        []float64 `unit:"s" same:"log" help:"since the end of the charge: a column of the log"`
	Voltage     []float64 `unit:"V" range:"(0,)" same:"log" help:"at rest"`
	SlowVoltage float64   `unit:"V" range:"[0,)" default:"0 V" help:"at which the store had rested before the charge"`
}

// FitRestResult is the slow branch that the log shows.
type FitRestResult struct {
	SlowCapacitance  float64 `unit:"F" estimated:"true" show:"1" help:"for the store"`
	USlowCapacitance float64 `unit:"F" help:"its standard uncertainty, from the scatter"`
	SlowResistance   float64 `unit:"Ω" estimated:"true" show:"2" help:"for the store"`
	USlowResistance  float64 `unit:"Ω" help:"its standard uncertainty, from the scatter"`
	Settled          float64 `unit:"V" estimated:"true" show:"3" help:"where the log would end"`
	TimeConstant     float64 `unit:"s" help:"of the fall"`
	Scatter          float64 `unit:"V" help:"of the readings about the curve"`
	Freedom          int     `help:"degrees of freedom: readings less three"`
	model.Estimate
}

// FitRest finds the slow branch of a store from a rest after a fast charge, by least
// squares.
//
// Formula: V = V_end + (V_0 − V_end)·e^(−t/τ) through all readings, by least squares, so that V_0 = V_end + Σ (V − V_end)·f/Σ f², f = e^(−t/τ); C_slow = (C0·(V_0 − V_end) + k·(V_0² − V_end²)/2)/(V_end − V_slow); R_slow = τ·(C_end + C_slow)/(C_end·C_slow), C_end = C0 + k·V_end, C0 = C − 0.6·k·V_rated.
//
// Letters: t time; V voltage; V_slow slow_voltage; C store.capacitance; k store.capacitance_slope or 0 F/V; V_rated store.rated_voltage; V_end = settled; τ = time_constant; C_slow = slow_capacitance; R_slow = slow_resistance.
//
// Validity: a charge that is quick against τ, then some minutes without a load; a meter of 1 MΩ or more; leakage neglected. One branch of several: what settles over hours is not in it.
//
// Source: conservation of charge; L. Zubieta, R. Bonert, IEEE Trans. Ind. Appl. 36 (2000) 199, from memory; JCGM 100:2008, H.3 for the uncertainties.
//
// Example:
//
//	t = [0 s, 30 s, 60 s, 120 s, 240 s]
//	V = [12.50 V, 11.90 V, 11.57 V, 11.27 V, 11.17 V]
//	rest = fit_rest(capacitor(capacitance: 15 F, rated_voltage: 13.5 V), t, V)
func FitRest(in FitRestInput) (FitRestResult, error) {
	if err := in.check(); err != nil {
		return FitRestResult{}, err
	}
	f, err := in.fit()
	if err != nil {
		return FitRestResult{}, err
	}
	return in.branch(f)
}

func (in FitRestInput) check() error {
	n := len(in.Time)
	err := in.Store.check("store")
	switch {
	case err != nil:
		return err
	case in.Store.law().Lags():
		return &model.Error{Field: "store.slow_capacitance", Summary: "is given, and it is what is looked for", Hint: "give the store without its slow branch"}
	case n < 4 || len(in.Voltage) != n:
		return &model.Error{Field: "time", Summary: "has {0} readings for {1} voltages; a curve and its scatter want four of each",
			Values: []model.Value{model.In(float64(n), "1"), model.In(float64(len(in.Voltage)), "1")}, Hint: "log four readings or more, each with its time"}
	case !(in.Voltage[0] > in.Voltage[n-1]):
		return noFall()
	}
	for i := range n - 1 {
		if !(in.Time[i+1] > in.Time[i]) {
			return notLater(in.Time[i], in.Time[i+1])
		}
	}
	return nil
}

// fit finds the voltages at the end and at the start, and the time constant: the best
// of a row of them at first, each of which leaves a straight line.
func (in FitRestInput) fit() (curve, error) {
	n := len(in.Time)
	best, start := math.Inf(1), []float64{}
	for part := 0.05; part < 4; part *= 1.2 {
		tau := part * (in.Time[n-1] - in.Time[0])
		fades := make([]float64, n)
		for i, t := range in.Time {
			fades[i] = math.Exp(-t / tau)
		}
		if l, err := fitLine(fades, in.Voltage, 0); err == nil && l.Scatter < best {
			best, start = l.Scatter, []float64{l.Intercept, l.Slope, tau}
		}
	}
	if len(start) == 0 || start[1] <= 0 {
		return curve{}, noFall()
	}
	return steps(start, in.Voltage, func(p []float64, i int, by []float64) float64 {
		fade := math.Exp(-in.Time[i] / p[2])
		by[0], by[1], by[2] = 1, fade, p[1]*fade*in.Time[i]/(p[2]*p[2])
		return p[0] + p[1]*fade
	})
}

// branch is the slow branch of a fitted fall.
func (in FitRestInput) branch(f curve) (FitRestResult, error) {
	l, end, start, tau := in.Store.law(), f.p[0], f.p[0]+f.p[1], f.p[2]
	gap := end - in.SlowVoltage
	if !(gap > 0 && f.p[1] > 0 && tau > 0) {
		return FitRestResult{}, &model.Error{Field: "slow_voltage", Summary: "is {0}, and the log would end at {1}: a slow branch stood below it",
			Values: []model.Value{model.In(in.SlowVoltage, "V"), model.In(end, "V")}, Hint: "give the voltage of the long rest before the charge, and log for longer"}
	}
	slow, c := l.Charge(end, start)/gap, l.At(end)
	byEnd := -l.At(end)/gap - slow/gap + l.At(start)/gap // of the slow capacitance, the fall kept
	byFall := l.At(start) / gap
	through := tau * (1/c + 1/slow)
	out := FitRestResult{SlowCapacitance: slow, SlowResistance: through, Settled: end, TimeConstant: tau, Scatter: f.scatter, Freedom: f.freedom}
	bySlow := -tau / (slow * slow)
	out.Estimate = f.spread([]float64{byEnd, byFall, 0},
		[]float64{bySlow*byEnd - tau*l.Slope/(c*c), bySlow * byFall, through / tau}, []float64{1, 0, 0})
	out.USlowCapacitance, out.USlowResistance = math.Sqrt(out.Covariance[0][0]), math.Sqrt(out.Covariance[1][1])
	return out, nil
}
