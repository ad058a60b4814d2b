package flight

import (
	"math"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/glide"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

// steepest is the path's angle past which a wing hardly carries and steady
// climb as worked here has no meaning.
const steepest = math.Pi / 4

// A steady is flight under power at one lift coefficient.
type steady struct {
	speed, angle, thrust float64
}

// steadyClimb balances the airframe at a lift coefficient and a rate of climb:
// L = W·cos γ, T = D + W·sin γ. ok is false past 45°.
func steadyClimb(p glide.Plane, cl, rate float64) (steady, bool) {
	fast := p.Reference() / math.Sqrt(cl)
	speed := func(angle float64) float64 { return fast * math.Sqrt(math.Cos(angle)) }
	if rate > speed(steepest)*math.Sin(steepest) || rate < 0 {
		return steady{}, false
	}
	angle := 0.0
	if rate > 0 {
		angle = numeric.Bisect(0, steepest, func(a float64) bool { return speed(a)*math.Sin(a) > rate })
	}
	v := speed(angle)
	drag := 0.5 * p.Density * v * v * p.Area * p.Drag(cl)
	return steady{speed: v, angle: angle, thrust: drag + p.Weight()*math.Sin(angle)}, true
}

// LevelFlightInput is what [LevelFlight] wants.
type LevelFlightInput struct {
	Airframe    glide.Plane `help:"the airframe"`
	Speed       float64     `unit:"m/s" range:"(0,)" help:"through the air"`
	ThrustPower *float64    `unit:"W" range:"[0,)" help:"thrust times airspeed that the drive can give, for the climb"`
}

// LevelFlightResult is what [LevelFlight] answers.
type LevelFlightResult struct {
	Drag        float64  `unit:"N" show:"1" help:"and the thrust that holds it"`
	PowerNeeded float64  `unit:"W" show:"2" help:"drag times airspeed"`
	ClimbRate   *float64 `unit:"m/s" show:"3" help:"of the power that is left over, for a flat path; negative where it is short"`
	CL          float64  `unit:"1" name:"CL" help:"lift coefficient at that speed"`
	model.Cautions
}

// LevelFlight is the drag and the power of level flight at a speed, and the climb that more power buys.
//
// Formula: W = m·g, g = 9.80665 m/s²; CL = 2·W/(ρ·V²·S); D = ρ·V²·S·CD/2, CD = CD0 + k·CL², k = S/(π·e·b²); P = D·V; climb v = (P_thrust − D·V)/W.
//
// Letters: V speed; P_thrust thrust_power; m airframe.mass; b airframe.span; S airframe.area; e airframe.oswald; CD0 airframe.CD0; ρ airframe.density; D = drag; P = power_needed; v = climb_rate; CL = CL.
//
// Validity: attached flow; the climb for paths up to about 15°.
//
// Source: J. D. Anderson, Introduction to Flight, chapter 6.
//
// Example:
//
//	plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
//	cruise = level_flight(plane, 8 m/s, thrust_power: 6 W)
//	P_level [W] = cruise.power_needed
func LevelFlight(in LevelFlightInput) (LevelFlightResult, error) {
	p := in.Airframe
	if err := p.Check("airframe"); err != nil {
		return LevelFlightResult{}, err
	}
	if err := require.Positive("speed", in.Speed, "m/s"); err != nil {
		return LevelFlightResult{}, err
	}
	ratio := p.Reference() / in.Speed
	cl := ratio * ratio
	if cl > p.CLMax {
		return LevelFlightResult{}, &model.Error{Field: "speed", Summary: "at {0} the wing does not carry the model: it stalls at {1}",
			Values: []model.Value{model.In(in.Speed, "m/s"), model.In(p.StallSpeed(), "m/s")}, Hint: "give a higher speed"}
	}
	drag := p.Weight() * p.Drag(cl) / cl
	out := LevelFlightResult{Drag: drag, PowerNeeded: drag * in.Speed, CL: cl}
	if in.ThrustPower != nil {
		rate := (*in.ThrustPower - out.PowerNeeded) / p.Weight()
		out.ClimbRate = &rate
	}
	glide.AtStall(&out.Cautions, cl, p.CLMax)
	glide.Flying(&out.Cautions)
	return out, nil
}

// Powered is an airframe with its drive, in flight.
type Powered struct {
	Airframe         glide.Plane      `help:"the airframe"`
	Drive            drive.DriveModel `help:"motor, propeller, speed control, leads"`
	CL               *float64         `unit:"1" name:"CL" range:"(0,)" help:"lift coefficient flown; that of the best glide if not given"`
	Throttle         float64          `unit:"%" range:"(0,100]" default:"100 %" help:"share of the time that the speed control is on"`
	SourceResistance float64          `unit:"Ω" range:"[0,)" default:"0 Ω" help:"of the pack"`
	RadioCurrent     float64          `unit:"A" range:"[0,)" default:"0 A" help:"drawn from the pack beside the motor"`
}

// MinimumLevelVoltageInput is what [MinimumLevelVoltage] wants.
type MinimumLevelVoltageInput struct{ Powered }

// MinimumClimbVoltageInput is what [MinimumClimbVoltage] wants.
type MinimumClimbVoltageInput struct {
	Powered
	ClimbRate float64 `unit:"m/s" range:"(0,)" default:"1 m/s" help:"height wanted in a second"`
}

// Need is what steady flight asks of pack and drive.
type Need struct {
	Voltage         float64 `unit:"V" show:"1" help:"of the pack, rested: the least that holds it" symbol:"V"`
	TerminalVoltage float64 `unit:"V" help:"of the pack, under this load"`
	Current         float64 `unit:"A" show:"2" help:"out of the pack, with the radio's" symbol:"I"`
	Thrust          float64 `unit:"N" help:"that the flight takes"`
	Airspeed        float64 `unit:"m/s" help:"along the path"`
	Angle           float64 `unit:"deg" help:"of the path above the horizon"`
	Speed           float64 `unit:"rpm" help:"of the propeller"`
}

// MinimumLevelVoltageResult is what [MinimumLevelVoltage] answers.
type MinimumLevelVoltageResult struct {
	Need
	model.Cautions
}

// MinimumClimbVoltageResult is what [MinimumClimbVoltage] answers.
type MinimumClimbVoltageResult struct {
	Need
	model.Cautions
}

// MinimumLevelVoltage is the rested pack voltage below which the model no longer holds its height.
//
// Formula: level across the path m·g = CL·ρ·V²·S/2, g = 9.80665 m/s², the thrust is the drag, T = CD·ρ·V²·S/2, CD = CD0 + k·CL², k = S/(π·e·b²); CL as given, or CL = min(√(CD0/k), CL_max); from the propeller's speed and torque follow ω and Im = (I − Ir)/d; d·(Vc − Ir·Rp) = u·ω/Kv + Im·(Rm + Rs + d²·(Rp + Rl)); Vt = Vc − I·Rp.
//
// Letters: m airframe.mass; b airframe.span; S airframe.area; e airframe.oswald; CD0 airframe.CD0; CL_max airframe.CL_max; ρ airframe.density; CL CL; d throttle; Rp source_resistance; Ir radio_current; Rm drive.motor.resistance; Kv drive.motor.Kv; Rs drive.speed_control.resistance; Rl drive.lead_resistance; u drive.gearing; V = airspeed; T = thrust; ω = speed; Vc = voltage; I = current; Vt = terminal_voltage.
//
// Validity: as operating_point; steady level flight.
//
// Source: the first-order model of a d.c. motor, textbooks; J. D. Anderson, Introduction to Flight, chapter 6.
//
// Example:
//
//	plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
//	motor_1 = motor(Kv: 1000 rpm/V, resistance: 0.20 Ω, idle_current: 0.35 A)
//	prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
//	train = drive(motor_1, prop, speed_control(resistance: 20 mΩ), lead_resistance: 15 mΩ)
//	holds = minimum_level_voltage(plane, train, source_resistance: 50 mΩ)
//	V_level [V] = holds.voltage
func MinimumLevelVoltage(in MinimumLevelVoltageInput) (MinimumLevelVoltageResult, error) {
	var out MinimumLevelVoltageResult
	need, err := in.need(0, &out.Cautions)
	out.Need = need
	return out, err
}

// MinimumClimbVoltage is the rested pack voltage below which the model no longer climbs at the rate wanted.
//
// Formula: W = m·g, g = 9.80665 m/s²; level across the path W·cos γ = CL·ρ·V²·S/2, along it T = CD·ρ·V²·S/2 + W·sin γ, CD = CD0 + k·CL², k = S/(π·e·b²); CL as given, or CL = min(√(CD0/k), CL_max); rate v = V·sin γ; the voltage as minimum_level_voltage has it, Im = (I − Ir)/d, d·(Vc − Ir·Rp) = u·ω/Kv + Im·(Rm + Rs + d²·(Rp + Rl)), Vt = Vc − I·Rp.
//
// Letters: m airframe.mass; b airframe.span; S airframe.area; e airframe.oswald; CD0 airframe.CD0; CL_max airframe.CL_max; ρ airframe.density; CL CL; v climb_rate; d throttle; Rp source_resistance; Ir radio_current; Rm drive.motor.resistance; Kv drive.motor.Kv; Rs drive.speed_control.resistance; Rl drive.lead_resistance; u drive.gearing; V = airspeed; γ = angle; T = thrust; ω = speed; Vc = voltage; I = current; Vt = terminal_voltage.
//
// Validity: as operating_point; steady climb up to 45°.
//
// Source: the first-order model of a d.c. motor, textbooks; J. D. Anderson, Introduction to Flight, chapter 6.
//
// Example:
//
//	plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
//	motor_1 = motor(Kv: 1000 rpm/V, resistance: 0.20 Ω, idle_current: 0.35 A)
//	prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
//	train = drive(motor_1, prop, speed_control(resistance: 20 mΩ), lead_resistance: 15 mΩ)
//	climbs = minimum_climb_voltage(plane, train, climb_rate: 1 m/s, source_resistance: 50 mΩ)
//	V_climb [V] = climbs.voltage
func MinimumClimbVoltage(in MinimumClimbVoltageInput) (MinimumClimbVoltageResult, error) {
	var out MinimumClimbVoltageResult
	if err := require.Positive("climb_rate", in.ClimbRate, "m/s"); err != nil {
		return out, err
	}
	need, err := in.need(in.ClimbRate, &out.Cautions)
	out.Need = need
	return out, err
}

// need finds what a steady rate of climb takes.
func (in Powered) need(rate float64, list *model.Cautions) (Need, error) {
	cl, d, err := in.ready()
	if err != nil {
		return Need{}, err
	}
	flown, ok := steadyClimb(in.Airframe, cl, rate)
	if !ok {
		return Need{}, &model.Error{Field: "climb_rate", Summary: "a climb of {0} is steeper than 45° at this lift coefficient",
			Values: []model.Value{model.In(rate, "m/s")}, Hint: "give a slower climb or a smaller CL"}
	}
	c := in.conditions(flown.speed)
	if err := c.Check(); err != nil {
		return Need{}, err
	}
	voltage, w, err := in.Drive.Required(d, flown.thrust, c)
	if err != nil {
		return Need{}, err
	}
	in.Drive.Caution(list, w, c)
	glide.AtStall(list, cl, in.Airframe.CLMax)
	glide.Flying(list)
	return Need{Voltage: voltage, TerminalVoltage: w.TerminalVoltage, Current: w.Current, Thrust: w.Thrust,
		Airspeed: flown.speed, Angle: flown.angle, Speed: w.Speed}, nil
}
