package drive

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

// SpeedControlModel is the record that [SpeedControl] makes.
type SpeedControlModel struct {
	Resistance     float64 `unit:"Ω" range:"[0,)" default:"0 Ω" show:"1" help:"of the switches in the path"`
	MinimumVoltage float64 `unit:"V" range:"[0,)" default:"0 V" help:"below which it no longer works"`
	CutOff         float64 `unit:"V" range:"[0,)" default:"0 V" help:"at its input, under load, where it stops the motor"`
}

func (s SpeedControlModel) check(record string) error {
	return require.In(record, require.NotNegative("resistance", s.Resistance, "Ω"),
		require.NotNegative("minimum_voltage", s.MinimumVoltage, "V"),
		require.NotNegative("cut_off", s.CutOff, "V"))
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
}

// Check makes the propeller ready too.
func (m DriveModel) Check(record string) (Disc, error) {
	if err := m.Motor.check(require.Field(record, "motor")); err != nil {
		return Disc{}, err
	}
	if err := m.SpeedControl.check(require.Field(record, "speed_control")); err != nil {
		return Disc{}, err
	}
	if err := require.In(record, require.NotNegative("lead_resistance", m.LeadResistance, "Ω")); err != nil {
		return Disc{}, err
	}
	return m.Propeller.Disc(require.Field(record, "propeller"))
}

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
// Validity: a direct drive, without a gear.
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
	Current         float64 `unit:"A" show:"2" help:"out of the pack, with the radio's"`
	MotorCurrent    float64 `unit:"A" help:"in the motor while it is on"`
	TerminalVoltage float64 `unit:"V" show:"4" help:"of the pack, under this load"`
	ShaftPower      float64 `unit:"W" help:"into the propeller"`
	ThrustPower     float64 `unit:"W" help:"thrust times airspeed"`
	Efficiency      float64 `unit:"%" show:"5" help:"thrust power over what leaves the pack's terminals for the motor"`
	J               float64 `unit:"1" name:"J" help:"advance ratio"`
	IdleLoss        float64 `unit:"W" help:"in the motor, of its idle current"`
	MotorLoss       float64 `unit:"W" help:"in the motor's winding"`
	ControlLoss     float64 `unit:"W" help:"in the speed control"`
	LeadLoss        float64 `unit:"W" help:"in the leads"`
	SourceLoss      float64 `unit:"W" help:"in the pack's resistance"`
}

// OperatingPointInput is what [OperatingPoint] wants.
type OperatingPointInput struct {
	Drive   DriveModel `help:"motor, propeller, speed control, leads"`
	Voltage float64    `unit:"V" range:"(0,)" help:"of the pack, rested"`
	Conditions
}

// OperatingPointResult is what [OperatingPoint] answers.
type OperatingPointResult struct {
	Working
	model.Cautions
}

// OperatingPoint finds the speed at which the motor's torque is the propeller's.
//
// Formula: motor current (d·(Vc − Ir·Rp) − ω/Kv)/(Rm + Rs + d²·(Rp + Rl)), d the throttle; pack current d·Im + Ir; terminal voltage Vc less the drop in the pack; torque (Im − I0)/Kv = CP·ρ·n²·D⁵/(2π).
//
// Validity: smooth motor current; at part throttle the ripple heats the winding more than this says.
//
// Source: the first-order model of a d.c. motor, textbooks; R. W. Deters, G. K. Ananda and M. S. Selig, AIAA 2014-2151.
//
// Example:
//
//	motor_1 = motor(Kv: 1000 rpm/V, resistance: 0.20 Ω, idle_current: 0.35 A)
//	prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
//	train = drive(motor_1, prop, speed_control(resistance: 20 mΩ), lead_resistance: 15 mΩ)
//	start = operating_point(train, 12.4 V, airspeed: 7 m/s, source_resistance: 50 mΩ)
//	pull [N] = start.thrust
func OperatingPoint(in OperatingPointInput) (OperatingPointResult, error) {
	d, err := in.Drive.Check("drive")
	if err != nil {
		return OperatingPointResult{}, err
	}
	if err := in.Check(); err != nil {
		return OperatingPointResult{}, err
	}
	if err := require.Positive("voltage", in.Voltage, "V"); err != nil {
		return OperatingPointResult{}, err
	}
	w, err := in.Drive.Work(d, in.Voltage, in.Conditions)
	if err != nil {
		return OperatingPointResult{}, err
	}
	out := OperatingPointResult{Working: w}
	in.Drive.Caution(&out.Cautions, w, in.Conditions)
	return out, nil
}

