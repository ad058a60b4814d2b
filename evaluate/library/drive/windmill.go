package drive

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

// WindmillingInput is what [Windmilling] wants.
type WindmillingInput struct {
	Motor          MotorModel     `help:"the motor, without current"`
	Propeller      PropellerModel `help:"on its shaft, not folding"`
	Airspeed       float64        `unit:"m/s" range:"(0,)" help:"in the glide"`
	Gearing        float64        `unit:"1" range:"(0,)" default:"1" help:"turns of the motor for one of the propeller"`
	GearEfficiency float64        `unit:"%" range:"(0,100]" default:"100 %" help:"of that gear"`
	Density        float64        `unit:"kg/m^3" range:"(0,)" default:"1.225 kg/m^3" help:"of the air"`
}

// WindmillingResult is what [Windmilling] answers.
type WindmillingResult struct {
	DragArea float64 `unit:"cm^2" show:"1" help:"drag over dynamic pressure: the airframe's propeller_drag"`
	Drag     float64 `unit:"N" help:"at this airspeed"`
	Speed    float64 `unit:"rpm" show:"2" help:"of the propeller; 0 where the motor holds it"`
	Turns    bool    `help:"whether the wind turns it"`
	model.Cautions
}

// Windmilling reports whether the wind turns a propeller against its motor in the glide, and what it drags.
//
// Formula: CP·ρ·n²·D⁵/(2·π) = −I0/Kv, both coefficients straight over n·D/V from the last advance ratio that was fitted or measured to the held propeller's drag 0.8·σ·A·q and torque drag·J0·D/(2·π); held by the motor where no speed answers; drag F = S·q, q = ρ·V²/2.
//
// Letters: V airspeed; ρ density; S = drag_area; F = drag.
//
// Validity: a motor without current, brake off; an estimate, which measured rows of negative CT and CP better. At a fine pitch the drag of a propeller that spins freely may be half as much again.
//
// Source: UIUC Propeller Database vol. 1 for the curves; D. P. Raymer, Aircraft Design, for the stopped propeller (from memory); its torque: a force square to the blade (derived).
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
	gear := DriveModel{Motor: in.Motor, Gearing: in.Gearing, GearEfficiency: in.GearEfficiency}
	if err := require.All(require.Positive("airspeed", in.Airspeed, "m/s"),
		require.Positive("gearing", gear.gearing(), "1"), require.Efficiency("gear_efficiency", gear.gears()),
		require.Positive("density", in.Density, "kg/m^3")); err != nil {
		return WindmillingResult{}, err
	}
	if !d.bridged {
		return WindmillingResult{}, d.endsPulling("propeller")
	}
	n := d.Windmill(in.Airspeed, in.Density, gear.Holding())
	thrust, _, _ := d.Load(n, in.Airspeed, in.Density)
	q := 0.5 * in.Density * in.Airspeed * in.Airspeed
	return WindmillingResult{DragArea: -thrust / q, Drag: -thrust, Speed: 2 * math.Pi * n, Turns: n > 0}, nil
}

// Windmill is the speed, in turns a second, at which the wind turns a propeller
// against a torque that holds it; 0 where it does not, and NaN where measured
// data ends before the propeller drags.
func (d *Disc) Windmill(airspeed, density, holding float64) float64 {
	over := func(n float64) bool {
		_, torque, _ := d.Load(n, airspeed, density)
		return torque+holding > 0
	}
	switch {
	case !d.bridged:
		return math.NaN()
	case airspeed == 0 || over(0):
		return 0
	}
	high := airspeed / (d.J0 * d.Diameter) // at zero thrust it takes power
	for range mostDoublings {
		if over(high) {
			break
		}
		high *= 2
	}
	return numeric.Bisect(0, high, over)
}

// Stopped is the drag area of the propeller standing still.
func (d *Disc) Stopped() float64 { return -2 * d.still.CT * d.Diameter * d.Diameter }

// endsPulling says that nothing was measured of a propeller that drags.
func (d *Disc) endsPulling(record string) error {
	return &model.Error{Field: require.Field(record, "data"), Summary: "the measured rows end at an advance ratio of {0}, where the propeller still pulls: nothing says what it drags",
		Values: []model.Value{model.In(d.last, "1")}, Hint: "add rows beyond zero thrust, or give the coefficients instead"}
}
