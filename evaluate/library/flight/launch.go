package flight

import (
	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/glide"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// launchMargin is how far above the stall a model should leave the hand.
const launchMargin = 1.2

// HandLaunchInput is what [HandLaunch] wants.
type HandLaunchInput struct {
	Airframe     glide.Plane `help:"the airframe"`
	ThrowSpeed   float64     `unit:"m/s" range:"(0,)" help:"of the hand over the ground; 5 to 8 is a firm throw"`
	Headwind     float64     `unit:"m/s" default:"0 m/s" help:"into the face; a tailwind is negative"`
	StaticThrust *float64    `unit:"N" range:"[0,)" help:"of the propeller standing still"`
}

// HandLaunchResult is what [HandLaunch] answers.
type HandLaunchResult struct {
	Airspeed       float64  `unit:"m/s" help:"as it leaves the hand"`
	OverStall      float64  `unit:"1" show:"1" help:"that speed over the stall speed"`
	ThrowNeeded    float64  `unit:"m/s" show:"2" help:"over the ground, for 1.2 times the stall speed"`
	ThrustToWeight *float64 `unit:"1" help:"static thrust over weight"`
	model.Cautions
}

// HandLaunch reports whether a throw is fast enough to fly.
//
// Formula: airspeed V = V_throw + w, wanted at least 1.2 times the stall speed, V_stall = √(2·m·g/(ρ·S·CL_max)), g = 9.80665 m/s², over the stall x = V/V_stall, throw needed V_need = max(1.2·V_stall − w, 0); thrust to weight f = T/(m·g).
//
// Letters: V_throw throw_speed; w headwind; T static_thrust; m airframe.mass; S airframe.area; CL_max airframe.CL_max; ρ airframe.density; V = airspeed; x = over_stall; V_need = throw_needed; f = thrust_to_weight.
//
// Validity: a level throw; the margin is a rule of thumb.
//
// Source: common practice.
//
// Example:
//
//	plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
//	throw = hand_launch(plane, throw_speed: 6 m/s, headwind: 2 m/s, static_thrust: 2.4 N)
func HandLaunch(in HandLaunchInput) (HandLaunchResult, error) {
	if err := in.Airframe.Check("airframe"); err != nil {
		return HandLaunchResult{}, err
	}
	if err := require.Positive("throw_speed", in.ThrowSpeed, "m/s"); err != nil {
		return HandLaunchResult{}, err
	}
	stall := in.Airframe.StallSpeed()
	air := in.ThrowSpeed + in.Headwind
	out := HandLaunchResult{Airspeed: air, OverStall: air / stall, ThrowNeeded: max(launchMargin*stall-in.Headwind, 0)}
	if out.OverStall < launchMargin {
		out.Raise(model.Caution{ID: "launch-too-slow", Level: model.Warning,
			Summary: "It leaves the hand at {0}; {1} is wanted.",
			Values:  []model.Value{model.In(air, "m/s"), model.In(launchMargin*stall, "m/s")},
			Why:     "That is 1.2 times the stall speed. It drops a wing before the motor has it flying; a lighter one needs less.",
			Hint:    "Throw harder, or into more wind.", Source: "common practice"})
	}
	if in.StaticThrust != nil {
		ratio := *in.StaticThrust / in.Airframe.Weight()
		out.ThrustToWeight = &ratio
		drive.Spinning(&out.Cautions)
	}
	glide.Flying(&out.Cautions)
	return out, nil
}