// Work solves the balance of torques.
func (m DriveModel) Work(d Disc, voltage float64, c Conditions) (Working, error) {
	on := c.Throttle
	drive := on * (voltage - c.RadioCurrent*c.SourceResistance)
	total := m.Motor.Resistance + m.SpeedControl.Resistance + on*on*(c.SourceResistance+m.LeadResistance)
	current := func(n float64) float64 { return (drive - 2*math.Pi*n/m.Motor.Kv) / total }
	if current(0) <= m.Motor.IdleCurrent {
		return Working{}, &model.Error{Field: "voltage", Summary: "the motor does not turn: {0} through it held fast is no more than its idle current, {1}",
			Values: []model.Value{model.In(current(0), "A"), model.In(m.Motor.IdleCurrent, "A")},
			Hint:   "give more throttle or a higher voltage"}
	}
	n, err := m.balance(d, c, current)
	if err != nil {
		return Working{}, err
	}
	return m.Working(d, n, current(n), voltage, c), nil
}

// balance is the speed, in turns a second, where the torques are equal. The
// motor's falls with the speed and the propeller's rises.
func (m DriveModel) balance(d Disc, c Conditions, current func(float64) float64) (float64, error) {
	over := func(n float64) bool {
		_, torque, _ := d.Load(n, c.Airspeed, c.Density)
		return torque > (current(n)-m.Motor.IdleCurrent)/m.Motor.Kv
	}
	low, high := 0.0, 1.0
	for ; current(high) > 0; high *= 2 {
	}
	if d.Rows != nil {
		first, last := d.Rows[0].J, d.Rows[len(d.Rows)-1].J
		low = c.Airspeed / (last * d.Diameter) * (1 + 1e-12)
		if c.Airspeed > 0 && first > 0 {
			high = min(high, c.Airspeed/(first*d.Diameter)*(1-1e-12))
		}
		if c.Airspeed == 0 && first > 0 {
			return 0, d.outside("drive.propeller", 0)
		}
		if low > 0 && (low >= high || over(low) || !over(high)) {
			return 0, d.Unbalanced("drive.propeller")
		}
	} else {
		for ; !over(high); high *= 2 { // the wind drives it past its idle speed
		}
	}
	return numeric.Bisect(low, high, over), nil
}

// Working tells all powers at a speed.
func (m DriveModel) Working(d Disc, n, current, voltage float64, c Conditions) Working {
	thrust, torque, _ := d.Load(n, c.Airspeed, c.Density)
	w, motor := 2*math.Pi*n, c.Throttle*current
	pack := motor + c.RadioCurrent
	out := Working{Speed: w, Thrust: thrust, Current: pack, MotorCurrent: current,
		TerminalVoltage: voltage - pack*c.SourceResistance, ShaftPower: torque * w, ThrustPower: thrust * c.Airspeed,
		J:        c.Airspeed / (n * d.Diameter),
		IdleLoss: m.Motor.IdleCurrent * w / m.Motor.Kv, MotorLoss: current * current * m.Motor.Resistance,
		ControlLoss: current * current * m.SpeedControl.Resistance, LeadLoss: motor * motor * m.LeadResistance,
		SourceLoss: pack * pack * c.SourceResistance}
	if taken := out.TerminalVoltage * motor; taken > 0 {
		out.Efficiency = out.ThrustPower / taken
	}
	return out
}

// Caution raises what the point gives cause for.
func (m DriveModel) Caution(list *model.Cautions, w Working, c Conditions) {
	overCurrent(list, w.MotorCurrent, m.Motor.CurrentLimit)
	if low := m.SpeedControl.MinimumVoltage; w.TerminalVoltage < low {
		list.Raise(model.Caution{ID: "speed-control-starved", Level: model.Danger,
			Summary: "the pack gives {0} under this load, less than the {1} that the speed control needs",
			Values:  []model.Value{model.In(w.TerminalVoltage, "V"), model.In(low, "V")},
			Why:     "it may stop or restart in the air",
			Hint:    "use less throttle, a higher voltage, or a pack of less resistance", Source: "common practice"})
	}
	if c.Throttle < 1 {
		list.Raise(model.Caution{ID: "part-throttle-ripple", Level: model.Advice,
			Summary: "at {0} throttle the motor's current is worked as smooth",
			Values:  []model.Value{model.In(100*c.Throttle, "%")},
			Why:     "its ripple heats winding and speed control more than this says",
			Hint:    "measure the pack's current at this throttle", Source: "common practice"})
	}
	Spinning(list)
}
