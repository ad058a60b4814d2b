package generator

import "math"

// DiodeVoltageInput is what [DiodeVoltage] reads.
type DiodeVoltageInput struct {
	Current     float64 `unit:"A" range:"[0,)" help:"through the diode"`
	Saturation  float64 `unit:"A" range:"(0,)" help:"saturation current, from its curve"`
	Emission    float64 `unit:"1" default:"1" range:"[0.5,3]" help:"emission factor"`
	Temperature float64 `unit:"°C" default:"25 °C" range:"[-50,200]" help:"of the junction"`
	Resistance  float64 `unit:"Ω" default:"0 Ω" range:"[0,)" help:"in series, inside the diode"`
}

// DiodeVoltageResult is the drop alone.
type DiodeVoltageResult struct {
	Drop float64 `unit:"V"`
}

// DiodeVoltage is a diode's forward drop at a current, for the diode_drop of a
// bridge: take it near the mean charging current.
//
// Formula: V = n·kT/q·ln(1 + I/Is) + I·R
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
	if err := positive(given{"saturation", in.Saturation}, given{"emission", in.Emission}, given{"temperature", in.Temperature}); err != nil {
		return DiodeVoltageResult{}, err
	}
	if err := notNegative(given{"current", in.Current}, given{"resistance", in.Resistance}); err != nil {
		return DiodeVoltageResult{}, err
	}
	return DiodeVoltageResult{in.Emission*thermalVoltage(in.Temperature)*math.Log1p(in.Current/in.Saturation) + in.Current*in.Resistance}, nil
}

// thermalVoltage is kT/q.
func thermalVoltage(kelvin float64) float64 { return 1.380649e-23 * kelvin / 1.602176634e-19 }
