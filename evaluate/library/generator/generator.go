package generator

import (
	"fmt"
	"math"

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
	Resistance   float64  `unit:"Ω" range:"(0,)" help:"at its temperature"`
	Inductance   float64  `unit:"mH" default:"0 mH" range:"[0,)"`
	Section      *float64 `unit:"mm^2" range:"(0,)" help:"of the wire, bare"`
	Shape        string   `default:"round" values:"round rectangular trapezoid"`
}

// GeneratorInput is what [Generator] reads.
type GeneratorInput struct {
	Coil           RotorCoil    `help:"one coil"`
	Coils          int          `range:"[1,100]" help:"evenly spaced round the circle"`
	Poles          int          `range:"[2,100]" help:"magnets of one rotor, an even number"`
	Magnet         *DiscMagnet  `choose:"emf" help:"a disc of the rotor; wants radius and gap"`
	Block          *BlockMagnet `choose:"emf" help:"a block of the rotor; wants radius and gap"`
	EmfConstant    *float64     `unit:"V·s/rad" choose:"emf" range:"(0,)" help:"measured: peak of one coil by the rotation"`
	Radius         *float64     `unit:"mm" range:"(0,)" help:"of the circle of the magnets' centres"`
	CoilRadius     *float64     `unit:"mm" range:"(0,)" help:"of the circle of the coils' centres; the magnets' if left out"`
	Gap            *float64     `unit:"mm" range:"(0,)" help:"between the faces, or from the face to the keeper; the coil is in its middle"`
	Rotor          string       `default:"facing" values:"facing backed single keeper" help:"two rotors, two on iron, one alone, one facing a plate"`
	Backing        *float64     `unit:"mm" range:"(0,)" help:"thickness of the iron"`
	Phases         int          `default:"1" range:"[1,3]" help:"1 or 3"`
	Connection     string       `default:"star" values:"star delta" help:"of three phases"`
	Series         *int         `range:"[1,)" help:"coils in series in a string; all that peak together, or of a phase, if left out"`
	Rectifiers     string       `default:"common" values:"common each" help:"one bridge, or one for each string"`
	DiodeDrop      float64      `unit:"V" default:"0.7 V" range:"[0,)" help:"of one diode"`
	LeadResistance float64      `unit:"Ω" default:"0 Ω" range:"[0,)" help:"leads and fuse, behind the bridge"`
}

// Machine is a generator with its bridge, as charging reads it. Phase values
// are those of the star that it is, or that stands for its delta.
type Machine struct {
	EmfConstant      float64 `unit:"V·s/rad" help:"peak of one coil by the rotation"`
	PhaseConstant    float64 `unit:"V·s/rad" show:"1" help:"peak of a phase by the rotation"`
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
	WireSection      float64 `unit:"mm^2" default:"0 mm^2" help:"0 if not known"`
	CeilingConstant  float64 `unit:"V·s/rad" show:"3" help:"what charges, before the diodes, by the rotation"`
	SeriesCoils      int     `default:"1"`
	ParallelStrings  int     `default:"1"`
	DistributionFact float64 `unit:"1" name:"distribution_factor" default:"1" show:"4"`
}

