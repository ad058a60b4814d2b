package drive

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// StaticCoefficientsInput is what [StaticCoefficients] wants.
type StaticCoefficientsInput struct {
	Diameter float64     `unit:"mm" range:"(0,)" help:"of the propeller"`
	Speed    []float64   `unit:"rpm" range:"(0,)" same:"runs" help:"of each run, standing still"`
	Thrust   []float64   `unit:"N" range:"(0,)" same:"runs" help:"of each run, on the scales"`
	Power    []float64   `unit:"W" range:"(0,)" same:"runs" choose:"shaft" help:"of each run, at the shaft"`
	Current  []float64   `unit:"A" range:"(0,)" same:"runs" choose:"shaft" help:"of each run, into the motor"`
	Motor    *MotorModel `help:"on the shaft, without a gear, where currents are given: a current less the idle current is the torque"`
	Density  float64     `unit:"kg/m^3" range:"(0,)" default:"1.225 kg/m^3" help:"of the air that day, see air"`
}

// StaticCoefficientsResult is what [StaticCoefficients] answers.
type StaticCoefficientsResult struct {
	CT0           float64 `unit:"1" name:"CT0" estimated:"true" show:"1" help:"thrust coefficient standing still"`
	CP0           float64 `unit:"1" name:"CP0" estimated:"true" show:"2" help:"power coefficient standing still"`
	FigureOfMerit float64 `unit:"1" show:"3" help:"of the ideal disc's power: 0.4 to 0.7 for small propellers"`
	UCT0          float64 `unit:"1" name:"u_CT0" help:"standard uncertainty, from the scatter of the runs"`
	UCP0          float64 `unit:"1" name:"u_CP0" help:"standard uncertainty, from the scatter of the runs"`
	Freedom       int     `help:"degrees of freedom: runs less one"`
	model.Estimate
	model.Cautions
}

// StaticCoefficients finds a propeller's coefficients from runs that stand still: thrust on the scales, speed, and power or current.
//
// Formula: n = ω/(2·π), turns a second, over N runs CT0 = Σ (T/(ρ·n²·D⁴))/N, CP0 = Σ (P/(ρ·n³·D⁵))/N; P = (I − I0)·ω/Kv where currents are given; figure of merit M = CT0^1.5·√(2/π)/CP0; u_CT = √(Σ (T/(ρ·n²·D⁴) − CT0)²/(N·(N − 1))), u_CP = √(Σ (P/(ρ·n³·D⁵) − CP0)²/(N·(N − 1))).
//
// Letters: D diameter; ω speed; N #speed; T thrust; P power; I current; I0 motor.idle_current; Kv motor.Kv; ρ density; CT0 = CT0; CP0 = CP0; M = figure_of_merit; u_CT = u_CT0; u_CP = u_CP0.
//
// Validity: clear air before and behind the propeller, at the speeds flown: small propellers pull better as they turn faster.
//
// Source: R. W. Deters, G. K. Ananda and M. S. Selig, AIAA 2014-2151, equations 2 to 8; JCGM 100:2008, 4.2.
//
// Example:
//
//	bench = static_coefficients(254 mm, [4029 rpm, 5147 rpm], [2.66 N, 4.64 N], power: [18.3 W, 40.9 W])
//	prop = propeller(diameter: 254 mm, pitch: 4.7 in, CT0: bench.CT0, CP0: bench.CP0)
func StaticCoefficients(in StaticCoefficientsInput) (StaticCoefficientsResult, error) {
	powers, err := in.powers()
	if err != nil {
		return StaticCoefficientsResult{}, err
	}
	square := in.Diameter * in.Diameter
	scale := in.Density * square * square
	thrusts, works := make([]float64, len(powers)), make([]float64, len(powers))
	for i, w := range in.Speed {
		n := w / (2 * math.Pi)
		thrusts[i], works[i] = in.Thrust[i]/(scale*n*n), powers[i]/(scale*in.Diameter*n*n*n)
	}
	out := StaticCoefficientsResult{CT0: mean(thrusts), CP0: mean(works), Freedom: max(len(powers)-1, 1)}
	if err := possible("thrust", MeasuredRow{CT: out.CT0, CP: out.CP0}); err != nil {
		return StaticCoefficientsResult{}, err
	}
	out.FigureOfMerit = merit(out.CT0, out.CP0)
	both := covariance(thrusts, works)
	out.Estimate = model.Estimate{Covariance: [][]float64{{covariance(thrusts, thrusts), both}, {both, covariance(works, works)}}, DegreesOfFreedom: float64(out.Freedom)}
	out.UCT0, out.UCP0 = math.Sqrt(out.Covariance[0][0]), math.Sqrt(out.Covariance[1][1])
	Spinning(&out.Cautions)
	return out, nil
}

// powers are those at the shaft of each run, all inputs checked.
func (in StaticCoefficientsInput) powers() ([]float64, error) {
	n := len(in.Speed)
	given, name := in.Power, "power"
	if given == nil {
		given, name = in.Current, "current"
	}
	if n == 0 || len(in.Thrust) != n || len(given) != n {
		return nil, &model.Error{Field: "speed", Summary: "speeds, thrusts and " + name + "s do not make runs: {0}, {1} and {2}",
			Values: []model.Value{model.In(float64(n), "1"), model.In(float64(len(in.Thrust)), "1"), model.In(float64(len(given)), "1")},
			Hint:   "give speed, thrust, and power or current of each run"}
	}
	bounds := []error{require.Positive("diameter", in.Diameter, "m"), require.Positive("density", in.Density, "kg/m^3")}
	for i := range n {
		bounds = append(bounds, require.Positive("speed", in.Speed[i], "rad/s"), require.Positive("thrust", in.Thrust[i], "N"), require.Positive(name, given[i], "1"))
	}
	if err := require.All(bounds...); err != nil || in.Power != nil {
		return given, err
	}
	if in.Motor == nil {
		return nil, &model.Error{Field: "motor", Summary: "currents alone say nothing of the shaft", Hint: "give the motor, or power instead of current"}
	}
	if err := in.Motor.check("motor"); err != nil {
		return nil, err
	}
	powers := make([]float64, n)
	for i, w := range in.Speed {
		powers[i] = (given[i] - in.Motor.IdleCurrent) * w / in.Motor.Kv
		if !(powers[i] > 0) {
			return nil, &model.Error{Field: "current", Summary: "{0} is no more than the motor's idle current, {1}",
				Values: []model.Value{model.In(given[i], "A"), model.In(in.Motor.IdleCurrent, "A")}, Hint: "give the current with the propeller on"}
		}
	}
	return powers, nil
}

func mean(values []float64) (m float64) {
	for _, x := range values {
		m += x / float64(len(values))
	}
	return m
}

// covariance is that of the means of two columns; 0 of single readings.
func covariance(a, b []float64) (c float64) {
	n, ma, mb := float64(len(a)), mean(a), mean(b)
	if n < 2 {
		return 0
	}
	for i := range a {
		c += (a[i] - ma) * (b[i] - mb) / (n * (n - 1))
	}
	return c
}
