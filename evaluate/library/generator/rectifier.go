package generator

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// RectifierChoiceInput is what [RectifierChoice] reads.
type RectifierChoiceInput struct {
	Generator Machine
	Store     ChargedStore
	Rotation  float64 `unit:"rpm" range:"(0,)" help:"fastest of the rotor"`
	Voltage   float64 `unit:"V" default:"0 V" range:"[0,)" help:"of the store, rested; most flows into an empty one" symbol:"V"`
	Power     float64 `unit:"W" default:"150 W" range:"(0,)" help:"most that the rotor gets, which holds its rotation down; what a fit body keeps up for an hour if left out" symbol:"P"`
	Leakage   float64 `unit:"mA" default:"0.1 mA" range:"[0,)" help:"of one diode at the store's voltage, warm"`
}

// RectifierChoiceResult is what the diodes must bear.
type RectifierChoiceResult struct {
	ReverseVoltage float64 `unit:"V" show:"1" help:"of one diode, to look for: half as much again as it sees with the store unplugged"`
	MeanCurrent    float64 `unit:"A" help:"of one diode"`
	PeakCurrent    float64 `unit:"A" show:"2" help:"of one diode"`
	Loss           float64 `unit:"W" show:"3" help:"of all diodes"`
	BackDrain      float64 `unit:"mA" help:"from the store at rest"`
	Diodes         int
	model.Cautions
}

// RectifierChoice is what the diodes of a generator's bridge must bear.
//
// Formula: reverse voltage V_r = 1.5·k·ω, half as much again as one bridge sees open; loss P of two drops at a time, mean current of one of n diodes I_m = P/(Vd·n), by the diodes' law where the generator has one; back-drain the leakage of each leg, I_b = I_l·n/2
//
// Letters: k generator.ceiling_constant; ω rotation; Vd generator.diode_drop; I_l leakage; V_r = reverse_voltage; P = loss; I_m = mean_current; n = diodes; I_b = back_drain.
//
// Validity: as for the bridge; the store's resistance as given.
//
// Source: textbook; the factor 1.5 is common practice
//
// Example:
//
//	c = coil(87, awg(21), 10 mm, 9 mm, 8 mm)
//	gen = generator(c, 9, 12, emf_constant: 0.05 V·s/rad, phases: 3)
//	store = pack(capacitor(100 F, 2.7 V, resistance: 10 mΩ), series: 5)
//	d = rectifier_choice(gen, store, 900 rpm)
//	V_reverse [V] = d.reverse_voltage
func RectifierChoice(in RectifierChoiceInput) (RectifierChoiceResult, error) {
	g := in.Generator
	err := require.All(require.Positive("generator.phase_constant", g.PhaseConstant, "V·s/rad"),
		require.Positive("generator.phase_resistance", g.PhaseResistance, "Ω"),
		require.Positive("rotation", in.Rotation, "rad/s"))
	if err != nil {
		return RectifierChoiceResult{}, err
	}
	spin := HandChargeInput{Generator: g, Store: in.Store, Cadence: in.Rotation, Gearing: 1, GearEfficiency: 1, PowerLimit: &in.Power}
	d := spin.at(in.Voltage)
	legs, share := 2, 2.0
	if g.star() {
		legs, share = 3, 3
	}
	n := max(1, g.Bridges)
	if g.Rectifiers == "each" {
		n *= max(1, g.ParallelStrings)
	}
	out := RectifierChoiceResult{ReverseVoltage: 1.5 * g.CeilingConstant * in.Rotation, MeanCurrent: d.mean / float64(n) / share,
		PeakCurrent: g.peakCurrent(d.drain, d.cadence, spin.behind()) / float64(n), Loss: d.diodes, BackDrain: in.Leakage * float64(legs*n), Diodes: 2 * legs * n}
	if g.Bridges > 1 {
		// A string's own crest, not the smooth sum of them all.
		x := d.x + d.mean*spin.behind()
		out.PeakCurrent = max(0, g.PhaseConstant*d.cadence-x) / g.PhaseResistance / float64(max(1, g.ParallelStrings))
	}
	touchVoltage(&out.Cautions, g.CeilingConstant*in.Rotation)
	hotDiodes(&out.Cautions, out.Loss/float64(out.Diodes))
	return out, nil
}

// bareDiode is the power, W, that a leaded diode without a heat sink commonly
// sheds while it can still be touched (common practice).
const bareDiode = 1.0

// hotDiodes says when the diodes get too hot for fingers.
func hotDiodes(c *model.Cautions, each float64) {
	if each <= bareDiode {
		return
	}
	c.Raise(model.Caution{ID: "diodes-hot", Level: model.Warning,
		Summary: "Each diode makes {0} of heat; a bare one bears {1}.",
		Values:  []model.Value{model.In(each, "W"), model.In(bareDiode, "W")},
		Why:     "About that, if small; a lower drop heats less. It burns skin, softens printed parts, and leaks more the hotter it is.",
		Hint:    "Give them a heat sink.",
		Source:  "common practice, the maker's sheet comes first; hot metal burns from about 60 °C by ISO 13732-1, from memory"})
}

// BlockingDiodeInput is what [BlockingDiode] reads.
type BlockingDiodeInput struct {
	Machine    string  `values:"bridge brushed" help:"a winding behind a bridge, or a brushed motor straight on the store"`
	Voltage    float64 `unit:"V" range:"[0,)" help:"of the store" symbol:"V"`
	Resistance float64 `unit:"Ω" range:"(0,)" help:"of the winding with its leads" symbol:"R"`
	Emf        float64 `unit:"V" default:"0 V" range:"[0,)" help:"at the rotation in question; 0 at rest"`
}

// BlockingDiodeResult is whether a diode is needed and what flows without.
type BlockingDiodeResult struct {
	Needed      bool    `show:"1"`
	BackCurrent float64 `unit:"A" show:"2" help:"out of the store without one"`
	BackPower   float64 `unit:"W" help:"out of the store without one"`
	model.Cautions
}

// BlockingDiode reports whether a generator needs a diode to keep the store from
// driving it as a motor.
//
// Formula: back current of a brushed machine I = max(0, (V − E)/R), none behind a bridge; P = I·V
//
// Letters: V voltage; E emf; R resistance; I = back_current; P = back_power.
//
// Validity: steady, at the rotation given; a free rotor speeds up until E nears V.
//
// Source: textbook
//
// Example:
//
//	d = blocking_diode("brushed", 5 V, 1.2 Ω)
//	I_back [A] = d.back_current
func BlockingDiode(in BlockingDiodeInput) (BlockingDiodeResult, error) {
	if err := require.Positive("resistance", in.Resistance, "Ω"); err != nil {
		return BlockingDiodeResult{}, err
	}
	var out BlockingDiodeResult
	if in.Machine != "brushed" {
		return out, nil
	}
	out.Needed = in.Voltage > 0
	out.BackCurrent = math.Max(0, (in.Voltage-in.Emf)/in.Resistance)
	out.BackPower = out.BackCurrent * in.Voltage
	if out.BackCurrent > 0 {
		out.Raise(model.Caution{ID: "store-drives-generator", Level: model.Warning, Severity: out.BackCurrent,
			Summary: "Without a diode {0} flows back and turns it.",
			Values:  []model.Value{model.In(out.BackCurrent, "A")},
			Why:     "It empties the store, and a crank that starts by itself hurts hands.",
			Hint:    "Put a Schottky diode in the positive lead.",
			Source:  "common practice; the diode's sheet has the current that it bears"})
	}
	return out, nil
}