// GeneratorResult is a machine with the flux it came from.
type GeneratorResult struct {
	Machine
	Flux          float64 `unit:"Wb" show:"5" help:"peak through one turn; of the fundamental"`
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
// Formula: flux through a turn λn = 4·p·π·Br·R·∫ A(k)·J1(kR)/k·J_np(k·r)·J_np(k·rc)·F(k)·H(k) dk,
// A the mean of a·J1(ka) over the winding, H = sinh(kh/2)/(kh/2), F = 2·e^(−kg/2)·(1 − e^(−kt))
// for two facing rotors; peak of a coil N·p·ω·λ1; coils in series add as phasors;
// delta is a star of E/√3 and R/3
//
// Validity: magnets of permeability 1 (real ones 1.05), iron without
// saturation; the fundamental; behind several bridges the ripple on what they share is left out.
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
func Generator(in GeneratorInput) (GeneratorResult, error) {
	if err := in.check(); err != nil {
		return GeneratorResult{}, err
	}
	var out GeneratorResult
	if err := in.coilEmf(&out); err != nil {
		return GeneratorResult{}, err
	}
	join, err := in.join(out.EmfConstant)
	if err != nil {
		return GeneratorResult{}, err
	}
	out.Machine = in.machine(out.EmfConstant, join)
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
	if err := positive(given{"coil.turns", in.Coil.Turns}, given{"coil.resistance", in.Coil.Resistance}); err != nil {
		return err
	}
	return notNegative(given{"diode_drop", in.DiodeDrop}, given{"lead_resistance", in.LeadResistance})
}

// coilEmf works or takes the emf constant of one coil.
func (in GeneratorInput) coilEmf(out *GeneratorResult) error {
	pairs := float64(in.Poles) / 2
	switch {
	case in.EmfConstant != nil:
		out.EmfConstant = *in.EmfConstant
		out.Flux = out.EmfConstant / (in.Coil.Turns * pairs)
		return positive(given{"emf_constant", *in.EmfConstant})
	case in.Magnet == nil && in.Block == nil:
		return &model.Error{Field: "emf_constant", Says: "neither a magnet nor a measured emf constant is given",
			Mend: "give magnet or block with radius and gap, or emf_constant"}
	case in.Radius == nil || in.Gap == nil:
		return &model.Error{Field: "radius", Says: "a magnet makes a flux only with a radius and a gap", Mend: "give radius and gap"}
	}
	if err := in.flux(out); err != nil {
		return err
	}
	out.EmfConstant = in.Coil.Turns * pairs * out.Flux
	return nil
}

// flux works the flux through a turn from the rotor's geometry.
func (in GeneratorInput) flux(out *GeneratorResult) error {
	if in.Magnet == nil {
		b, err := in.blocks()
		if err == nil {
			out.Flux = math.Abs(b.fundamental())
		}
		return err
	}
	d, err := in.ring()
	if err != nil {
		return err
	}
	out.Flux = math.Abs(d.harmonic(1))
	out.ThirdHarmonic = math.Abs(d.harmonic(3)) / out.Flux
	return nil
}

// blocks is the geometry with block magnets, if it can be built. Coils that are
// not round are taken to fit by their width at mid radius.
func (in GeneratorInput) blocks() (blocks, error) {
	c, m := in.Coil, *in.Block
	b := blocks{poles: in.Poles, remanence: m.Remanence, length: m.Length, width: m.Width, thick: m.Thickness, pitch: *in.Radius,
		coilRing: ptr(in.CoilRadius, *in.Radius), gap: *in.Gap, height: c.Height, opening: c.Opening, mid: ptr(c.OpeningWidth, c.Opening),
		taper: c.OpeningTaper, leg: c.Leg, round: c.Shape == "round" || c.Shape == "", rotor: in.Rotor}
	err := positive(given{"block.length", m.Length}, given{"block.width", m.Width}, given{"block.thickness", m.Thickness}, given{"block.remanence", m.Remanence},
		given{"radius", b.pitch}, given{"coil_radius", b.coilRing}, given{"gap", b.gap}, given{"coil.opening", b.opening}, given{"coil.opening_width", b.mid})
	if err != nil {
		return b, err
	}
	// At the inner end of the magnets the room is least.
	inner := discs{poles: b.poles, radius: b.width / 2, pitch: b.pitch - b.length/2, coilRing: b.coilRing, outer: b.mid/2 + b.leg, gap: b.gap, height: b.height}
	return b, inner.fits(in.Coils)
}

// ring is the geometry, if it can be built.
func (in GeneratorInput) ring() (discs, error) {
	if in.Coil.Shape != "round" && in.Coil.Shape != "" {
		return discs{}, &model.Error{Field: "coil.shape", Says: "only round coils are worked between disc magnets",
			Mend: "spin one coil and give emf_constant, or use block magnets"}
	}
	d := discs{poles: in.Poles, remanence: in.Magnet.Remanence, radius: in.Magnet.Diameter / 2, thick: in.Magnet.Thickness,
		pitch: *in.Radius, coilRing: ptr(in.CoilRadius, *in.Radius), gap: *in.Gap,
		inner: in.Coil.Opening / 2, outer: in.Coil.Opening/2 + in.Coil.Leg, height: in.Coil.Height, rotor: in.Rotor}
	if err := positive(given{"magnet.diameter", d.radius}, given{"magnet.thickness", d.thick}, given{"magnet.remanence", d.remanence},
		given{"radius", d.pitch}, given{"coil_radius", d.coilRing}, given{"gap", d.gap}, given{"coil.opening", d.inner}); err != nil {
		return d, err
	}
	return d, d.fits(in.Coils)
}

// fits says when magnets or coils would stand in each other.
func (d discs) fits(coils int) error {
	mm := func(x float64) model.Value { return model.Value{Number: x * 1e3, Unit: "mm"} }
	if room := 2 * d.pitch * math.Sin(math.Pi/float64(d.poles)); room < 2*d.radius*(1-1e-12) {
		return &model.Error{Field: "radius", Says: "the magnets touch: {0} wide with {1} from one centre to the next",
			Values: []model.Value{mm(2 * d.radius), mm(room)}, Mend: "take a larger radius, fewer poles or smaller magnets"}
	}
	if room := 2 * d.coilRing * math.Sin(math.Pi/float64(coils)); coils > 1 && room < 2*d.outer*(1-1e-12) {
		return &model.Error{Field: "coils", Says: "the coils touch: {0} wide with {1} from one centre to the next",
			Values: []model.Value{mm(2 * d.outer), mm(room)}, Mend: "take fewer or smaller coils, or a larger coil_radius"}
	}
	if d.height >= d.gap {
		return &model.Error{Field: "gap", Says: "a coil {0} high does not fit in a gap of {1}",
			Values: []model.Value{mm(d.height), mm(d.gap)}, Mend: "widen the gap or wind lower coils"}
	}
	return nil
}

// A joint is how the coils of a phase hang together.
type joint struct {
	series, parallel, bridges int
	factor                    float64
}

// join splits the coils into strings.
func (in GeneratorInput) join(constant float64) (joint, error) {
	if in.Rectifiers == "each" && in.Phases == 1 {
		// Coils that stand alike, or opposite, peak together.
		bridges := in.Coils / gcd(in.Coils, in.Poles)
		return in.strings(in.Coils/bridges, bridges, 1, in.Coils/bridges)
	}
	a, err := arrange(in.Coils, in.Poles/2, in.Phases)
	if err != nil {
		return joint{}, err
	}
	bridges := 1
	if in.Rectifiers == "each" {
		bridges = 3
	}
	perPhase := in.Coils / in.Phases
	j, err := in.strings(perPhase, bridges, a.factor, perPhase)
	if err != nil || j.parallel == 1 || a.factor > 1-1e-9 {
		return j, err
	}
	if !a.splits(in.Coils, in.Poles/2, j.parallel) {
		return j, in.unlike(a, j, constant)
	}
	return j, nil
}

// strings is so many coils in strings of series.
func (in GeneratorInput) strings(coils, bridges int, factor float64, series int) (joint, error) {
	if in.Series != nil {
		series = *in.Series
	}
	if series < 1 || coils%series != 0 {
		return joint{}, &model.Error{Field: "series", Says: fmt.Sprintf("%d like coils do not split into strings of %d", coils, series),
			Mend: "choose a number that divides them"}
	}
	return joint{series, coils / series, bridges, factor}, nil
}

// splits says whether each phase can be split into so many like strings: each
// direction must occur in all of them alike.
func (a arrangement) splits(coils, polePairs, parallel int) bool {
	count := map[[3]int]int{}
	for i := range a.sign {
		count[[3]int{a.phase[i], a.sign[i], i * polePairs % coils}]++
	}
	for _, n := range count {
		if n%parallel != 0 {
			return false
		}
	}
	return true
}

// unlike is the error of strings in parallel that would drive a current round
// each other, reckoned for the first two in the order of the coils.
func (in GeneratorInput) unlike(a arrangement, j joint, constant float64) error {
	const rotation = 100 * math.Pi / 3 // 1000 rpm
	var sum [2][2]float64
	n := 0
	for i := range a.sign {
		if a.phase[i] != 0 || n >= 2*j.series {
			continue
		}
		x := 2 * math.Pi * float64(i*in.Poles/2%in.Coils) / float64(in.Coils)
		sum[n/j.series][0] += float64(a.sign[i]) * math.Cos(x)
		sum[n/j.series][1] += float64(a.sign[i]) * math.Sin(x)
		n++
	}
	apart := math.Hypot(sum[0][0]-sum[1][0], sum[0][1]-sum[1][1]) * constant * rotation
	return &model.Error{Field: "series", Says: "the strings are unlike: in parallel they drive {0} round each other at {1}",
		Values: []model.Value{{Number: apart / (2 * float64(j.series) * in.Coil.Resistance), Unit: "A"}, {Number: 1000, Unit: "rpm"}},
		Mend:   "put all coils of a phase in series, or give rectifiers: \"each\""}
}

// machine puts one together.
func (in GeneratorInput) machine(constant float64, j joint) Machine {
	s, np := float64(j.series), float64(j.parallel)
	m := Machine{EmfConstant: constant, Poles: in.Poles, Phases: in.Phases, Rectifiers: in.Rectifiers, Bridges: j.bridges,
		PhaseConstant: s * constant * j.factor, PhaseResistance: s / np * in.Coil.Resistance,
		PhaseInductance: s / np * in.Coil.Inductance, LeadResistance: in.LeadResistance, DiodeDrop: in.DiodeDrop,
		Coils: in.Coils, Turns: in.Coil.Turns, CoilResistance: in.Coil.Resistance, CoilHeight: in.Coil.Height,
		WireSection: ptr(in.Coil.Section, 0), SeriesCoils: j.series, ParallelStrings: j.parallel, DistributionFact: j.factor}
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

func (in GeneratorInput) delta() bool {
	return in.Phases == 3 && in.Connection == "delta" && in.Rectifiers != "each"
}

// plateCaution wants iron that carries half of a pole's flux.
func (in GeneratorInput) plateCaution(c *model.Cautions) {
	if in.Backing == nil || in.Rotor != "backed" && in.Rotor != "keeper" {
		return
	}
	width, thick, br := 0.0, 0.0, 0.0
	var shape axial
	if m := in.Magnet; m != nil {
		width, thick, br, shape = m.Diameter, m.Thickness, m.Remanence, func(t, z float64) float64 { return cylinderField(m.Diameter/2, t, z) }
	} else {
		m := in.Block
		width, thick, br, shape = m.Width, m.Thickness, m.Remanence, func(t, z float64) float64 { return blockField(m.Length, m.Width, t, z) }
	}
	ironCaution(c, br*facingOnIron(shape, thick, *in.Gap), width, *in.Backing)
}

func (in GeneratorInput) deltaNote(out *GeneratorResult) {
	if !in.delta() || in.Magnet != nil && out.ThirdHarmonic < 0.005 {
		return
	}
	says := "In delta the third harmonic of the emf drives a current round the triangle."
	var values []model.Value
	if in.Magnet != nil {
		says = "In delta the third harmonic of the emf, {0} of it, drives a current round the triangle."
		values = []model.Value{{Number: 300 * out.ThirdHarmonic, Unit: "%"}}
	}
	out.Raise(model.Caution{ID: "delta-third-harmonic", Level: model.Advice, Says: says, Values: values,
		Why:    "It heats the coils and brakes the rotor even without a load, and is not reckoned here.",
		Mend:   "Prefer the star, with fewer turns if the voltage is too high.",
		Source: "textbook"})
}

// star says whether one bridge serves three phases.
func (m Machine) star() bool { return m.Phases == 3 && m.Rectifiers != "each" }
