package generator

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// CrankLoadInput is what [CrankLoad] reads.
type CrankLoadInput struct {
	Power   float64  `unit:"W" range:"[0,)" help:"at the crank" symbol:"P"`
	Cadence float64  `unit:"rpm" range:"(0,)"`
	Length  float64  `unit:"mm" range:"(0,)" default:"150 mm" help:"of the crank"`
	Pulse   float64  `unit:"1" range:"[1,)" default:"1" help:"largest torque by the mean: pulse_torque by the torque of a charge"`
	Time    *float64 `unit:"s" range:"(0,)" help:"how long" symbol:"t"`
}

// CrankLoadResult is what the arm feels.
type CrankLoadResult struct {
	Torque    float64 `unit:"N·m"`
	Force     float64 `unit:"N" show:"1" help:"at the handle, the mean over a turn"`
	PeakForce float64 `unit:"N" show:"2" help:"at the handle, at the crest of a pulsing torque"`
	model.Cautions
}

// CrankLoad is the torque and the force at the handle for a power.
//
// A single-phase bridge pulses: its largest torque is twice the mean into an
// empty store, 2.6 times at half of the ceiling and 3.8 times at four fifths.
//
// Formula: T = P/ω; F = T/r; the peak is so many times the mean as the torque pulses, F_peak = q·F
//
// Letters: P power; ω cadence; r length; q pulse; T = torque; F = force; F_peak = peak_force.
//
// Validity: a rigid drive; gears, a heavy rotor and the arm itself take the
// edge off a pulse, and a real arm pushes unevenly besides.
//
// Source: textbook
//
// Example:
//
//	arm = crank_load(30 W, 60 rpm, length: 150 mm, pulse: 2.56)
//	F [N] = arm.force
func CrankLoad(in CrankLoadInput) (CrankLoadResult, error) {
	err := require.All(require.Positive("cadence", in.Cadence, "rad/s"), require.Positive("length", in.Length, "m"),
		require.NotNegative("power", in.Power, "W"), require.Positive("pulse", in.Pulse, "1"))
	if err != nil {
		return CrankLoadResult{}, err
	}
	torque := in.Power / in.Cadence
	out := CrankLoadResult{Torque: torque, Force: torque / in.Length, PeakForce: in.Pulse * torque / in.Length}
	armCaution(&out.Cautions, in.Power, ptr(in.Time, 0))
	crankTorque(&out.Cautions, in.Pulse*torque)
	handCranking(&out.Cautions)
	return out, nil
}

// ArmEnduranceInput is what [ArmEndurance] reads.
type ArmEnduranceInput struct {
	ShortPower float64 `unit:"W" range:"(0,)" help:"kept up until the arm gave out, in a short trial"`
	ShortTime  float64 `unit:"s" range:"(0,)" help:"how long that was"`
	LongPower  float64 `unit:"W" range:"(0,)" help:"of a longer trial, rested in between"`
	LongTime   float64 `unit:"s" range:"(0,)" help:"how long that was"`
	Time       float64 `unit:"s" range:"(0,)" help:"how long the charge takes" symbol:"t"`
}

// ArmEnduranceResult is what an arm keeps up.
type ArmEnduranceResult struct {
	Power     float64 `unit:"W" show:"1" help:"kept up for the time wanted, all out" symbol:"P"`
	Sustained float64 `unit:"W" show:"2" help:"that the arm keeps up for long"`
	Reserve   float64 `unit:"J" show:"3" help:"work above it that there is once"`
	model.Cautions
}

// ArmEndurance is the power that the arm of two trials keeps up for another
// time: what it sustains, and a store of work that is spent above it.
//
// Formula: P = CP + W′/t; W′ = (P1 − P2)/(1/t1 − 1/t2), CP = P1 − W′/t1
//
// Letters: P1 short_power; t1 short_time; P2 long_power; t2 long_time; t time; P = power; W′ = reserve; CP = sustained.
//
// Validity: times of about one to ten minutes, between those of the trials or near them;
// all out, which is no way to charge: plan with two thirds of it. Two-armed
// trials of three minutes that are not all out are set at 35 W for men and 25 W for women.
//
// Source: critical power: H. Monod, J. Scherrer, Ergonomics 8 (1965) 329, from memory;
// the trials: J. Med. Eng. Technol. 33 (2009) 151, abstract
//
// Example:
//
//	arm = arm_endurance(110 W, 60 s, 65 W, 300 s, time: 120 s)
//	P [W] = arm.power
func ArmEndurance(in ArmEnduranceInput) (ArmEnduranceResult, error) {
	err := require.All(require.Positive("short_power", in.ShortPower, "W"), require.Positive("short_time", in.ShortTime, "s"),
		require.Positive("long_power", in.LongPower, "W"), require.Positive("long_time", in.LongTime, "s"), require.Positive("time", in.Time, "s"))
	if err != nil {
		return ArmEnduranceResult{}, err
	}
	if in.LongTime <= in.ShortTime || in.LongPower >= in.ShortPower || in.LongPower*in.LongTime <= in.ShortPower*in.ShortTime {
		return ArmEnduranceResult{}, &model.Error{Field: "long_power", Summary: "no arm does this: the longer trial takes less power and more work",
			Hint: "check powers and times, the short trial first"}
	}
	reserve := (in.ShortPower - in.LongPower) / (1/in.ShortTime - 1/in.LongTime)
	sustained := in.ShortPower - reserve/in.ShortTime
	out := ArmEnduranceResult{Power: sustained + reserve/in.Time, Sustained: sustained, Reserve: reserve}
	handCranking(&out.Cautions)
	return out, nil
}

