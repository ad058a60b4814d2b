package drive

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// MotorModel is the record that [Motor] makes: any record with these fields
// will do, a row of a parts table for one.
type MotorModel struct {
	Kv           float64  `unit:"rpm/V" name:"Kv" range:"(0,)" help:"speed per volt, without load"`
	Resistance   float64  `unit:"Ω" range:"(0,)" help:"winding, between two leads" symbol:"R"`
	IdleCurrent  float64  `unit:"A" range:"[0,)" default:"0 A" help:"without propeller, taken as constant"`
	Inductance   *float64 `unit:"uH" range:"(0,)" help:"of the winding, between two leads: with the speed control's frequency it works part throttle" symbol:"L"`
	CurrentLimit *float64 `unit:"A" range:"(0,)" help:"what the maker allows for as long as the flight takes"`
}

func (m MotorModel) check(record string) error {
	bounds := []error{require.Positive("Kv", m.Kv, "rad/(s·V)"), require.Positive("resistance", m.Resistance, "Ω"),
		require.NotNegative("idle_current", m.IdleCurrent, "A")}
	if m.Inductance != nil {
		bounds = append(bounds, require.Positive("inductance", *m.Inductance, "H"))
	}
	if m.CurrentLimit != nil {
		bounds = append(bounds, require.Positive("current_limit", *m.CurrentLimit, "A"))
	}
	return require.In(record, bounds...)
}

// MotorInput is what [Motor] wants.
type MotorInput struct{ MotorModel }

// MotorResult is what [Motor] answers: the motor and its torque constant.
type MotorResult struct {
	MotorModel
	TorqueConstant float64 `unit:"N·m/A" show:"1" help:"1/Kv"`
	model.Cautions
}

// Motor describes a motor by three numbers from the bench.
//
// Formula: I = (V − ω/Kv)/R, torque Q = (I − I0)/Kv, so k_Q = 1/Kv.
//
// Letters: Kv Kv; R resistance; I0 idle_current; k_Q = torque_constant.
//
// Validity: constant idle current and resistance; a hot winding has 0.39 % more resistance a kelvin. For a brushless motor the resistance is between two of its leads.
//
// Source: the first-order model of a d.c. motor, textbooks.
//
// Example:
//
//	motor_1 = motor(Kv: 1000 rpm/V, resistance: 0.20 Ω, idle_current: 0.35 A)
func Motor(in MotorInput) (MotorResult, error) {
	if err := in.check(""); err != nil {
		return MotorResult{}, err
	}
	out := MotorResult{MotorModel: in.MotorModel, TorqueConstant: 1 / in.Kv}
	Spinning(&out.Cautions)
	return out, nil
}

// MotorPointInput is what [MotorPoint] wants.
type MotorPointInput struct {
	Motor   MotorModel `help:"the motor"`
	Voltage float64    `unit:"V" range:"(0,)" help:"at the motor" symbol:"V"`
	Current float64    `unit:"A" range:"[0,)" help:"into the motor" symbol:"I"`
}

// MotorPointResult is what [MotorPoint] answers.
type MotorPointResult struct {
	Speed          float64 `unit:"rpm" show:"1" help:"of the shaft"`
	Torque         float64 `unit:"N·m" show:"2" help:"at the shaft"`
	ShaftPower     float64 `unit:"W" show:"3" help:"torque times speed"`
	Efficiency     float64 `unit:"%" show:"4" help:"shaft power over electrical power; 0 below the idle current" symbol:"eta"`
	BestCurrent    float64 `unit:"A" help:"where the efficiency is largest at this voltage"`
	BestEfficiency float64 `unit:"%" help:"efficiency there"`
	IdleSpeed      float64 `unit:"rpm" help:"without load"`
	StallCurrent   float64 `unit:"A" help:"held fast"`
	model.Cautions
}

// MotorPoint says what a motor does at a voltage and current.
//
// Formula: ω = Kv·(V − I·R); torque Q = (I − I0)/Kv; P = Q·ω, η = P/(V·I); best current I_b = √(V·I0/R); best efficiency η_b = (1 − √(I0·R/V))²; idle ω_0 = Kv·(V − I0·R); stall current I_s = V/R.
//
// Letters: Kv motor.Kv; R motor.resistance; I0 motor.idle_current; V voltage; I current; ω = speed; Q = torque; P = shaft_power; η = efficiency; I_b = best_current; η_b = best_efficiency; ω_0 = idle_speed; I_s = stall_current.
//
// Validity: constant idle current and resistance; full throttle.
//
// Source: the first-order model of a d.c. motor, textbooks.
//
// Example:
//
//	motor_1 = motor(Kv: 1000 rpm/V, resistance: 0.20 Ω, idle_current: 0.35 A)
//	at_6A = motor_point(motor_1, 11 V, 6 A)
func MotorPoint(in MotorPointInput) (MotorPointResult, error) {
	m := in.Motor
	if err := m.check("motor"); err != nil {
		return MotorPointResult{}, err
	}
	if err := require.All(require.Positive("voltage", in.Voltage, "V"),
		require.NotNegative("current", in.Current, "A")); err != nil {
		return MotorPointResult{}, err
	}
	if stall := in.Voltage / m.Resistance; in.Current > stall {
		return MotorPointResult{}, &model.Error{Field: "current", Summary: "no more than {0} flows even with the shaft held fast",
			Values: []model.Value{model.In(stall, "A")}, Hint: "give a smaller current or a higher voltage"}
	}
	w := m.Kv * (in.Voltage - in.Current*m.Resistance)
	torque := (in.Current - m.IdleCurrent) / m.Kv
	out := MotorPointResult{Speed: w, Torque: torque, ShaftPower: torque * w,
		IdleSpeed: m.Kv * (in.Voltage - m.IdleCurrent*m.Resistance), StallCurrent: in.Voltage / m.Resistance,
		BestCurrent: math.Sqrt(in.Voltage * m.IdleCurrent / m.Resistance)}
	root := 1 - math.Sqrt(m.IdleCurrent*m.Resistance/in.Voltage)
	out.BestEfficiency = root * root
	if in.Current >= m.IdleCurrent && in.Current > 0 {
		out.Efficiency = out.ShaftPower / (in.Voltage * in.Current)
	}
	overCurrent(&out.Cautions, in.Current, m.CurrentLimit)
	if in.Current < m.IdleCurrent {
		out.Raise(model.Caution{ID: "motor-driven", Level: model.Warning,
			Summary: "{0} is less than the idle current, {1}: no power.",
			Values:  []model.Value{model.In(in.Current, "A"), model.In(m.IdleCurrent, "A")},
			Why:     "Below its idle current the torque is negative: so the wind drives a motor in a dive.",
			Hint:    "Give the current under load.", Source: "the first-order model of a d.c. motor, textbooks"})
	}
	Spinning(&out.Cautions)
	return out, nil
}
