package drive

import (
	"errors"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// DriveTableInput is what [DriveTable] wants.
type DriveTableInput struct {
	Drive DriveModel `help:"motor, propeller, speed control, leads"`
	From  float64    `unit:"V" range:"(0,)" help:"of the pack, rested, at the start"`
	To    float64    `unit:"V" range:"(0,)" help:"of the pack, rested, at the end"`
	Steps int        `range:"[1,1000]" default:"8" help:"how many steps between them"`
	Conditions
}

// DriveTableRow is one row of [DriveTable].
type DriveTableRow struct {
	Voltage float64 `unit:"V" help:"of the pack, rested" symbol:"V"`
	Working
}

// DriveTableResult is what [DriveTable] answers.
type DriveTableResult struct {
	Rows []DriveTableRow `help:"from the start to the end"`
	model.Cautions
}

// DriveTable is operating_point over the falling voltage of a pack.
//
// Formula: as operating_point, at equal steps of voltage: Im = (d·(Vc − Ir·Rp) − u·ω/Kv)/(Rm + Rs + d²·(Rp + Rl)); P = (Im − I0)·u·ω/Kv·η; Vt = Vc − I·Rp; J = V/(n·D), n = ω/(2·π); P_T = T·V.
//
// Letters: Vc = voltage; d throttle; V airspeed; Rp source_resistance; Ir radio_current; Rm drive.motor.resistance; I0 drive.motor.idle_current; Kv drive.motor.Kv; Rs drive.speed_control.resistance; Rl drive.lead_resistance; u drive.gearing; η drive.gear_efficiency; D drive.propeller.diameter; ω = speed; Im = motor_current; I = current; P = shaft_power; Vt = terminal_voltage; J = J; T = thrust; P_T = thrust_power.
//
// Validity: as operating_point.
//
// Source: as operating_point.
//
// Example:
//
//	motor_1 = motor(Kv: 1000 rpm/V, resistance: 0.20 Ω, idle_current: 0.35 A)
//	prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
//	train = drive(motor_1, prop, speed_control(resistance: 20 mΩ), lead_resistance: 15 mΩ)
//	down = drive_table(train, from: 12.4 V, to: 5.5 V, airspeed: 7 m/s)
func DriveTable(in DriveTableInput) (DriveTableResult, error) {
	d, err := in.Drive.Check("drive")
	if err != nil {
		return DriveTableResult{}, err
	}
	if err := in.Check(); err != nil {
		return DriveTableResult{}, err
	}
	if err := require.All(require.Positive("from", in.From, "V"), require.Positive("to", in.To, "V"),
		require.Positive("steps", float64(in.Steps), "1")); err != nil {
		return DriveTableResult{}, err
	}
	out := DriveTableResult{Rows: make([]DriveTableRow, in.Steps+1)}
	for i := range out.Rows {
		v := in.From + (in.To-in.From)*float64(i)/float64(in.Steps)
		w, err := in.Drive.Work(d, v, in.Conditions)
		if err != nil {
			return DriveTableResult{}, in.blame(err)
		}
		out.Rows[i] = DriveTableRow{Voltage: v, Working: w}
	}
	in.Drive.Caution(&out.Cautions, out.Rows[0].Working, in.Conditions)
	return out, nil
}

// blame puts an error about a row's voltage down to the end that asked for it.
func (in DriveTableInput) blame(err error) error {
	var e *model.Error
	if errors.As(err, &e) && e.Field == "voltage" {
		moved := *e
		moved.Field = "to"
		if in.From < in.To {
			moved.Field = "from"
		}
		return &moved
	}
	return err
}
