package drive

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

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
// Formula: motor current Im = (d·(Vc − Ir·Rp) − u·ω/Kv)/(Rm + Rs + d²·(Rp + Rl)), d the throttle, Ir the radio's and the control's own; pack current I = d·Im + Ir; terminal voltage Vt = Vc − I·Rp; at the propeller P = (Im − I0)·u·ω/Kv·η, with a gear of ratio u and efficiency η; P = CP·ρ·n³·D⁵, T = CT·ρ·n²·D⁴, n = ω/(2·π), J = V/(n·D), and where that is no more than 1.2·J0 and nothing was measured CT = CT0·(1 − x)·(1 + 0.45·x), CP = CP0·(1 − 0.57·x²), x = J/J0; P_T = T·V. Where the wind turns the propeller faster than the motor would, no current flows, and it windmills.
//
// Letters: Vc voltage; d throttle; V airspeed; ρ density; Rp source_resistance; Ir radio_current; Rm drive.motor.resistance; I0 drive.motor.idle_current; Kv drive.motor.Kv; Rs drive.speed_control.resistance; Rl drive.lead_resistance; u drive.gearing; η drive.gear_efficiency; D drive.propeller.diameter; CT0 drive.propeller.CT0; CP0 drive.propeller.CP0; J0 drive.propeller.zero_thrust_J; ω = speed; Im = motor_current; I = current; P = shaft_power; Vt = terminal_voltage; J = J; T = thrust; P_T = thrust_power.
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
		pulse := k.During(on)
		return func(n float64) Chopped {
			emf := m.EmfByTurns() * n
			v := behind(open, c.SourceResistance+m.LeadResistance, func(v float64) float64 { return pulse.At(v, emf).Pack })
			return pulse.At(v, emf)
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
		IdleLoss: idle, MotorLoss: flows.Square * m.Motor.Resistance,
		ControlLoss: flows.Square * m.SpeedControl.Resistance, LeadLoss: motor * motor * m.LeadResistance,
		SourceLoss: pack * pack * c.SourceResistance}
	if m.GearLoses() { // else what is left over is rounding
		out.GearLoss = m.EmfByTurns()*n*current - idle - torque*w
	}
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
			Summary: "The pack gives {0} under load; the control needs {1}.",
			Values:  []model.Value{model.In(w.TerminalVoltage, "V"), model.In(low, "V")},
			Why:     "It may stop or restart in the air. The resistance is the pack's.",
			Hint:    "Use less throttle, or less resistance.", Source: "common practice"})
	}
	if _, worked := m.Chopper(c.Throttle); c.Throttle < 1 && !worked {
		list.Raise(model.Caution{ID: "part-throttle-ripple", Level: model.Advice, Severity: 1 - c.Throttle,
			Summary: "At {0} throttle ripple may empty the pack {1} faster.",
			Values:  []model.Value{model.In(100*c.Throttle, "%"), model.In(40, "%")},
			Why:     "It is left out until they are given, the motor's and the control's. A current that pulses takes more of the pack.",
			Hint:    "Give inductance and frequency.", Source: "see part_throttle: 40 % at 1 kHz, 10 % at 16 kHz for 30 µH, 1 Ω"})
	}
	Spinning(list)
}
