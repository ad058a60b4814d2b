package drive

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
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
	TerminalVoltage float64 `unit:"V" show:"4" help:"of the pack, under this load"`
	ShaftPower      float64 `unit:"W" help:"into the propeller"`
	ThrustPower     float64 `unit:"W" help:"thrust times airspeed"`
	Efficiency      float64 `unit:"%" show:"5" help:"thrust power over what leaves the pack's terminals for the motor" symbol:"eta"`
	J               float64 `unit:"1" name:"J" help:"advance ratio"`
	IdleLoss        float64 `unit:"W" help:"in the motor, of its idle current"`
	GearLoss        float64 `unit:"W" help:"in the gear"`
	MotorLoss       float64 `unit:"W" help:"in the motor's winding"`
	ControlLoss     float64 `unit:"W" help:"in the speed control"`
	LeadLoss        float64 `unit:"W" help:"in the leads"`
	SourceLoss      float64 `unit:"W" help:"in the pack's resistance"`
}

// OperatingPointInput is what [OperatingPoint] wants.
type OperatingPointInput struct {
	Drive   DriveModel `help:"motor, propeller, speed control, leads"`
	Voltage float64    `unit:"V" range:"(0,)" help:"of the pack, rested" symbol:"V"`
	Conditions
}

// OperatingPointResult is what [OperatingPoint] answers.
type OperatingPointResult struct {
	Working
	model.Cautions
}

// OperatingPoint finds the speed at which the motor's torque is the propeller's.
//
// Formula: motor current (d·(Vc − Ir·Rp) − ω/Kv)/(Rm + Rs + d²·(Rp + Rl)), d the throttle; pack current d·Im + Ir; terminal voltage Vc less the drop in the pack; torque (Im − I0)/Kv = CP·ρ·n²·D⁵/(2π), with a gear times its ratio and efficiency. Where the wind turns the propeller faster than the motor would, no current flows, and it windmills.
//
// Validity: smooth motor current, or with the motor's inductance and the control's frequency that of part_throttle; a speed control that feeds nothing back (no active braking).
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
func (m DriveModel) Work(d *Disc, voltage float64, c Conditions) (Working, error) {
	feed := m.feed(voltage, c)
	current := func(n float64) float64 { return feed(n).Mean }
	if wind := d.standstill(c); current(0) <= m.Current(wind) {
		return Working{}, &model.Error{Field: "voltage", Summary: "the motor does not turn: {0} through it held fast is no more than its idle current, {1}",
			Values: []model.Value{model.In(current(0), "A"), model.In(m.Motor.IdleCurrent, "A")},
			Hint:   "give more throttle or a higher voltage"}
	}
	if n := d.Windmill(c.Airspeed, c.Density, m.Holding()); n > 0 && current(n) <= 0 {
		return m.working(d, n, Chopped{}, voltage, c), nil
	}
	n, err := m.balance(d, c, current)
	if err != nil {
		return Working{}, err
	}
	return m.working(d, n, feed(n), voltage, c), nil
}

// feed is what a voltage sends through motor and pack at a speed.
func (m DriveModel) feed(voltage float64, c Conditions) func(n float64) Chopped {
	on, open := c.Throttle, voltage-m.drains(c)*c.SourceResistance
	if k, ok := m.Chopper(on); ok {
		return func(n float64) Chopped {
			emf := m.EmfByTurns() * n
			v := behind(open, c.SourceResistance+m.LeadResistance, func(v float64) float64 { return k.At(v, emf, on).Pack })
			return k.At(v, emf, on)
		}
	}
	total := m.Motor.Resistance + m.SpeedControl.Resistance + on*on*(c.SourceResistance+m.LeadResistance)
	return func(n float64) Chopped {
		i := (on*open - m.EmfByTurns()*n) / total
		return Chopped{Mean: i, Pack: on * i, Square: i * i}
	}
}

// standstill is the wind's torque on the propeller held fast, if it is known.
func (d *Disc) standstill(c Conditions) float64 {
	if !d.bridged {
		return 0
	}
	_, torque, _ := d.Load(0, c.Airspeed, c.Density)
	return torque
}

// balance is the speed, in turns a second, where the torques are equal. The
// motor's falls with the speed and the propeller's rises.
func (m DriveModel) balance(d *Disc, c Conditions, current func(float64) float64) (float64, error) {
	over := func(n float64) bool {
		_, torque, _ := d.Load(n, c.Airspeed, c.Density)
		return m.Current(torque) > current(n)
	}
	low, high := 0.0, 1.0
	for range mostDoublings {
		if current(high) <= 0 {
			break
		}
		high *= 2
	}
	if !d.bridged {
		low = c.Airspeed / (d.last * d.Diameter) * (1 + 1e-12)
	}
	if c.Airspeed > 0 && d.first > 0 {
		high = min(high, c.Airspeed/(d.first*d.Diameter)*(1-1e-12))
	}
	if c.Airspeed == 0 && d.first > 0 {
		return 0, d.outside("drive.propeller", 0)
	}
	if low >= high || low > 0 && over(low) || !over(high) {
		return 0, d.Unbalanced("drive.propeller")
	}
	return numeric.Bisect(low, high, over), nil
}

// working tells all powers at a speed.
func (m DriveModel) working(d *Disc, n float64, flows Chopped, voltage float64, c Conditions) Working {
	thrust, torque, _ := d.Load(n, c.Airspeed, c.Density)
	w, current, motor := 2*math.Pi*n, flows.Mean, flows.Pack
	pack := motor + m.drains(c)
	idle := m.Motor.IdleCurrent * m.EmfByTurns() * n
	out := Working{Speed: w, Thrust: thrust, Current: pack, MotorCurrent: current,
		TerminalVoltage: voltage - pack*c.SourceResistance, ShaftPower: torque * w, ThrustPower: thrust * c.Airspeed,
		J:        c.Airspeed / (n * d.Diameter),
		IdleLoss: idle, GearLoss: m.EmfByTurns()*n*current - idle - torque*w, MotorLoss: flows.Square * m.Motor.Resistance,
		ControlLoss: flows.Square * m.SpeedControl.Resistance, LeadLoss: motor * motor * m.LeadResistance,
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
			Summary: "The pack gives {0} under load; the speed control needs {1}.",
			Values:  []model.Value{model.In(w.TerminalVoltage, "V"), model.In(low, "V")},
			Why:     "It may stop or restart in the air.",
			Hint:    "Use less throttle, or a pack of less resistance.", Source: "common practice"})
	}
	if _, worked := m.Chopper(c.Throttle); c.Throttle < 1 && !worked {
		list.Raise(model.Caution{ID: "part-throttle-ripple", Level: model.Advice,
			Summary: "At {0} throttle the motor's ripple is left out; the pack may empty up to {1} faster.",
			Values:  []model.Value{model.In(100*c.Throttle, "%"), model.In(40, "%")},
			Why:     "A current that pulses takes more of the pack.",
			Hint:    "Give the motor's inductance and the control's frequency.", Source: "see part_throttle: 40 % at 1 kHz, 10 % at 16 kHz for 30 µH, 1 Ω"})
	}
	Spinning(list)
}
