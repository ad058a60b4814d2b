package generator

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// DiodeVoltageInput is what [DiodeVoltage] reads.
type DiodeVoltageInput struct {
	Current     float64 `unit:"A" range:"[0,)" help:"through the diode" symbol:"I"`
	Saturation  float64 `unit:"A" range:"(0,)" help:"saturation current, from its curve"`
	Emission    float64 `unit:"1" default:"1" range:"[0.5,3]" help:"emission factor"`
	Temperature float64 `unit:"°C" default:"25 °C" range:"[-50,200]" help:"of the junction"`
	Resistance  float64 `unit:"Ω" default:"0 Ω" range:"[0,)" help:"in series, inside the diode" symbol:"R"`
}

// DiodeVoltageResult is the drop alone.
type DiodeVoltageResult struct {
	Drop float64 `unit:"V"`
}

// DiodeVoltage is a diode's forward drop at a current, for the diode_drop of a
// bridge: take it near the mean charging current.
//
// Formula: V = n·k·T/q·ln(1 + I/Is) + I·R, k = 1.380649e-23 J/K, q = 1.602176634e-19 C
//
// Letters: I current; Is saturation; n emission; T temperature; R resistance; V = result.
//
// Validity: forward; silicon shows 0.6 V to 0.8 V at its working current,
// Schottky diodes 0.2 V to 0.5 V.
//
// Source: Shockley's law; k and q of the SI (2019)
//
// Example:
//
//	drop [V] = diode_voltage(3 A, 1e-6 A, emission: 1.05)
func DiodeVoltage(in DiodeVoltageInput) (DiodeVoltageResult, error) {
	if err := require.All(require.Positive("saturation", in.Saturation, "A"),
		require.Positive("emission", in.Emission, "1"), require.Positive("temperature", in.Temperature, "K")); err != nil {
		return DiodeVoltageResult{}, err
	}
	if err := require.All(require.NotNegative("current", in.Current, "A"),
		require.NotNegative("resistance", in.Resistance, "Ω")); err != nil {
		return DiodeVoltageResult{}, err
	}
	return DiodeVoltageResult{in.Emission*thermalVoltage(in.Temperature)*math.Log1p(in.Current/in.Saturation) + in.Current*in.Resistance}, nil
}

// thermalVoltage is kT/q.
func thermalVoltage(kelvin float64) float64 { return 1.380649e-23 * kelvin / 1.602176634e-19 }

// DiodeLaw is a diode's forward drop by its current, as a bridge reads it.
type DiodeLaw struct {
	Saturation float64 `unit:"A" range:"(0,)" show:"1" help:"saturation current"`
	Scale      float64 `unit:"mV" range:"(0,)" show:"2" help:"emission factor times kT/q"`
	Resistance float64 `unit:"Ω" default:"0 Ω" range:"[0,)" help:"in series, inside the diode" symbol:"R"`
}

// DiodeInput is what [Diode] reads.
type DiodeInput struct {
	LowCurrent  float64 `unit:"A" range:"(0,)" help:"of the first reading"`
	LowDrop     float64 `unit:"V" range:"(0,)" help:"of the first reading"`
	HighCurrent float64 `unit:"A" range:"(0,)" help:"of the second reading, near the peak charging current"`
	HighDrop    float64 `unit:"V" range:"(0,)" help:"of the second reading"`
	Resistance  float64 `unit:"Ω" default:"0 Ω" range:"[0,)" help:"in series, inside the diode" symbol:"R"`
}

// DiodeResult is a diode's law.
type DiodeResult struct{ DiodeLaw }

// Diode is a diode's law through two readings of its forward drop, for the
// diode of a generator: with it the drop follows the current.
//
// Formula: V1 = s·ln(1 + I1/Is) + I1·R, V2 = s·ln(1 + I2/Is) + I2·R, so that both readings lie on one law
//
// Letters: V1 low_drop; I1 low_current; V2 high_drop; I2 high_current; R resistance; s = scale; Is = saturation.
//
// Validity: forward, at the temperature of the readings; take them a factor of
// ten apart, the higher near the peak charging current.
//
// Source: Shockley's law
//
// Example:
//
//	d = diode(0.3 A, 0.28 V, 3 A, 0.36 V)
//	gen = generator(coil(87, awg(21), 10 mm, 9 mm, 8 mm), 9, 12, emf_constant: 0.05 V·s/rad, phases: 3, diode: d)
//	k [V·s/rad] = gen.phase_constant
func Diode(in DiodeInput) (DiodeResult, error) {
	err := require.All(require.Positive("low_current", in.LowCurrent, "A"),
		require.Positive("low_drop", in.LowDrop, "V"), require.Positive("high_current", in.HighCurrent, "A"),
		require.Positive("high_drop", in.HighDrop, "V"), require.NotNegative("resistance", in.Resistance, "Ω"))
	if err != nil {
		return DiodeResult{}, err
	}
	low, high := in.LowDrop-in.LowCurrent*in.Resistance, in.HighDrop-in.HighCurrent*in.Resistance
	decade := math.Log(in.HighCurrent / in.LowCurrent)
	if !(decade > 0 && low > 0 && high > low && math.Log(high/low) < decade) {
		return DiodeResult{}, &model.Error{Field: "high_drop", Summary: "no diode has these two drops: beyond its resistance the drop grows with the current, and slower than it",
			Hint: "check the readings, the smaller current first, and the resistance"}
	}
	near := (high - low) / decade // what it is where both currents are far above Is
	scale := solve(near/2, 1e3*near, func(s float64) float64 {
		return logExpm1(high/s) - logExpm1(low/s) - decade
	})
	return DiodeResult{DiodeLaw{Saturation: in.HighCurrent / math.Expm1(high/scale), Scale: scale, Resistance: in.Resistance}}, nil
}

// logExpm1 is ln(e^x − 1), which may not overflow.
func logExpm1(x float64) float64 { return x + math.Log(-math.Expm1(-x)) }