const (
	trialMen   = 35.0 // W, two arms, three minutes, not all out
	trialWomen = 25.0
	handTorque = 15.0 // N·m, 100 N at a crank of 150 mm (common practice)
	longCrank  = 60.0 // s, from which a crank is a matter of endurance
)

// armCaution says when a power is more than arms are asked for in trials that
// last minutes, or twice that for less than one; the time is 0 where it is not known.
func armCaution(c *model.Cautions, power, time float64) {
	bound := trialMen
	if 0 < time && time < longCrank {
		bound *= 2
	}
	if power <= bound*(1+1e-9) {
		return
	}
	summary := "The crank takes {0}; trials ask {1} of men, {2} of women."
	values := []model.Value{model.In(math.Round(power*100)/100, "W"), model.In(trialMen, "W"), model.In(trialWomen, "W")}
	if time > 0 {
		summary = "The crank takes {0} for {3}; three-minute trials ask {1} of men, {2} of women."
		values = append(values, model.In(time, "s"))
	}
	c.Raise(model.Caution{ID: "arm-power", Level: model.Advice, Summary: summary, Values: values,
		Why:    "The trials last three minutes and are of both arms; one does less, legs do more, and a day's work of the whole body is done at about 75 W.",
		Hint:   "Gear lower, stop on pain.",
		Source: "J. Med. Eng. Technol. 33 (2009) 151, abstract; E. S. Krendel, Franklin Institute (1958); no substitute for a doctor's word"})
}

// crankTorque says when a torque at the crank is more than a hand should hold.
func crankTorque(c *model.Cautions, torque float64) {
	if torque <= handTorque {
		return
	}
	c.Raise(model.Caution{ID: "crank-torque", Level: model.Warning, Severity: torque,
		Summary: "Up to {0} pulls at the crank, {1} at 150 mm.",
		Values:  []model.Value{model.In(torque, "N·m"), model.In(torque/0.15, "N")},
		Why:     "That is how far out a handle commonly stands. An empty store is nearly a short, and a single-phase bridge pulses; wrist, handle and teeth take the peak, not the mean. torque_limit says what they bear.",
		Hint:    "Start slowly, or gear lower.",
		Source:  "common practice: 100 N at a handle; no substitute for a doctor's word"})
}

// handCranking is the standing hazard of a crank and of the arm at it.
func handCranking(c *model.Cautions) {
	c.Raise(model.Caution{ID: "hand-cranking", Level: model.Warning, Standing: true,
		Summary: "Crank and gears catch hair, sleeves and fingers.",
		Why:     "They run on, so tie hair back. A geared crank strains wrist and shoulder too: clamp the frame, start slowly, and stop on pain. Children put fingers where it turns.",
		Hint:    "Cover the gears, keep children off.",
		Source:  "common practice; guards by ISO 13857, from memory; local rules come first"})
}

const (
	softPrint  = zeroCelsius + 55  // PLA
	burnMetal  = zeroCelsius + 60  // bare hot metal, a short touch
	classBCoil = zeroCelsius + 130 // enamel of class B
)

// hotCoils says when the coils end a charge hotter than prints and skin bear.
func hotCoils(c *model.Cautions, kelvin float64) {
	if kelvin <= softPrint {
		return
	}
	level := model.Warning
	if kelvin > classBCoil {
		level = model.Danger
	}
	c.Raise(model.Caution{ID: "coils-hot", Level: level,
		Summary: "The coils end at {0}; PLA softens from {1}, skin burns from {2}.",
		Values: []model.Value{model.In(kelvin-zeroCelsius, "°C"), model.In(softPrint-zeroCelsius, "°C"),
			model.In(burnMetal-zeroCelsius, "°C")},
		Why:    "Heat adds up from charge to charge, and the windings shed it slowly; print their holders for it. Simple enamel ends at 130 °C.",
		Hint:   "Let them cool, hands off.",
		Source: "ISO 13732-1 for the touch, from memory; IEC 60085 class B; makers' sheets for prints"})
}
