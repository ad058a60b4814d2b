package energy

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

const gravity = 9.80665 // m/s², standard

// BatteryInput is what a cell or battery's label says.
type BatteryInput struct {
	Capacity float64 `unit:"mAh" range:"(0,)" help:"nominal"`
	Voltage  float64 `unit:"V" range:"(0,)" help:"nominal" symbol:"V"`
	Mass     float64 `unit:"g" range:"(0,)" help:"with its leads" symbol:"m"`
}

// BatteryResult is what it holds.
type BatteryResult struct {
	Energy         float64 `unit:"Wh" show:"1" help:"nominal" symbol:"E"`
	SpecificEnergy float64 `unit:"Wh/kg" show:"2" help:"over its mass"`
	model.Cautions
}

// Battery is what a battery of like size would hold, for comparison.
//
// Formula: E = Q·V; e = E/m.
//
// Letters: Q capacity; V voltage; m mass; E = energy; e = specific_energy.
//
// Validity: nominal; less at high current or in the cold.
//
// Source: definition.
//
// Example:
//
//	lithium = battery(capacity: 150 mAh, voltage: 3.7 V, mass: 4.2 g)
func Battery(in BatteryInput) (BatteryResult, error) {
	if err := require.Positive("mass", in.Mass, "kg"); err != nil {
		return BatteryResult{}, err
	}
	e := in.Capacity * in.Voltage
	out := BatteryResult{Energy: e, SpecificEnergy: e / in.Mass}
	out.Raise(lithium())
	return out, nil
}

func lithium() model.Caution {
	return model.Caution{
		ID: "lithium-charging", Level: model.Danger, Standing: true,
		Summary: "Lithium burns when charged wrongly, bent or run flat.",
		Values:  []model.Value{model.In(4.2, "V"), model.In(3, "V")},
		Why:     "Charge it away from what burns, and retire swollen or dented cells. The common kinds bear {0} a cell at most and about {1} at least, and no charging below freezing.",
		Hint:    "Use its own charger; stay with it.",
		Source:  practice + "; limits as cell makers give them, from memory",
	}
}

// RubberInput is a wound strip.
type RubberInput struct {
	Mass           float64 `unit:"g" range:"(0,)" help:"of the strip" symbol:"m"`
	SpecificEnergy float64 `unit:"kJ/kg" range:"(0,)" default:"10.5 kJ/kg" help:"wound full; 10.5 to 13.5 is quoted for contest strip"`
}

// RubberResult is what it gives back.
type RubberResult struct {
	Energy float64 `unit:"J" help:"wound full" symbol:"E"`
}

// Rubber is what a strip of rubber gives back when it is wound full.
//
// Formula: E = m·e.
//
// Letters: m mass; e specific_energy; E = result.
//
// Validity: fresh strip, stretched as it is wound; the default is the low end of what is quoted.
//
// Source: 3500 to 4500 ft·lbf/lb quoted for contest strip, no primary table: take it as unsure.
//
// Example:
//
//	E_strip [J] = rubber(mass: 10 g)
func Rubber(in RubberInput) (RubberResult, error) {
	if err := require.All(require.Positive("mass", in.Mass, "kg"),
		require.Positive("specific_energy", in.SpecificEnergy, "J/kg")); err != nil {
		return RubberResult{}, err
	}
	return RubberResult{in.Mass * in.SpecificEnergy}, nil
}

// CompressedAirInput is a vessel of air.
type CompressedAirInput struct {
	Volume      float64 `unit:"L" range:"(0,)" help:"of the vessel"`
	Pressure    float64 `unit:"bar" range:"(0,)" help:"absolute: what a gauge shows and the ambient pressure"`
	Ambient     float64 `unit:"bar" range:"(0,)" default:"1.01325 bar" help:"absolute"`
	Temperature float64 `unit:"°C" default:"20 °C" help:"of air and vessel at the start"`
}

// CompressedAirResult is the work that it could do.
type CompressedAirResult struct {
	Isothermal      float64 `unit:"J" show:"1" help:"net of the air pushed away, slow enough to stay warm"`
	Adiabatic       float64 `unit:"J" show:"2" help:"net of the air pushed away, too fast for any heat"`
	IsothermalTotal float64 `unit:"J" help:"on the piston, the air pushed away included"`
	AdiabaticTotal  float64 `unit:"J" help:"on the piston, the air pushed away included"`
	Mass            float64 `unit:"g" show:"3" help:"of the air in the vessel" symbol:"m"`
	model.Cautions
}

