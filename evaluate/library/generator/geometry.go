package generator

import (
	"context"
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// coilEmf works or takes the emf constant of one coil.
func (in GeneratorInput) coilEmf(ctx context.Context, out *GeneratorResult) error {
	pairs := float64(in.Poles) / 2
	switch {
	case in.EmfConstant != nil:
		out.EmfConstant = *in.EmfConstant
		out.Flux = out.EmfConstant / (in.Coil.Turns * pairs)
		return require.Positive("emf_constant", *in.EmfConstant, "V·s/rad")
	case in.Magnet == nil && in.Block == nil:
		return &model.Error{Field: "emf_constant", Summary: "neither a magnet nor a measured emf constant is given",
			Hint: "give magnet or block with radius and gap, or emf_constant"}
	case in.Radius == nil || in.Gap == nil:
		return &model.Error{Field: "radius", Summary: "a magnet makes a flux only with a radius and a gap", Hint: "give radius and gap"}
	}
	if err := in.flux(ctx, out); err != nil {
		return err
	}
	out.EmfConstant = in.Coil.Turns * pairs * out.Flux
	return nil
}

// What the magnets of a rotor do to a coil depends on where they are, and not on what it is
// wound of: the keys under which other calls find the flux through it and what sweeps its
// wire.
type (
	linked[R discs | blocks] struct{ of R }
	stroke[R discs | blocks] struct{ of R }
)

// flux works the flux through a turn from the rotor's geometry.
func (in GeneratorInput) flux(ctx context.Context, out *GeneratorResult) error {
	if in.Magnet == nil {
		b, err := in.blocks()
		if err == nil {
			flux := model.Once(ctx, linked[blocks]{b}, 16, b.harmonics)
			out.Flux = math.Abs(flux[0])
			out.ThirdHarmonic = math.Abs(flux[1]) / out.Flux
		}
		return err
	}
	d, err := in.ring()
	if err != nil {
		return err
	}
	flux := model.Once(ctx, linked[discs]{d}, 16, func() (flux [2]float64) {
		if !d.harmonics(ctx, flux[:]) {
			flux[0] = math.NaN()
		}
		return flux
	})
	if math.IsNaN(flux[0]) {
		return tooFine()
	}
	out.Flux = math.Abs(flux[0])
	out.ThirdHarmonic = math.Abs(flux[1]) / out.Flux
	return nil
}

// blocks is the geometry with block magnets, if it can be built. Coils that are
// not round are taken to fit by their width at mid radius.
func (in GeneratorInput) blocks() (blocks, error) {
	c, m := in.Coil, *in.Block
	b := blocks{poles: in.Poles, remanence: m.Remanence, length: m.Length, width: m.Width, thick: m.Thickness, pitch: *in.Radius,
		coilRing: ptr(in.CoilRadius, *in.Radius), gap: *in.Gap, height: c.Height, opening: c.Opening, mid: ptr(c.OpeningWidth, c.Opening),
		taper: c.OpeningTaper, leg: c.Leg, round: c.Shape == "round" || c.Shape == "", rotor: in.Rotor}
	err := require.All(require.Positive("block.length", m.Length, "m"), require.Positive("block.width", m.Width, "m"),
		require.Positive("block.thickness", m.Thickness, "m"), require.Positive("block.remanence", m.Remanence, "T"),
		require.Positive("radius", b.pitch, "m"), require.Positive("coil_radius", b.coilRing, "m"),
		require.Positive("gap", b.gap, "m"), require.Positive("coil.opening", b.opening, "m"),
		require.Positive("coil.opening_width", b.mid, "m"))
	if err != nil {
		return b, err
	}
	// At the inner end of the magnets the room is least.
	inner := discs{poles: b.poles, radius: b.width / 2, pitch: b.pitch - b.length/2, coilRing: b.coilRing, outer: b.mid/2 + b.leg, gap: b.gap, height: b.height}
	return b, inner.fits(in.Coils)
}

// ring is the geometry, if it can be built. What stirs the wire is summed up over waves,
// the more of them the wider the circle is against the gap, and each takes longer the
// more poles there are.
func (in GeneratorInput) ring() (discs, error) {
	if in.Coil.Shape != "round" && in.Coil.Shape != "" {
		return discs{}, &model.Error{Field: "coil.shape", Summary: "only round coils are worked between disc magnets",
			Hint: "spin one coil and give emf_constant, or use block magnets"}
	}
	d := discs{poles: in.Poles, remanence: in.Magnet.Remanence, radius: in.Magnet.Diameter / 2, thick: in.Magnet.Thickness,
		pitch: *in.Radius, coilRing: ptr(in.CoilRadius, *in.Radius), gap: *in.Gap,
		inner: in.Coil.Opening / 2, outer: in.Coil.Opening/2 + in.Coil.Leg, height: in.Coil.Height, rotor: in.Rotor}
	if err := require.All(require.Positive("magnet.diameter", 2*d.radius, "m"),
		require.Positive("magnet.thickness", d.thick, "m"), require.Positive("magnet.remanence", d.remanence, "T"),
		require.Positive("radius", d.pitch, "m"), require.Positive("coil_radius", d.coilRing, "m"),
		require.Positive("gap", d.gap, "m"), require.Positive("coil.opening", 2*d.inner, "m")); err != nil {
		return d, err
	}
	if err := d.fits(in.Coils); err != nil {
		return d, err
	}
	if !(d.sweptPanels()*(sweptAnyway+float64(d.poles)) < mostSwept) {
		return d, tooFine()
	}
	return d, nil
}

// tooFine is of a field that takes too many waves to be summed up.
func tooFine() error {
	return &model.Error{Field: "gap", Summary: "leaves too little beside the coil, against the circle of so many magnets, to sum up their field",
		Hint: "give the gap between the magnets' faces, a fraction of a magnet at least, and a coil_radius like the magnets' radius, or spin one coil and give emf_constant"}
}

// What a panel of waves takes, by its poles and so many besides, and the most of all: some
// milliseconds. That is twelve poles over a gap of a hundredth of their circle's radius with a low coil in it, a
// fiftieth with one that fills half of it.
const (
	mostSwept, sweptAnyway   = 4_000, 25
	mostLinked, linkedAnyway = 50_000, 40
)

// fits says when magnets or coils would stand in each other.
func (d discs) fits(coils int) error {
	mm := func(x float64) model.Value { return model.In(x*1e3, "mm") }
	if room := 2 * d.pitch * math.Sin(math.Pi/float64(d.poles)); room < 2*d.radius*(1-1e-12) {
		return &model.Error{Field: "radius", Summary: "the magnets touch: {0} wide with {1} from one centre to the next",
			Values: []model.Value{mm(2 * d.radius), mm(room)}, Hint: "take a larger radius, fewer poles or smaller magnets"}
	}
	if room := 2 * d.coilRing * math.Sin(math.Pi/float64(coils)); coils > 1 && room < 2*d.outer*(1-1e-12) {
		return &model.Error{Field: "coils", Summary: "the coils touch: {0} wide with {1} from one centre to the next",
			Values: []model.Value{mm(2 * d.outer), mm(room)}, Hint: "take fewer or smaller coils, or a larger coil_radius"}
	}
	if d.height >= d.gap {
		return &model.Error{Field: "gap", Summary: "a coil {0} high does not fit in a gap of {1}",
			Values: []model.Value{mm(d.height), mm(d.gap)}, Hint: "widen the gap or wind lower coils"}
	}
	return nil
}

// plateCaution wants iron that carries half of a pole's flux.
func (in GeneratorInput) plateCaution(c *model.Cautions) {
	if in.Backing == nil || in.Rotor != "backed" && in.Rotor != "keeper" {
		return
	}
	width, field := in.midGap("backed")
	ironCaution(c, field, width, *in.Backing)
}

// midGap is the width of a magnet and the field half way in the gap on its axis.
func (in GeneratorInput) midGap(rotor string) (width, field float64) {
	var thick, br float64
	var shape axial
	if m := in.Magnet; m != nil {
		width, thick, br, shape = m.Diameter, m.Thickness, m.Remanence, func(t, z float64) float64 { return cylinderField(m.Diameter/2, t, z) }
	} else {
		m := in.Block
		width, thick, br, shape = m.Width, m.Thickness, m.Remanence, func(t, z float64) float64 { return blockField(m.Length, m.Width, t, z) }
	}
	switch rotor {
	case "backed", "keeper":
		return width, br * facingOnIron(shape, thick, *in.Gap)
	case "single":
		return width, br * shape(thick, *in.Gap/2)
	}
	return width, 2 * br * shape(thick, *in.Gap/2)
}
