package drive

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// PropellerInput is what [Propeller] wants.
type PropellerInput struct{ PropellerModel }

// PropellerResult is what [Propeller] answers.
type PropellerResult struct {
	PropellerModel
	FigureOfMerit  *float64 `unit:"1" show:"1" help:"of the ideal disc's power, standing still: 0.4 to 0.7 for small propellers"`
	BestEfficiency float64  `unit:"%" show:"2" help:"thrust power over shaft power, at the best advance ratio"`
	model.Estimate
	model.Cautions
}

// Propeller describes a propeller by two coefficients, or by what was measured of it.
//
// Measured rows of J, CT and CP are better than the coefficients, and are
// interpolated but never extrapolated. Small propellers pull better as they
// turn faster: rows that name their speed are interpolated by it too, and
// beyond the runs the nearest serves. A zero_thrust_J from the pitch carries the
// scatter of published propellers into what is worked from it.
//
// Formula: x = J/J0; CT = CT0·(1 − x)·(1 + 0.45·x); CP = CP0·(1 − 0.57·x²), up to an x of 1.2; J0 = 0.166 + 0.901·p/D, standard deviation 10 %, if not given; figure of merit M = CT0^1.5·√(2/π)/CP0; CP ≥ CT·(J + √(J² + 8·CT/π))/2, the ideal disc's. Beyond, straight over n·D/V to a held propeller's drag 0.8·σ·A·q and torque drag·J0·D/(2·π).
//
// Letters: CT0 CT0; CP0 CP0; p pitch; D diameter; J0 = zero_thrust_J; M = figure_of_merit.
//
// Validity: two blades of 2 in to 12 in; with the true J0 the thrust of a measured one lies −20 % to +9 % from the curves (10 % to 90 % of 203), more with one from the pitch.
//
// Source: UIUC Propeller Database vols. 1 to 3; J. B. Brandt and M. S. Selig, AIAA 2011-1255; coefficients as in R. W. Deters, G. K. Ananda and M. S. Selig, AIAA 2014-2151; held propeller: D. P. Raymer, Aircraft Design (from memory).
//
// Example:
//
//	prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
func Propeller(in PropellerInput) (PropellerResult, error) {
	d, err := in.Disc("")
	if err != nil {
		return PropellerResult{}, err
	}
	out := PropellerResult{PropellerModel: in.PropellerModel, BestEfficiency: d.bestEfficiency()}
	if d.Rows == nil && in.ZeroThrustJ == nil {
		out.ZeroThrustJ = &d.J0
		u := pitchScatter * d.J0
		out.Estimate = model.Estimate{Covariance: [][]float64{{u * u}}, DegreesOfFreedom: pitchPropellers - 1}
	}
	if d.first == 0 {
		still, _, _ := d.plain(0, 0)
		m := merit(still.CT, still.CP)
		out.FigureOfMerit = &m
	}
	d.tooGood(&out.Cautions)
	Spinning(&out.Cautions)
	return out, nil
}

// PropellerPointInput is what [PropellerPoint] wants.
type PropellerPointInput struct {
	Propeller PropellerModel `help:"the propeller"`
	Speed     float64        `unit:"rpm" range:"(0,)" help:"of its shaft"`
	Airspeed  float64        `unit:"m/s" range:"[0,)" default:"0 m/s" help:"along the shaft"`
	Density   float64        `unit:"kg/m^3" range:"(0,)" default:"1.225 kg/m^3" help:"of the air"`
}

// PropellerPointResult is what [PropellerPoint] answers.
type PropellerPointResult struct {
	Thrust     float64 `unit:"N" show:"1" help:"negative where it drags"`
	Power      float64 `unit:"W" show:"2" help:"at the shaft" symbol:"P"`
	Torque     float64 `unit:"N·m" help:"at the shaft"`
	Efficiency float64 `unit:"%" show:"3" help:"thrust times airspeed over shaft power" symbol:"eta"`
	J          float64 `unit:"1" name:"J" help:"advance ratio V/(n·D)"`
	TipSpeed   float64 `unit:"m/s" help:"of the blades through the air"`
	model.Cautions
}

// PropellerPoint says what a propeller pulls and takes at a speed.
//
// Formula: n = ω/(2·π), turns a second, J = V/(n·D), x = J/J0; of curves, up to an x of 1.2, T = CT0·(1 − x)·(1 + 0.45·x)·ρ·n²·D⁴, P = CP0·(1 − 0.57·x²)·ρ·n³·D⁵; Q = P/(2·π·n); efficiency η = T·V/P; tip v = √((π·n·D)² + V²).
//
// Letters: ω speed; V airspeed; ρ density; D propeller.diameter; CT0 propeller.CT0; CP0 propeller.CP0; J0 propeller.zero_thrust_J; T = thrust; P = power; Q = torque; η = efficiency; J = J; v = tip_speed.
//
// Validity: air along the shaft; tip below about half the speed of sound; past zero thrust as propeller says.
//
// Source: R. W. Deters, G. K. Ananda and M. S. Selig, AIAA 2014-2151, equations 2 to 8.
//
// Example:
//
//	prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
//	climb = propeller_point(prop, 6000 rpm, airspeed: 7 m/s)
//	pull [N] = climb.thrust
func PropellerPoint(in PropellerPointInput) (PropellerPointResult, error) {
	d, err := in.Propeller.Disc("propeller")
	if err != nil {
		return PropellerPointResult{}, err
	}
	if err := require.All(require.Positive("speed", in.Speed, "rad/s"),
		require.NotNegative("airspeed", in.Airspeed, "m/s"),
		require.Positive("density", in.Density, "kg/m^3")); err != nil {
		return PropellerPointResult{}, err
	}
	n := in.Speed / (2 * math.Pi)
	thrust, torque, ok := d.Load(n, in.Airspeed, in.Density)
	if !ok {
		return PropellerPointResult{}, d.outside("propeller", in.Airspeed/(n*d.Diameter))
	}
	out := PropellerPointResult{Thrust: thrust, Torque: torque, Power: torque * in.Speed,
		J: in.Airspeed / (n * d.Diameter), TipSpeed: math.Hypot(math.Pi*n*d.Diameter, in.Airspeed)}
	if out.Power != 0 {
		out.Efficiency = thrust * in.Airspeed / out.Power
	}
	Spinning(&out.Cautions)
	return out, nil
}
