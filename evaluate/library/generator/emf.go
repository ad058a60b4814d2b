package generator

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// OpenCircuitVoltageInput is what [OpenCircuitVoltage] reads.
type OpenCircuitVoltageInput struct {
	Coils         float64  `unit:"1" range:"(0,)" help:"in series"`
	Turns         float64  `unit:"1" range:"(0,)" help:"of one coil"`
	PolePairs     float64  `unit:"1" range:"[1,)" help:"half the number of magnets of a rotor"`
	Rotation      float64  `unit:"rpm" range:"[0,)" help:"of the rotor"`
	Flux          *float64 `unit:"Wb" choose:"flux" range:"(0,)" help:"peak through one turn"`
	Field         *float64 `unit:"T" choose:"flux" range:"(0,)" help:"peak in mid gap; wants area"`
	Area          *float64 `unit:"mm^2" range:"(0,)" help:"of a magnet's face, with field"`
	WindingFactor float64  `unit:"1" default:"1" range:"(0,1]" help:"how well the coils add"`
}

// OpenCircuitVoltageResult is the voltage of coils that carry no current.
type OpenCircuitVoltageResult struct {
	Peak        float64 `unit:"V" show:"1"`
	RMS         float64 `unit:"V" name:"rms" show:"2"`
	Frequency   float64 `unit:"Hz"`
	Flux        float64 `unit:"Wb" help:"peak through one turn"`
	EmfConstant float64 `unit:"V·s/rad" help:"peak of the set by the rotation"`
	model.Cautions
}

// OpenCircuitVoltage is what a set of coils in series gives without a load.
//
// Formula: k = c·N·kw·p·Φ, peak V = k·ω; rms V_rms = V/√2; f = p·ω/(2·π); with a field in place of a flux Φ = (2/π)·B·A
//
// Letters: c coils; N turns; kw winding_factor; p pole_pairs; ω rotation; B field; A area; Φ = flux; k = emf_constant; V = peak; V_rms = rms; f = frequency.
//
// Validity: a sinusoidal voltage. The quick flux takes the field to follow a
// sine over each magnet and the turn to embrace a whole one: good to about 20 %,
// mostly high. Spin one coil and measure it.
//
// Source: E = √2·π·f·N·kw·Φ (4.44 f N kw Φ), textbook
//
// Example:
//
//	v = open_circuit_voltage(3, 80, 6, 300 rpm, field: 0.6 T, area: 46 mm * 30 mm)
//	U [V] = v.rms
func OpenCircuitVoltage(in OpenCircuitVoltageInput) (OpenCircuitVoltageResult, error) {
	err := require.All(require.Positive("coils", in.Coils, "1"), require.Positive("turns", in.Turns, "1"),
		require.Positive("pole_pairs", in.PolePairs, "1"), require.NotNegative("rotation", in.Rotation, "rad/s"))
	if err != nil {
		return OpenCircuitVoltageResult{}, err
	}
	flux, err := in.flux()
	if err != nil {
		return OpenCircuitVoltageResult{}, err
	}
	constant := in.Coils * in.Turns * in.WindingFactor * in.PolePairs * flux
	peak := constant * in.Rotation
	out := OpenCircuitVoltageResult{Peak: peak, RMS: peak / math.Sqrt2, Flux: flux, EmfConstant: constant,
		Frequency: in.PolePairs * in.Rotation / (2 * math.Pi)}
	touchVoltage(&out.Cautions, peak)
	spinningRotor(&out.Cautions)
	return out, nil
}

func (in OpenCircuitVoltageInput) flux() (float64, error) {
	switch {
	case in.Flux != nil:
		return *in.Flux, nil
	case in.Field == nil:
		return 0, &model.Error{Field: "flux", Summary: "neither a flux nor a field is given", Hint: "give flux, or field with area"}
	case in.Area == nil:
		return 0, &model.Error{Field: "area", Summary: "a field makes a flux only through an area", Hint: "give the area of a magnet's face"}
	}
	return 2 / math.Pi * *in.Field * *in.Area, nil
}

// touchVoltage says when open terminals can be dangerous to touch: an
// alternating voltage by its rms, or what a bridge makes of its peak.
func touchVoltage(c *model.Cautions, peak float64) {
	if peak/math.Sqrt2 <= touchRMS && peak <= touchVolts {
		return
	}
	c.Raise(model.Caution{ID: "open-circuit-touch-voltage", Level: model.Danger, Severity: peak,
		Summary: "Unloaded it gives {0} rms, {1} at its crest: hazardous.",
		Values:  []model.Value{model.In(peak/math.Sqrt2, "V"), model.In(peak, "V")},
		Why:     "Above 30 V a.c. or 60 V d.c. a voltage counts as hazardous to touch; it rises with speed and appears as soon as the pack is unplugged.",
		Hint:    "Insulate joints; hands off while it turns.",
		Source:  "IEC 61010-1: 30 V rms, 42.4 V crest, 60 V d.c., from memory; local rules come first"})
}

func spinningRotor(c *model.Cautions) {
	c.Raise(model.Caution{ID: "spinning-rotor", Level: model.Danger, Standing: true,
		Summary: "A spinning rotor can throw magnets.",
		Why:     "Glue alone has held each magnet until it did not; the pull grows with the square of the speed: never pass the proven one.",
		Hint:    "Band them, prove it behind a guard.",
		Source:  "m·ω²·r on each magnet, textbook; the guard: common practice; local rules come first"})
}
