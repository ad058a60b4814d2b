package flight

import (
	"math"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/glide"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

// ClimbInput is what [Climb] wants.
type ClimbInput struct {
	Powered
	Voltage float64 `unit:"V" range:"(0,)" help:"of the pack, rested" symbol:"V"`
}

// ClimbResult is what [Climb] answers.
type ClimbResult struct {
	ClimbRate       float64 `unit:"m/s" show:"1" help:"height won in a second; negative where it sinks under power"`
	Airspeed        float64 `unit:"m/s" help:"along the path"`
	Current         float64 `unit:"A" show:"2" help:"out of the pack, with the radio's" symbol:"I"`
	TerminalVoltage float64 `unit:"V" show:"3" help:"of the pack, under this load"`
	Efficiency      float64 `unit:"%" help:"thrust power over what leaves the pack's terminals for the motor" symbol:"eta"`
	Angle           float64 `unit:"deg" help:"of the path above the horizon"`
	Thrust          float64 `unit:"N" help:"of the propeller"`
	Speed           float64 `unit:"rpm" help:"of the propeller"`
	model.Cautions
}

// Climb is how fast a model climbs on a pack's voltage and a throttle.
//
// Formula: W = m·g, g = 9.80665 m/s²; level across the path W·cos γ = CL·ρ·V²·S/2, along it T = CD·ρ·V²·S/2 + W·sin γ, CD = CD0 + k·CL², k = S/(π·e·b²), with T of operating_point at that airspeed; CL as given, or CL = min(√(CD0/k), CL_max); rate v = V·sin γ.
//
// Letters: m airframe.mass; b airframe.span; S airframe.area; e airframe.oswald; CD0 airframe.CD0; CL_max airframe.CL_max; ρ airframe.density; CL CL; v = climb_rate; V = airspeed; γ = angle; T = thrust.
//
// Validity: steady flight, paths up to 45°; the energy of a change of speed, V²/2g of height, is left out.
//
// Source: J. D. Anderson, Introduction to Flight, chapter 6; operating_point.
//
// Example:
//
//	plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
//	motor_1 = motor(Kv: 1000 rpm/V, resistance: 0.20 Ω, idle_current: 0.35 A)
//	prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
//	train = drive(motor_1, prop, speed_control(resistance: 20 mΩ), lead_resistance: 15 mΩ)
//	up = climb(plane, train, voltage: 9 V, throttle: 80 %, source_resistance: 50 mΩ)
//	w_up [m/s] = up.climb_rate
func Climb(in ClimbInput) (ClimbResult, error) {
	cl, d, err := in.ready()
	if err != nil {
		return ClimbResult{}, err
	}
	if err := require.Positive("voltage", in.Voltage, "V"); err != nil {
		return ClimbResult{}, err
	}
	c := in.conditions(in.Airframe.Reference() / math.Sqrt(cl))
	if err := c.Check(); err != nil {
		return ClimbResult{}, err
	}
	angle, w, err := in.path(d, cl, c)
	if err != nil {
		return ClimbResult{}, err
	}
	v := c.Airspeed * math.Sqrt(math.Cos(angle))
	out := ClimbResult{ClimbRate: v * math.Sin(angle), Airspeed: v, Current: w.Current, TerminalVoltage: w.TerminalVoltage,
		Efficiency: w.Efficiency, Angle: angle, Thrust: w.Thrust, Speed: w.Speed}
	in.Drive.Caution(&out.Cautions, w, c)
	sinking(&out.Cautions, out.ClimbRate)
	glide.AtStall(&out.Cautions, cl, in.Airframe.CLMax)
	glide.Flying(&out.Cautions)
	return out, nil
}

// path is the angle at which thrust, drag and weight balance, and the drive's
// working there. level are the conditions of level flight.
func (in ClimbInput) path(d *drive.Disc, cl float64, level drive.Conditions) (float64, drive.Working, error) {
	at := func(angle float64) (drive.Working, float64, error) {
		c := level
		c.Airspeed *= math.Sqrt(math.Cos(angle))
		w, err := in.Drive.Work(d, in.Voltage, c)
		q := 0.5 * c.Density * c.Airspeed * c.Airspeed * in.Airframe.Area
		return w, w.Thrust - q*in.Airframe.Drag(cl) - in.Airframe.Weight()*math.Sin(angle), err
	}
	_, excess, err := at(steepest)
	if err != nil {
		return 0, drive.Working{}, err
	}
	if excess > 0 {
		return 0, drive.Working{}, &model.Error{Field: "throttle", Summary: "the thrust carries the model past 45°",
			Hint: "use less throttle"}
	}
	var fault error
	angle := numeric.Bisect(-steepest, steepest, func(a float64) bool {
		_, excess, err := at(a)
		if err != nil {
			fault = err
		}
		return excess < 0
	})
	if fault != nil {
		return 0, drive.Working{}, fault
	}
	w, _, err := at(angle)
	return angle, w, err
}

// ready checks airframe, drive and lift coefficient.
func (in Powered) ready() (cl float64, d *drive.Disc, err error) {
	if err = in.Airframe.Check("airframe"); err != nil {
		return 0, nil, err
	}
	if d, err = in.Drive.Check("drive"); err != nil {
		return 0, nil, err
	}
	cl, err = in.Airframe.ChosenCL(in.CL)
	return cl, d, err
}

func (in Powered) conditions(airspeed float64) drive.Conditions {
	return drive.Conditions{Throttle: in.Throttle, Airspeed: airspeed, SourceResistance: in.SourceResistance,
		RadioCurrent: in.RadioCurrent, Density: in.Airframe.Density}
}

// sinking warns of a climb that is none.
func sinking(list *model.Cautions, rate float64) {
	if rate >= 0 {
		return
	}
	list.Raise(model.Caution{ID: "sinks-under-power", Level: model.Warning, Severity: -rate,
		Summary: "Under power it sinks at {0}.", Values: []model.Value{model.In(-rate, "m/s")},
		Why:  "The pack is spent on a descent.",
		Hint: "Use more throttle, or glide.", Source: "common practice"})
}
