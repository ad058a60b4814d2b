package drive

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

// ActuatorDiscInput is what [ActuatorDisc] wants.
type ActuatorDiscInput struct {
	Diameter float64  `unit:"mm" range:"(0,)" help:"of the disc"`
	Power    *float64 `unit:"W" range:"(0,)" choose:"given" help:"at the shaft" symbol:"P"`
	Thrust   *float64 `unit:"N" range:"(0,)" choose:"given" help:"wanted"`
	Airspeed float64  `unit:"m/s" range:"[0,)" default:"0 m/s" help:"along the shaft"`
	Density  float64  `unit:"kg/m^3" range:"(0,)" default:"1.225 kg/m^3" help:"of the air"`
}

// ActuatorDiscResult is what [ActuatorDisc] answers.
type ActuatorDiscResult struct {
	Thrust          float64 `unit:"N" show:"1" help:"no propeller of this diameter pulls more on that power"`
	Power           float64 `unit:"W" show:"2" help:"no propeller of this diameter needs less" symbol:"P"`
	Efficiency      float64 `unit:"%" show:"3" help:"thrust times airspeed over power, at best" symbol:"eta"`
	InducedVelocity float64 `unit:"m/s" show:"4" help:"added to the air at the disc; twice that far behind"`
}

// ActuatorDisc says what no propeller of a diameter can better.
//
// Formula: A = π·d²/4; T = 2·ρ·A·v·(V + v), P = T·(V + v); standing still T = (2·ρ·A·P²)^⅓; efficiency η = V/(V + v).
//
// Letters: d diameter; V airspeed; ρ density; T = thrust; P = power; v = induced_velocity; η = efficiency.
//
// Validity: an upper bound, without swirl and blade drag.
//
// Source: momentum theory; M. S. Selig and G. K. Ananda, UIUC report AE 15-01 (2015), equation 10.
//
// Example:
//
//	ideal = actuator_disc(diameter: 8 in, power: 20 W)
//	most [N] = ideal.thrust
func ActuatorDisc(in ActuatorDiscInput) (ActuatorDiscResult, error) {
	if err := require.All(require.Positive("diameter", in.Diameter, "m"),
		require.NotNegative("airspeed", in.Airspeed, "m/s"),
		require.Positive("density", in.Density, "kg/m^3")); err != nil {
		return ActuatorDiscResult{}, err
	}
	flow := 2 * in.Density * math.Pi / 4 * in.Diameter * in.Diameter // 2ρA
	var v float64
	switch {
	case in.Thrust != nil && in.Power == nil && *in.Thrust > 0:
		v = inducedByThrust(*in.Thrust/flow, in.Airspeed)
	case in.Power != nil && in.Thrust == nil && *in.Power > 0:
		v = inducedByPower(*in.Power/flow, in.Airspeed)
	default:
		return ActuatorDiscResult{}, &model.Error{Field: "power", Summary: "the disc wants either a power or a thrust, above zero",
			Hint: "give one of power and thrust"}
	}
	total := in.Airspeed + v
	return ActuatorDiscResult{Thrust: flow * v * total, Power: flow * v * total * total,
		Efficiency: in.Airspeed / total, InducedVelocity: v}, nil
}

// inducedByThrust solves v·(V + v) = f.
func inducedByThrust(f, airspeed float64) float64 {
	return 2 * f / (airspeed + math.Sqrt(airspeed*airspeed+4*f))
}

// inducedByPower solves v·(V + v)² = f, by halving between 0 and the static
// answer ∛f, which is more than any in flight.
func inducedByPower(f, airspeed float64) float64 {
	high := math.Cbrt(f)
	if airspeed == 0 {
		return high
	}
	return numeric.Bisect(0, high, func(v float64) bool { return v*(airspeed+v)*(airspeed+v) > f })
}
