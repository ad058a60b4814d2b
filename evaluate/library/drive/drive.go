package drive

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// SpeedControlModel is the record that [SpeedControl] makes.
type SpeedControlModel struct {
	Resistance     float64  `unit:"Ω" range:"[0,)" default:"0 Ω" help:"of the switches in the path" symbol:"R"`
	MinimumVoltage float64  `unit:"V" range:"[0,)" default:"0 V" help:"below which it no longer works"`
	CutOff         float64  `unit:"V" range:"[0,)" default:"0 V" help:"at its input, under load, where it stops the motor"`
	Frequency      *float64 `unit:"kHz" range:"(0,)" help:"at which it switches: with the motor's inductance it works part throttle"`
	IdleCurrent    float64  `unit:"A" range:"[0,)" default:"0 A" help:"of its own electronics, out of the pack as long as it is plugged in"`
}

func (s SpeedControlModel) check(record string) error {
	bounds := []error{require.NotNegative("resistance", s.Resistance, "Ω"),
		require.NotNegative("minimum_voltage", s.MinimumVoltage, "V"),
		require.NotNegative("cut_off", s.CutOff, "V"), require.NotNegative("idle_current", s.IdleCurrent, "A")}
	if s.Frequency != nil {
		bounds = append(bounds, require.Positive("frequency", *s.Frequency, "Hz"))
	}
	return require.In(record, bounds...)
}

// SpeedControlInput is what [SpeedControl] wants.
type SpeedControlInput struct{ SpeedControlModel }

// SpeedControlResult is what [SpeedControl] answers.
type SpeedControlResult struct{ SpeedControlModel }

// SpeedControl describes the switch between pack and motor.
//
// Formula: a resistance in the motor's path, and two voltages.
//
// Validity: losses of switching are left out; they are small at the voltages of a capacitor pack.
//
// Source: common practice.
//
// Example:
//
//	control = speed_control(resistance: 20 mΩ, cut_off: 5.5 V)
func SpeedControl(in SpeedControlInput) (SpeedControlResult, error) {
	if err := in.check(""); err != nil {
		return SpeedControlResult{}, err
	}
	return SpeedControlResult(in), nil
}

// DriveModel is the record that [Drive] makes.
type DriveModel struct {
	Motor          MotorModel        `help:"the motor"`
	Propeller      PropellerModel    `help:"on its shaft"`
	SpeedControl   SpeedControlModel `help:"between pack and motor"`
	LeadResistance float64           `unit:"Ω" range:"[0,)" default:"0 Ω" help:"of the leads and plugs between pack and speed control"`
	Gearing        float64           `unit:"1" range:"(0,)" default:"1" help:"turns of the motor for one of the propeller"`
	GearEfficiency float64           `unit:"%" range:"(0,100]" default:"100 %" help:"of that gear"`
}

// Check makes the propeller ready too.
func (m DriveModel) Check(record string) (*Disc, error) {
	if err := m.Motor.check(require.Field(record, "motor")); err != nil {
		return nil, err
	}
	if err := m.SpeedControl.check(require.Field(record, "speed_control")); err != nil {
		return nil, err
	}
	if err := require.In(record, require.NotNegative("lead_resistance", m.LeadResistance, "Ω"),
		require.Positive("gearing", m.gearing(), "1"), require.Efficiency("gear_efficiency", m.gears())); err != nil {
		return nil, err
	}
	return m.Propeller.Disc(require.Field(record, "propeller"))
}

// gearing and gears are 1 for a caller that has no gear.
func (m DriveModel) gearing() float64 {
	if m.Gearing == 0 {
		return 1
	}
	return m.Gearing
}

func (m DriveModel) gears() float64 {
	if m.GearEfficiency == 0 {
		return 1
	}
	return m.GearEfficiency
}

// GearLoses reports whether a gear takes anything.
func (m DriveModel) GearLoses() bool { return m.gears() != 1 }

// EmfByTurns is the motor's back voltage by the propeller's turn a second.
func (m DriveModel) EmfByTurns() float64 { return 2 * math.Pi * m.gearing() / m.Motor.Kv }

// Amperes is the motor's current by the propeller's torque: the gear's losses
// come on top of it, or off what the wind drives.
func (m DriveModel) Amperes(torque float64) float64 {
	if torque < 0 {
		return m.Motor.Kv / m.gearing() * m.gears()
	}
	return m.Motor.Kv / (m.gearing() * m.gears())
}

// Current is what the motor carries at a torque of the propeller.
func (m DriveModel) Current(torque float64) float64 {
	return m.Motor.IdleCurrent + m.Amperes(torque)*torque
}

