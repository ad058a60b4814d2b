package drive

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

// WindmillingInput is what [Windmilling] wants.
type WindmillingInput struct {
	Motor     MotorModel     `help:"the motor, without current"`
	Propeller PropellerModel `help:"on its shaft, not folding"`
	Airspeed  float64        `unit:"m/s" range:"(0,)" help:"in the glide"`
	Solidity  float64        `unit:"1" range:"(0,1)" default:"0.1" help:"blade area over disc area, about 0.1 for two blades"`
	Density   float64        `unit:"kg/m^3" range:"(0,)" default:"1.225 kg/m^3" help:"of the air"`
}

// WindmillingResult is what [Windmilling] answers.
type WindmillingResult struct {
	DragArea float64 `unit:"cm^2" show:"1" help:"drag over dynamic pressure: the airframe's propeller_drag"`
	Drag     float64 `unit:"N" show:"2" help:"at this airspeed"`
	Speed    float64 `unit:"rpm" show:"3" help:"of the propeller; 0 where the motor holds it"`
	Turns    bool    `show:"4" help:"whether the wind turns it"`
	model.Cautions
}

// Windmilling reports whether the wind turns a propeller against its motor in the glide, and what it drags.
//
// Formula: CP·ρ·n²·D⁵/(2π) = −I0/Kv; held by the motor where no speed answers, with the drag of a stopped propeller, 0.8·σ·A·q.
//
// Validity: a motor without current, brake off; the curves of propeller past zero thrust are a rough guess, measured rows of negative CT and CP are better.
//
// Source: UIUC Propeller Database vol. 1 for the curves; D. P. Raymer, Aircraft Design, for the stopped propeller (from memory).
//
// Example:
//
//	motor_1 = motor(Kv: 1000 rpm/V, resistance: 0.20 Ω, idle_current: 0.35 A)
//	prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
//	held = windmilling(motor_1, prop, airspeed: 7 m/s)
func Windmilling(in WindmillingInput) (WindmillingResult, error) {
	if err := in.Motor.check("motor"); err != nil {
		return WindmillingResult{}, err
	}
	d, err := in.Propeller.Disc("propeller")
	if err != nil {
		return WindmillingResult{}, err
	}
	if err := require.All(require.Positive("airspeed", in.Airspeed, "m/s"),
		require.Positive("solidity", in.Solidity, "1"),
		require.Positive("density", in.Density, "kg/m^3")); err != nil {
		return WindmillingResult{}, err
	}
	q := 0.5 * in.Density * in.Airspeed * in.Airspeed
	n, err := in.speed(d)
	if err != nil {
		return WindmillingResult{}, err
	}
	if n > 0 {
		thrust, _, _ := d.Load(n, in.Airspeed, in.Density)
		return WindmillingResult{DragArea: -thrust / q, Drag: -thrust, Speed: 2 * math.Pi * n, Turns: true}, nil
	}
	area := 0.8 * in.Solidity * math.Pi / 4 * d.Diameter * d.Diameter
	out := WindmillingResult{DragArea: area, Drag: area * q}
	out.Raise(model.Caution{ID: "propeller-held", Level: model.Advice,
		Summary: "the wind at {0} does not turn the propeller: it is held by the motor, with the drag of a stopped one", Values: []model.Value{model.In(in.Airspeed, "m/s")},
		Hint: "check it with a timed glide", Source: "common practice"})
	return out, nil
}

// speed is where the wind's torque is the motor's of its idle current, in turns
// a second; 0 where the motor holds.
func (in WindmillingInput) speed(d Disc) (float64, error) {
	held := in.Motor.IdleCurrent / in.Motor.Kv
	over := func(n float64) bool {
		_, torque, _ := d.Load(n, in.Airspeed, in.Density)
		return torque+held > 0
	}
	if d.Rows == nil {
		if over(0) {
			return 0, nil
		}
		return numeric.Bisect(0, in.Airspeed/(d.J0*d.Diameter), over), nil // at zero thrust it still takes power
	}
	first, last := d.Rows[0].J, d.Rows[len(d.Rows)-1].J
	low := in.Airspeed / (last * d.Diameter) * (1 + 1e-12)
	high := in.Airspeed / (max(first, 1e-6) * d.Diameter) * (1 - 1e-12)
	if over(low) || !over(high) {
		return 0, d.Unbalanced("propeller")
	}
	return numeric.Bisect(low, high, over), nil
}
