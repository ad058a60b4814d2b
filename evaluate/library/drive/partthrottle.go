package drive

import (
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// PartThrottleInput is what [PartThrottle] wants.
type PartThrottleInput struct {
	Voltage    float64  `unit:"V" range:"(0,)" help:"at the speed control's input" symbol:"V"`
	Emf        float64  `unit:"V" range:"[0,)" help:"back voltage of the motor, speed/Kv"`
	Resistance float64  `unit:"Ω" range:"(0,)" help:"of winding and switch" symbol:"R"`
	Inductance float64  `unit:"uH" range:"(0,)" help:"of the winding" symbol:"L"`
	Frequency  float64  `unit:"kHz" range:"(0,)" help:"at which the control switches"`
	Current    *float64 `unit:"A" range:"(0,)" choose:"wanted" help:"mean, in the motor" symbol:"I"`
	Throttle   *float64 `unit:"%" range:"(0,100]" choose:"wanted" help:"share of each period that the switch is on"`
}

// PartThrottleResult is what [PartThrottle] answers.
type PartThrottleResult struct {
	Throttle    float64 `unit:"%" show:"1" help:"share of each period that the switch is on"`
	Current     float64 `unit:"A" show:"2" help:"mean, in the motor: its torque" symbol:"I"`
	PackCurrent float64 `unit:"A" show:"3" help:"mean, out of the pack"`
	MeanSquare  float64 `unit:"A^2" help:"of the motor's current: times the resistance, its heat"`
	Ripple      float64 `unit:"A" help:"between the least and the largest current"`
	Continuous  bool    `help:"whether the current never ends within a period"`
}

// PartThrottle is the current of a motor whose speed control switches: its mean, what the pack gives, and what heats it.
//
// Formula: on, i runs to (V − E)/R, off, through the diode, to −E/R and no further than 0, both by e^(−t·R/L); periodic; where it never ends I = (d·V − E)/R, I_pack = d·(V − E)/R − V/R·w/τ, ripple ΔI = V/R·w, w = (1 − e^(−d·τ))·(1 − e^(−(1 − d)·τ))/(1 − e^(−τ)), τ = R/(L·f); means over one period in closed form; V·I_pack = E·I + R·q, q the mean square.
//
// Letters: V voltage; E emf; R resistance; L inductance; f frequency; d = throttle; I = current; I_pack = pack_current; ΔI = ripple; q = mean_square.
//
// Validity: a brushed motor with a diode, or a brushless control without active freewheeling; switches and diode without a drop of their own; a capacitor at the input that smooths the pack's current.
//
// Source: the step-down chopper with a back voltage, power electronics textbooks.
//
// Example:
//
//	half = part_throttle(6 V, emf: 3 V, resistance: 1 Ω, inductance: 30 uH, frequency: 8 kHz, current: 1.2 A)
//	I_pack [A] = half.pack_current
func PartThrottle(in PartThrottleInput) (PartThrottleResult, error) {
	if err := require.All(require.Positive("voltage", in.Voltage, "V"), require.NotNegative("emf", in.Emf, "V"),
		require.Positive("resistance", in.Resistance, "Ω"), require.Positive("inductance", in.Inductance, "H"),
		require.Positive("frequency", in.Frequency, "Hz")); err != nil {
		return PartThrottleResult{}, err
	}
	k := NewChopper(in.Resistance, in.Inductance, in.Frequency)
	duty, err := in.duty(k)
	if err != nil {
		return PartThrottleResult{}, err
	}
	c := k.At(in.Voltage, in.Emf, duty)
	return PartThrottleResult{Throttle: duty, Current: c.Mean, PackCurrent: c.Pack, MeanSquare: c.Square, Ripple: c.Ripple, Continuous: c.Through}, nil
}

func (in PartThrottleInput) duty(k Chopper) (float64, error) {
	switch {
	case in.Throttle != nil:
		if *in.Throttle > 1 {
			return 0, &model.Error{Field: "throttle", Summary: "is {0}, more than full throttle",
				Values: []model.Value{model.In(100**in.Throttle, "%")}, Hint: "write a share of at most 100 %"}
		}
		return *in.Throttle, require.Positive("throttle", *in.Throttle, "1")
	case in.Current == nil:
		return 0, &model.Error{Field: "current", Summary: "nothing says what is wanted", Hint: "give current or throttle"}
	}
	most := k.At(in.Voltage, in.Emf, 1).Mean
	if *in.Current > most {
		return 0, &model.Error{Field: "current", Summary: "is {0}, and full throttle gives no more than {1}",
			Values: []model.Value{model.In(*in.Current, "A"), model.In(most, "A")}, Hint: "ask for less current, or give a higher voltage"}
	}
	return k.DutyOfMean(in.Voltage, in.Emf, *in.Current), require.Positive("current", *in.Current, "A")
}
