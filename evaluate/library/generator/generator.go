package generator

import (
	"context"
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// DiscMagnet is one of a rotor's disc magnets.
type DiscMagnet struct {
	Diameter  float64 `unit:"mm" range:"(0,)"`
	Thickness float64 `unit:"mm" range:"(0,)"`
	Remanence float64 `unit:"T" range:"(0,2)" help:"at its temperature"`
}

// BlockMagnet is one of a rotor's block magnets.
type BlockMagnet struct {
	Length    float64 `unit:"mm" range:"(0,)" help:"along the radius"`
	Width     float64 `unit:"mm" range:"(0,)" help:"across the radius"`
	Thickness float64 `unit:"mm" range:"(0,)"`
	Remanence float64 `unit:"T" range:"(0,2)" help:"at its temperature"`
}

// RotorCoil is one of a generator's coils.
type RotorCoil struct {
	Turns        float64  `unit:"1" range:"(0,)"`
	Opening      float64  `unit:"mm" range:"(0,)" help:"diameter, or length along the radius"`
	OpeningWidth *float64 `unit:"mm" range:"(0,)" help:"mean, across the radius; of one that is not round"`
	OpeningTaper float64  `unit:"mm" default:"0 mm" help:"how much wider the outer end is than the inner"`
	Leg          float64  `unit:"mm" range:"[0,)"`
	Height       float64  `unit:"mm" range:"[0,)" help:"along the magnets' field"`
	Resistance   float64  `unit:"Ω" range:"(0,)" help:"at its temperature" symbol:"R"`
	Inductance   float64  `unit:"mH" default:"0 mH" range:"[0,)" symbol:"L"`
	Section      *float64 `unit:"mm^2" range:"(0,)" help:"of the wire, bare"`
	CopperMass   *float64 `unit:"g" range:"(0,)" help:"of the wire, bare; without it the coils are not warmed"`
	MeanTurn     *float64 `unit:"mm" range:"(0,)" help:"of the winding; without it the coils give off no heat"`
	Temperature  float64  `unit:"°C" default:"20 °C" range:"[-50,200]" help:"of the copper, for which the resistance is"`
	Shape        string   `default:"round" values:"round rectangular trapezoid"`
}

// GeneratorInput is what [Generator] reads.
type GeneratorInput struct {
	Coil           RotorCoil    `help:"one coil"`
	Coils          int          `range:"[1,100]" help:"evenly spaced round the circle"`
	Poles          int          `range:"[2,100]" help:"magnets of one rotor, an even number"`
	Magnet         *DiscMagnet  `choose:"emf" help:"a disc of the rotor; wants radius and gap"`
	Block          *BlockMagnet `choose:"emf" help:"a block of the rotor; wants radius and gap"`
	EmfConstant    *float64     `unit:"V·s/rad" choose:"emf" range:"(0,)" overrides:"coil.turns: resistance and inductance" help:"measured: peak of one coil by the rotation"`
	Radius         *float64     `unit:"mm" range:"(0,)" help:"of the circle of the magnets' centres"`
	CoilRadius     *float64     `unit:"mm" range:"(0,)" help:"of the circle of the coils' centres; the magnets' if left out"`
	Gap            *float64     `unit:"mm" range:"(0,)" help:"between the faces, or from the face to the keeper; the coil is in its middle"`
	Rotor          string       `default:"facing" values:"facing backed single keeper" help:"two rotors, two on iron, one alone, one facing a plate"`
	Backing        *float64     `unit:"mm" range:"(0,)" help:"thickness of the iron"`
	Phases         int          `default:"1" range:"[1,3]" help:"1 or 3"`
	Connection     string       `default:"star" values:"star delta" help:"of three phases"`
	Series         *int         `range:"[1,)" help:"coils in series in a string; all that peak together, or of a phase, if left out"`
	Rectifiers     string       `default:"common" values:"common each" help:"one bridge, or one for each string"`
	DiodeDrop      float64      `unit:"V" default:"0.7 V" range:"[0,)" help:"of one diode, whatever it carries"`
	Diode          *DiodeLaw    `overrides:"diode_drop" help:"its drop follows the current, instead of diode_drop"`
	LeadResistance float64      `unit:"Ω" default:"0 Ω" range:"[0,)" help:"leads and fuse, behind the bridge"`
}

// Machine is a generator with its bridge, as charging reads it. Phase values
// are those of the star that it is, or that stands for its delta.
type Machine struct {
	EmfConstant      float64 `unit:"V·s/rad" help:"peak of one coil by the rotation"`
	PhaseConstant    float64 `unit:"V·s/rad" help:"peak of a phase by the rotation"`
	PhaseResistance  float64 `unit:"Ω" show:"2"`
	PhaseInductance  float64 `unit:"mH" default:"0 mH"`
	LeadResistance   float64 `unit:"Ω" default:"0 Ω"`
	DiodeDrop        float64 `unit:"V" default:"0.7 V"`
	Poles            int
	Phases           int    `default:"1"`
	Rectifiers       string `default:"common" values:"common each"`
	Bridges          int    `default:"1" help:"sets of strings that peak at different times, each behind bridges of its own"`
	Coils            int
	Turns            float64 `unit:"1" help:"of one coil"`
	CoilResistance   float64 `unit:"Ω"`
	CoilHeight       float64 `unit:"mm" default:"0 mm"`
	CopperMass       float64 `unit:"g" default:"0 g" help:"of all coils; 0 if not known"`
	CoilSurface      float64 `unit:"cm^2" default:"0 cm^2" help:"of all windings, from which their heat goes; 0 if not known"`
	CoilTemperature  float64 `unit:"°C" default:"20 °C" range:"[-50,200]" help:"of the copper, for which the resistances are"`
	EddyConstant     float64 `unit:"J·s" default:"0 J·s" help:"what eddy currents in the wire lose, by the square of the rotation; 0 if not known"`
	WireSection      float64 `unit:"mm^2" default:"0 mm^2" help:"0 if not known"`
	CeilingConstant  float64 `unit:"V·s/rad" show:"1" help:"what charges, before the diodes, by the rotation"`
	SeriesCoils      int     `default:"1"`
	ParallelStrings  int     `default:"1"`
	DistributionFact float64 `unit:"1" name:"distribution_factor" default:"1"`
	DiodeSaturation  float64 `unit:"A" default:"0 A" help:"of the diodes' law; 0 for a drop that does not follow the current"`
	DiodeScale       float64 `unit:"V" default:"0 V" help:"of the diodes' law: emission · kT/q"`
	DiodeResistance  float64 `unit:"Ω" default:"0 Ω" help:"inside a diode, of its law"`
}

// GeneratorResult is a machine with the flux it came from.
type GeneratorResult struct {
	Machine
	Flux          float64 `unit:"Wb" help:"peak through one turn; of the fundamental"`
	ThirdHarmonic float64 `unit:"%" help:"of the flux, by the fundamental; 0 if not known"`
	model.Cautions
}

// Generator is a rotor of alternating poles over a ring of coils without iron,
// its coils joined and rectified.
//
// Round coils between disc magnets are worked exactly for a permeability of 1;
// coils of any shape over block magnets by summing the magnets' fields over its turns.
// A measured emf_constant may stand for all of that, and should once one coil
// has been spun.
//
// Formula: flux through a turn λn = 4·p·π·Br·R·∫ A(k)·J1(kR)/k·J_np(k·r)·J_np(k·rc)·F(k)·H(k) dk, A the mean of a·J1(ka) over the winding, H = sinh(kh/2)/(kh/2), F = 2·e^(−kg/2)·(1 − e^(−kt)) for two facing rotors; peak of a coil by the rotation k1 = N·p·Φ, Φ the first of λn, p = z/2; coils in series add as phasors, k_ph = k1·n_s·kd, R_ph = R_c·n_s/n_p; delta is a star of k_ph = k1·n_s·kd/√3, R_ph = R_c·n_s/n_p/3
//
// Letters: N coil.turns; z poles; Φ = flux; k1 = emf_constant; k_ph = phase_constant; n_s = series_coils; n_p = parallel_strings; kd = distribution_factor; R_c = coil_resistance; R_ph = phase_resistance.
//
// Validity: magnets of permeability 1 (real ones 1.05), iron without
// saturation; the fundamental; blocks to about 1 %, without a look at how coils that are not
// round nest in each other; no mutual inductance; a diode's law is
// taken straight over the currents of a pulse, which is good to 0.5 % up to four fifths of
// the ceiling and to 1 % at nine tenths; several bridges with inductance to 0.7 %
// at ω·L/R 0.1 and 3 % at 0.3.
//
// Source: Hankel transform of a charged disc, Graf's addition theorem (NIST
// Digital Library of Mathematical Functions 10.23); textbook for phases
//
// Example:
//
//	w = awg(21)
//	c = coil(87, w, 10 mm, 9 mm, 8 mm, temperature: 40 °C)
//	m = magnet_disc(20 mm, 5 mm, 1.28 T)
//	gen = generator(c, 9, 12, magnet: m, radius: 45 mm, gap: 10 mm, phases: 3)
func Generator(ctx context.Context, in GeneratorInput) (GeneratorResult, error) {
	if err := in.check(); err != nil {
		return GeneratorResult{}, err
	}
	var out GeneratorResult
	if err := in.coilEmf(ctx, &out); err != nil {
		return GeneratorResult{}, err
	}
	join, err := in.join(out.EmfConstant)
	if err != nil {
		return GeneratorResult{}, err
	}
	out.Machine = in.machine(out.EmfConstant, join)
	out.EddyConstant = in.eddy(ctx)
	if join.factor < 1 && in.Rectifiers == "common" {
		coilCountCaution(&out.Cautions, in.Coils, in.Poles/2, in.Phases, join.factor)
	}
	if in.Magnet != nil || in.Block != nil {
		strongMagnets(&out.Cautions)
		in.plateCaution(&out.Cautions)
	}
	in.deltaNote(&out)
	spinningRotor(&out.Cautions)
	return out, nil
}

func (in GeneratorInput) check() error {
	if err := checkCircle(in.Coils, in.Poles, in.Phases); err != nil {
		return err
	}
	if err := require.All(require.Positive("coil.turns", in.Coil.Turns, "1"),
		require.Positive("coil.resistance", in.Coil.Resistance, "Ω")); err != nil {
		return err
	}
	if in.delta() && in.Rectifiers == "each" {
		return &model.Error{Field: "rectifiers", Summary: "each has bridges that part what a delta joins",
			Hint: "leave out rectifiers for a delta, or connection for bridges of their own"}
	}
	if d := in.Diode; d != nil {
		if err := require.All(require.Positive("diode.saturation", d.Saturation, "A"),
			require.Positive("diode.scale", d.Scale, "V")); err != nil {
			return err
		}
	}
	return require.All(require.NotNegative("diode_drop", in.DiodeDrop, "V"),
		require.NotNegative("lead_resistance", in.LeadResistance, "Ω"))
}

// machine puts one together.
func (in GeneratorInput) machine(constant float64, j joint) Machine {
	s, np := float64(j.series), float64(j.parallel)
	m := Machine{EmfConstant: constant, Poles: in.Poles, Phases: in.Phases, Rectifiers: in.Rectifiers, Bridges: j.bridges,
		PhaseConstant: s * constant * j.factor, PhaseResistance: s / np * in.Coil.Resistance,
		PhaseInductance: s / np * in.Coil.Inductance, LeadResistance: in.LeadResistance, DiodeDrop: in.DiodeDrop,
		Coils: in.Coils, Turns: in.Coil.Turns, CoilResistance: in.Coil.Resistance, CoilHeight: in.Coil.Height,
		CopperMass: float64(in.Coils) * ptr(in.Coil.CopperMass, 0), CoilSurface: float64(in.Coils) * in.Coil.surface(), CoilTemperature: in.Coil.Temperature,
		WireSection: ptr(in.Coil.Section, 0), SeriesCoils: j.series, ParallelStrings: j.parallel, DistributionFact: j.factor}
	if d := in.Diode; d != nil {
		m.DiodeSaturation, m.DiodeScale, m.DiodeResistance = d.Saturation, d.Scale, d.Resistance
	}
	if in.delta() {
		m.PhaseConstant /= math.Sqrt(3)
		m.PhaseResistance /= 3
		m.PhaseInductance /= 3
	}
	m.CeilingConstant = m.PhaseConstant
	if m.star() {
		m.CeilingConstant *= math.Sqrt(3)
	}
	return m
}

// surface is that of a winding, all round its section.
func (c *RotorCoil) surface() float64 { return ptr(c.MeanTurn, 0) * 2 * (c.Leg + c.Height) }

func (in GeneratorInput) delta() bool { return in.Phases == 3 && in.Connection == "delta" }

func (in GeneratorInput) deltaNote(out *GeneratorResult) {
	known := in.EmfConstant == nil // a measured constant says nothing of harmonics
	if !in.delta() || known && out.ThirdHarmonic < 0.005 {
		return
	}
	says := "In delta the third harmonic drives a current round."
	var values []model.Value
	if known {
		says = "In delta the third harmonic of the emf, {0} of it, drives a current round the triangle."
		values = []model.Value{model.In(300*out.ThirdHarmonic, "%")}
	}
	out.Raise(model.Caution{ID: "delta-third-harmonic", Level: model.Advice, Summary: says, Values: values,
		Why:    "That of the emf, round the triangle: it heats the coils and brakes the rotor even without a load, and is not reckoned here.",
		Hint:   "Prefer the star, with fewer turns.",
		Source: "textbook"})
}

// star reports whether one bridge serves three phases.
func (m *Machine) star() bool { return m.Phases == 3 && m.Rectifiers != "each" }
