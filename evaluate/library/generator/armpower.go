package generator

import (
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// ArmPowerInput is what [ArmPower] reads.
type ArmPowerInput struct {
	Time        float64 `unit:"s" range:"[30,1800]" help:"how long the charge takes" symbol:"t"`
	ThreeMin    float64 `unit:"W" name:"three_minutes" range:"(0,)" default:"25 W" help:"kept up for three minutes without giving all: published trials of both arms ask 25 W of women, 35 W of men"`
	Cadence     float64 `unit:"rpm" range:"(0,)" default:"60 rpm"`
	Length      float64 `unit:"mm" range:"(0,)" default:"150 mm" help:"of the crank"`
	Pulse       float64 `unit:"1" range:"[1,)" default:"1" help:"largest torque by the mean, as in crank_load"`
	ReserveTime float64 `unit:"s" range:"[0,600]" default:"90 s" help:"W′ by CP: for how long the reserve alone would give what an arm sustains"`
}

// ArmPowerRow is a time, and what an arm keeps up for it.
type ArmPowerRow struct {
	Time  float64 `unit:"min" symbol:"t"`
	Power float64 `unit:"W" symbol:"P"`
	Work  float64 `unit:"J" help:"until then"`
	Force float64 `unit:"N" help:"at the handle, the mean over a turn"`
}

// ArmPowerResult is what an arm keeps up.
type ArmPowerResult struct {
	Power     float64       `unit:"W" show:"1" help:"for the time, without giving all" symbol:"P"`
	Work      float64       `unit:"J" show:"2" help:"until then"`
	Force     float64       `unit:"N" show:"3" help:"at the handle, the mean over a turn"`
	PeakForce float64       `unit:"N" help:"at the handle, at the crest of a pulsing torque"`
	Rows      []ArmPowerRow `help:"for one, two, three and five minutes"`
	model.Cautions
}

// ArmPower is what arms keep up at a crank for a time, scaled from the published power
// for three minutes. Trials of one's own, by arm_endurance, are better.
//
// Formula: P = P_3·(1 + τ/t)/(1 + τ/(180 s)), τ the reserve_time, which is reserve by sustained power of arm_endurance; W = P·t; F = P/(ω·r), with the pulse F_peak = q·F
//
// Letters: P_3 three_minutes; τ reserve_time; t time; ω cadence; r length; q pulse; P = power; W = work; F = force; F_peak = peak_force.
//
// Validity: both arms, rested and in health, half a minute to half an hour; between people it differs by a factor of two. One arm does about two thirds (common practice). Stop on pain.
//
// Source: two-armed trials of three minutes at 35 W and 25 W: J. Med. Eng. Technol. 33 (2009) 151, abstract; critical power: H. Monod, J. Scherrer, Ergonomics 8 (1965) 329, from memory; 90 s, some 7 kJ above 75 W of arms, from memory.
//
// Example:
//
//	arm = arm_power(2 min, three_minutes: 35 W)
//	P [W] = arm.power
func ArmPower(in ArmPowerInput) (ArmPowerResult, error) {
	err := require.All(require.Positive("time", in.Time, "s"), require.Positive("three_minutes", in.ThreeMin, "W"),
		require.Positive("cadence", in.Cadence, "rad/s"), require.Positive("length", in.Length, "m"),
		require.Positive("pulse", in.Pulse, "1"), require.NotNegative("reserve_time", in.ReserveTime, "s"))
	if err != nil {
		return ArmPowerResult{}, err
	}
	row := in.row(in.Time)
	out := ArmPowerResult{Power: row.Power, Work: row.Work, Force: row.Force, PeakForce: in.Pulse * row.Force}
	for _, minutes := range []float64{1, 2, 3, 5} {
		out.Rows = append(out.Rows, in.row(60*minutes))
	}
	crankTorque(&out.Cautions, out.PeakForce*in.Length)
	armCaution(&out.Cautions, out.Power, in.Time)
	handCranking(&out.Cautions)
	return out, nil
}

// row is what is kept up for a time.
func (in ArmPowerInput) row(t float64) ArmPowerRow {
	const trial = 180
	p := in.ThreeMin * (1 + in.ReserveTime/t) / (1 + in.ReserveTime/trial)
	return ArmPowerRow{Time: t, Power: p, Work: p * t, Force: p / (in.Cadence * in.Length)}
}
