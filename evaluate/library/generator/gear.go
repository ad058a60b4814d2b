package generator

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// GearTrainInput is what [GearTrain] reads.
type GearTrainInput struct {
	Rotation        float64   `unit:"rpm" range:"[0,)" help:"of the first wheel"`
	Torque          float64   `unit:"N·m" range:"[0,)" help:"on the first wheel"`
	Driving         []float64 `unit:"1" same:"stages" range:"(0,)" help:"teeth of the driving wheel of each stage"`
	Driven          []float64 `unit:"1" same:"stages" range:"(0,)" help:"teeth of the driven wheel of each stage"`
	StageEfficiency float64   `unit:"1" default:"0.95" range:"(0,1]" help:"of one stage"`
}

// GearTrainResult is what comes out at the last wheel.
type GearTrainResult struct {
	Ratio      float64 `unit:"1" show:"1" help:"turns of the last wheel to one of the first"`
	Rotation   float64 `unit:"rpm" show:"2"`
	Torque     float64 `unit:"N·m" show:"3"`
	PowerIn    float64 `unit:"W" help:"at the first wheel"`
	PowerOut   float64 `unit:"W"`
	Efficiency float64 `unit:"1" symbol:"eta"`
}

// GearTrain is a train of plain gears, belts or chains in stages.
//
// Formula: u = Π (Z1/Z2), ω2 = ω1·u; T2 = T1·η/u, η = η1^n over n stages; P1 = T1·ω1, P2 = P1·η
//
// Letters: Z1 driving; Z2 driven; n #driving; ω1 rotation; T1 torque; η1 stage_efficiency; u = ratio; ω2 = rotation; T2 = torque; η = efficiency; P1 = power_in; P2 = power_out.
//
// Validity: spur stages 0.95 to 0.99 when good, 0.85 to 0.95 in hobby plastic
// (common practice).
//
// Source: textbook
//
// Example:
//
//	train = gear_train(60 rpm, 8 N·m, [60, 48], [12, 10])
//	n [rpm] = train.rotation
func GearTrain(in GearTrainInput) (GearTrainResult, error) {
	if len(in.Driving) != len(in.Driven) || len(in.Driving) == 0 {
		return GearTrainResult{}, &model.Error{Field: "driven", Summary: "each stage has one driving and one driven wheel",
			Hint: "give as many teeth in driven as in driving"}
	}
	ratio, efficiency := 1.0, 1.0
	for i := range in.Driving {
		if err := require.All(require.Positive("driving", in.Driving[i], "1"),
			require.Positive("driven", in.Driven[i], "1")); err != nil {
			return GearTrainResult{}, err
		}
		ratio *= in.Driving[i] / in.Driven[i]
		efficiency *= in.StageEfficiency
	}
	power := in.Torque * in.Rotation
	return GearTrainResult{Ratio: ratio, Rotation: in.Rotation * ratio, Torque: in.Torque * efficiency / ratio,
		PowerIn: power, PowerOut: power * efficiency, Efficiency: efficiency}, nil
}

// PlanetaryGearInput is what [PlanetaryGear] reads.
type PlanetaryGearInput struct {
	Sun  float64 `unit:"1" range:"(0,)" help:"teeth"`
	Ring float64 `unit:"1" range:"(0,)" help:"teeth, held fast"`
}

// PlanetaryGearResult is the ratio alone.
type PlanetaryGearResult struct {
	Ratio float64 `unit:"1" help:"turns of the sun to one of the carrier"`
}

// PlanetaryGear is a planetary stage with its ring held and the carrier cranked.
//
// Formula: ratio u = 1 + Z_ring/Z_sun
//
// Letters: Z_ring ring; Z_sun sun; u = result.
//
// Validity: whole teeth, Z_ring − Z_sun even, so that a planet fits between; planets
// evenly spaced want a number that divides Z_ring + Z_sun.
//
// Source: Willis equation, textbook
//
// Example:
//
//	ratio = planetary_gear(18, 54)
func PlanetaryGear(in PlanetaryGearInput) (PlanetaryGearResult, error) {
	if err := require.All(require.Positive("sun", in.Sun, "1"), require.Positive("ring", in.Ring, "1")); err != nil {
		return PlanetaryGearResult{}, err
	}
	if in.Ring <= in.Sun {
		return PlanetaryGearResult{}, &model.Error{Field: "ring", Summary: "the ring goes round the sun, so it has more teeth",
			Hint: "give the ring more teeth than the sun"}
	}
	if apart := in.Ring - in.Sun; math.Mod(apart, 2) != 0 || math.Mod(in.Sun, 1) != 0 {
		return PlanetaryGearResult{}, &model.Error{Field: "ring", Summary: "has {0} teeth more than the sun, and a planet takes half of them",
			Values: []model.Value{model.In(apart, "1")}, Hint: "choose whole teeth that differ by an even number"}
	}
	return PlanetaryGearResult{1 + in.Ring/in.Sun}, nil
}