const (
	airIndex = 1.4      // ratio of specific heats
	airGas   = 287.0529 // J/(kg·K)
)

// CompressedAir is the work that air in a vessel could do as it expands to the
// ambient pressure; a real motor gives a part of the adiabatic net.
//
// Formula: r = p/p0; isothermal E_it = p·V·ln r, net E_i = p·V·(ln r − 1 + 1/r); adiabatic E_at = p·V/(κ − 1)·(1 − r^(−(κ − 1)/κ)), net E_a = E_at − p0·(V2 − V), V2 = V·r^(1/κ), κ = 1.4; m = p·V/(287.0529 J/(kg·K)·T).
//
// Letters: p pressure; p0 ambient; V volume; T temperature; E_i = isothermal; E_a = adiabatic; E_it = isothermal_total; E_at = adiabatic_total; m = mass.
//
// Validity: ideal gas, reversible: an upper bound.
//
// Source: thermodynamics textbooks.
//
// Example:
//
//	air = compressed_air(volume: 0.5 L, pressure: 6 bar)
func CompressedAir(in CompressedAirInput) (CompressedAirResult, error) {
	if err := require.All(require.Positive("volume", in.Volume, "m^3"), require.Positive("ambient", in.Ambient, "Pa"),
		require.Positive("temperature", in.Temperature, "K")); err != nil {
		return CompressedAirResult{}, err
	}
	if !(in.Pressure >= in.Ambient) {
		return CompressedAirResult{}, &model.Error{
			Field:   "pressure",
			Summary: "is {0}, under the ambient pressure of {1}",
			Values:  []model.Value{model.In(in.Pressure/1e5, "bar"), model.In(in.Ambient/1e5, "bar")},
			Hint:    "give the absolute pressure: what the gauge shows and the ambient pressure",
		}
	}
	out := expand(in.Volume, in.Pressure, in.Ambient)
	out.Mass = in.Pressure * in.Volume / (airGas * in.Temperature)
	out.Raise(vessel(in.Pressure, out.Isothermal))
	return out, nil
}

func expand(volume, pressure, ambient float64) CompressedAirResult {
	pv, r := pressure*volume, pressure/ambient
	grown := volume * math.Pow(r, 1/airIndex)
	out := CompressedAirResult{
		IsothermalTotal: pv * math.Log(r),
		AdiabaticTotal:  pv / (airIndex - 1) * (1 - math.Pow(r, (1-airIndex)/airIndex)),
	}
	out.Isothermal = out.IsothermalTotal - pv*(1-1/r)
	out.Adiabatic = out.AdiabaticTotal - ambient*(grown-volume)
	return out
}

func vessel(pressure, energy float64) model.Caution {
	return model.Caution{
		ID: "pressure-vessel", Level: model.Danger, Standing: true, Severity: energy,
		Summary: "A vessel at {0} can let go {1} when it bursts.",
		Values:  []model.Value{model.In(pressure/1e5, "bar"), model.In(energy, "J")},
		Why:     "Test it above the pressure of use, and fit a relief valve. Scratched, aged or heated bottles fail without notice, and their parts fly.",
		Hint:    "Test it with water, behind a guard.",
		Source:  practice,
	}
}

// RaisedWeightInput is a weight and how far it is lifted.
type RaisedWeightInput struct {
	Mass   float64 `unit:"kg" range:"[0,)" help:"lifted" symbol:"m"`
	Height float64 `unit:"m" range:"[0,)" help:"by which"`
}

// RaisedWeightResult is what it holds.
type RaisedWeightResult struct {
	Energy float64 `unit:"J" help:"against standard gravity" symbol:"E"`
}

// RaisedWeight is what a lifted weight holds, for comparison.
//
// Formula: E = m·g·h, g = 9.80665 m/s².
//
// Letters: m mass; h height; E = result.
//
// Validity: near the ground, standard gravity.
//
// Source: definition.
//
// Example:
//
//	E_climb [J] = raised_weight(mass: 0.39 kg, height: 50 m)
func RaisedWeight(in RaisedWeightInput) (RaisedWeightResult, error) {
	return RaisedWeightResult{in.Mass * gravity * in.Height}, nil
}