// Holding is the torque at the propeller with which a motor without current
// holds it.
func (m DriveModel) Holding() float64 { return m.Motor.IdleCurrent / m.Amperes(-1) }

// Chopper is the switch at part throttle; false where inductance or frequency
// is not known, and at full throttle, where nothing switches.
func (m DriveModel) Chopper(throttle float64) (Chopper, bool) {
	if m.Motor.Inductance == nil || m.SpeedControl.Frequency == nil || throttle >= 1 {
		return Chopper{}, false
	}
	return NewChopper(m.Motor.Resistance+m.SpeedControl.Resistance, *m.Motor.Inductance, *m.SpeedControl.Frequency), true
}

// drains is what the pack gives beside the motor.
func (m DriveModel) drains(c Conditions) float64 { return c.RadioCurrent + m.SpeedControl.IdleCurrent }

// DriveInput is what [Drive] wants.
type DriveInput struct{ DriveModel }

// DriveResult is what [Drive] answers: the drive, as one thing.
type DriveResult struct {
	DriveModel
	model.Cautions
}

// Drive puts motor, propeller, speed control and leads together.
//
// Formula: the parts in a row; see operating_point.
//
// Validity: a gear, if any, of one efficiency at every load.
//
// Source: definitions.
//
// Example:
//
//	motor_1 = motor(Kv: 1000 rpm/V, resistance: 0.20 Ω, idle_current: 0.35 A)
//	prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
//	train = drive(motor_1, prop, speed_control(resistance: 20 mΩ), lead_resistance: 15 mΩ)
func Drive(in DriveInput) (DriveResult, error) {
	if _, err := in.Check(""); err != nil {
		return DriveResult{}, err
	}
	out := DriveResult{DriveModel: in.DriveModel}
	Spinning(&out.Cautions)
	pluggedIn(&out.Cautions)
	return out, nil
}

// Conditions are what a drive works at, beside the pack's voltage.
type Conditions struct {
	Throttle         float64 `unit:"%" range:"(0,100]" default:"100 %" help:"share of the time that the speed control is on"`
	Airspeed         float64 `unit:"m/s" range:"[0,)" default:"0 m/s" help:"0 standing still"`
	SourceResistance float64 `unit:"Ω" range:"[0,)" default:"0 Ω" help:"of the pack"`
	RadioCurrent     float64 `unit:"A" range:"[0,)" default:"0 A" help:"drawn from the pack beside the motor"`
	Density          float64 `unit:"kg/m^3" range:"(0,)" default:"1.225 kg/m^3" help:"of the air"`
}

func (c Conditions) Check() error {
	if err := require.All(require.Positive("throttle", c.Throttle, "1"),
		require.NotNegative("airspeed", c.Airspeed, "m/s"),
		require.NotNegative("source_resistance", c.SourceResistance, "Ω"),
		require.NotNegative("radio_current", c.RadioCurrent, "A"),
		require.Positive("density", c.Density, "kg/m^3")); err != nil {
		return err
	}
	if c.Throttle > 1 {
		return &model.Error{Field: "throttle", Summary: "{0} is more than full throttle",
			Values: []model.Value{model.In(100*c.Throttle, "%")}, Hint: "write a share of at most 100 %"}
	}
	return nil
}

// A Working is a drive at work.
type Working struct {
	Speed           float64 `unit:"rpm" show:"3" help:"of the propeller"`
	Thrust          float64 `unit:"N" show:"1" help:"negative where it drags"`
	Current         float64 `unit:"A" show:"2" help:"out of the pack, with the radio's" symbol:"I"`
	MotorCurrent    float64 `unit:"A" help:"mean, in the motor"`
	TerminalVoltage float64 `unit:"V" help:"of the pack, under this load"`
	ShaftPower      float64 `unit:"W" help:"into the propeller"`
	ThrustPower     float64 `unit:"W" help:"thrust times airspeed"`
	Efficiency      float64 `unit:"%" help:"thrust power over what leaves the pack's terminals for the motor" symbol:"eta"`
	J               float64 `unit:"1" name:"J" help:"advance ratio"`
	IdleLoss        float64 `unit:"W" help:"in the motor, of its idle current"`
	GearLoss        float64 `unit:"W" help:"in the gear"`
	MotorLoss       float64 `unit:"W" help:"in the motor's winding"`
	ControlLoss     float64 `unit:"W" help:"in the speed control"`
	LeadLoss        float64 `unit:"W" help:"in the leads"`
	SourceLoss      float64 `unit:"W" help:"in the pack's resistance"`
}
