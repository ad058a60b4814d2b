package glide

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// HingeMomentInput is what [HingeMoment] wants.
type HingeMomentInput struct {
	Speed      float64 `unit:"m/s" range:"(0,)" help:"fastest through the air with this deflection"`
	Area       float64 `unit:"cm^2" range:"(0,)" help:"of the control surface, behind its hinge"`
	Chord      float64 `unit:"mm" range:"(0,)" help:"mean chord of the control surface, behind its hinge"`
	Deflection float64 `unit:"deg" range:"[0,60]" help:"of the control surface"`
	Share      float64 `unit:"%" range:"(0,100)" default:"25 %" help:"its chord over the chord of wing or tail with it"`
	Density    float64 `unit:"kg/m^3" range:"(0,)" default:"1.225 kg/m^3" help:"of the air"`
}

// HingeMomentResult is what [HingeMoment] answers.
type HingeMomentResult struct {
	Moment float64 `unit:"N·cm" help:"about the hinge, which the servo has to hold"`
}

// HingeMoment is what the air turns a deflected control surface back with.
//
// Formula: H = ch·q·S·c, q = ρ·V²/2; ch from the pressure of a thin flapped section, Δcp = 4·δ/π·[(π − θh)·(1 + cos θ)/sin θ + ln|sin((θ + θh)/2)/sin((θ − θh)/2)|], x = c·(1 − cos θ)/2, integrated behind the hinge.
//
// Letters: S area; c chord; V speed; ρ density; δ deflection.
//
// Validity: theory without friction, which reads high at small Reynolds numbers and past about 15°: the safe side for a servo. The linkage's ratio and friction come on top.
//
// Source: H. Glauert, thin aerofoil theory for a flapped section (derived anew; pressure's series and closed form agree).
//
// Example:
//
//	M_hinge [N·cm] = hinge_moment(speed: 15 m/s, area: 50 cm^2, chord: 30 mm, deflection: 20°)
func HingeMoment(in HingeMomentInput) (HingeMomentResult, error) {
	if err := require.All(require.Positive("speed", in.Speed, "m/s"), require.Positive("area", in.Area, "m^2"),
		require.Positive("chord", in.Chord, "m"), require.NotNegative("deflection", in.Deflection, "rad"),
		require.Positive("share", in.Share, "1"), require.Positive("density", in.Density, "kg/m^3")); err != nil {
		return HingeMomentResult{}, err
	}
	if in.Share >= 1 {
		return HingeMomentResult{}, &model.Error{Field: "share", Summary: "a control surface of {0} of the chord leaves nothing to hinge it to",
			Values: []model.Value{model.In(100*in.Share, "%")}, Hint: "give its chord as a share of the whole chord, below 100 %"}
	}
	q := 0.5 * in.Density * in.Speed * in.Speed
	return HingeMomentResult{hingeSlope(in.Share) * in.Deflection * q * in.Area * in.Chord}, nil
}

// hingeSlope is the hinge moment coefficient for a radian of deflection, on the
// flap's own area and chord.
func hingeSlope(share float64) float64 {
	hinge := math.Acos(2*share - 1)
	start := (1 - math.Cos(hinge)) / 2
	pressure := func(a float64) float64 {
		return 4 / math.Pi * ((math.Pi-hinge)*(1+math.Cos(a))/math.Sin(a) + math.Log(math.Abs(math.Sin((a+hinge)/2)/math.Sin((a-hinge)/2))))
	}
	moment := func(a float64) float64 {
		return pressure(a) * ((1-math.Cos(a))/2 - start) * math.Sin(a) / 2
	}
	return quad.Fixed(moment, hinge, math.Pi, 48, quad.Legendre{}, 0) / (share * share)
}

// SparInput is what [Spar] wants.
type SparInput struct {
	Airframe     Plane    `help:"the airframe"`
	WingMass     float64  `unit:"g" range:"[0,)" default:"0 g" help:"of the wing, which carries itself"`
	Speed        *float64 `unit:"m/s" range:"(0,)" choose:"load" help:"fastest at which the stick is pulled hard"`
	LoadFactor   *float64 `unit:"1" range:"(0,)" choose:"load" help:"lift over weight, if it is decided"`
	Diameter     *float64 `unit:"mm" range:"(0,)" choose:"section" help:"of a round tube or rod"`
	Bore         float64  `unit:"mm" range:"[0,)" default:"0 mm" help:"of the tube; 0 for a rod"`
	CapWidth     *float64 `unit:"mm" range:"(0,)" choose:"section" help:"of two flat caps"`
	CapThickness float64  `unit:"mm" range:"[0,)" default:"0 mm" help:"of each cap"`
	Depth        float64  `unit:"mm" range:"[0,)" default:"0 mm" help:"over both caps, outside to outside"`
	Strength     *float64 `unit:"MPa" range:"(0,)" help:"stress that the material bears, with its share for buckling"`
}

// SparResult is what [Spar] answers.
type SparResult struct {
	Moment     float64 `unit:"N·m" show:"1" help:"bending at the wing's root"`
	Stress     float64 `unit:"MPa" show:"2" help:"in the outermost fibre of the spar"`
	LoadFactor float64 `unit:"1" show:"3" help:"lift over weight"`
	model.Cautions
}

// Spar is the bending at the wing's root and the stress of it in the spar.
//
// Formula: n = (V/V_stall)², V_stall = √(2·W/(ρ·S·CL_max)); M = n·(W − m_w·g)·b/(3·π), W = m·g, g = 9.80665 m/s²; tube σ = M·D/(2·I_t), I_t = π·(D⁴ − d⁴)/64; caps σ = M·H/(2·I_c), I_c = w·(H³ − (H − 2·t)³)/12.
//
// Letters: m airframe.mass; b airframe.span; S airframe.area; CL_max airframe.CL_max; ρ airframe.density; m_w wing_mass; V speed; D diameter; d bore; w cap_width; t cap_thickness; H depth; M = moment; σ = stress; n = load_factor.
//
// Validity: lift spread as a half ellipse; the spar carries all of it; caps with a web that holds them apart. A gust can load more than the stick.
//
// Source: statics of an elliptic load, beam theory; textbooks.
//
// Example:
//
//	plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
//	root = spar(plane, wing_mass: 110 g, speed: 18 m/s, diameter: 6 mm, bore: 4 mm, strength: 400 MPa)
func Spar(in SparInput) (SparResult, error) {
	if err := in.Airframe.Check("airframe"); err != nil {
		return SparResult{}, err
	}
	n, err := in.load()
	if err != nil {
		return SparResult{}, err
	}
	modulus, err := in.modulus()
	if err != nil {
		return SparResult{}, err
	}
	if !(in.WingMass >= 0 && in.WingMass < in.Airframe.Mass) {
		return SparResult{}, &model.Error{Field: "wing_mass", Summary: "a wing of {0} does not fit a model of {1}",
			Values: []model.Value{model.In(in.WingMass, "kg"), model.In(in.Airframe.Mass, "kg")}, Hint: "give the wing's own mass"}
	}
	m := n * (in.Airframe.Mass - in.WingMass) * gravity * in.Airframe.Span / (3 * math.Pi)
	out := SparResult{Moment: m, Stress: m / modulus, LoadFactor: n}
	if in.Strength != nil && out.Stress > *in.Strength {
		out.Raise(model.Caution{ID: "spar-over-stress", Level: model.Danger,
			Summary: "The spar is stressed to {0}, past its {1}.",
			Values:  []model.Value{model.In(out.Stress/1e6, "MPa"), model.In(*in.Strength/1e6, "MPa")},
			Why:     "A wing that folds in the air leaves a model that nobody steers. At a lower speed it bears the same pull.",
			Hint:    "Deepen it, or pull up slower.", Source: "common practice"})
	}
	out.Raise(model.Caution{ID: "fibre-dust", Level: model.Warning, Standing: true,
		Summary: "Dust of carbon and glass harms lungs and skin.",
		Why:     "Cut it wet, too: splinters go deep. The fibres are too fine to see and do not leave the body; those of carbon also short what they fall on. Wipe up, do not blow.",
		Hint:    "Sand wet, with mask and gloves.",
		Source:  "makers' safety sheets, from memory"})
	return out, nil
}

// load is the load factor decided or that of a hard pull at the speed.
func (in SparInput) load() (float64, error) {
	switch {
	case in.LoadFactor != nil:
		return *in.LoadFactor, require.Positive("load_factor", *in.LoadFactor, "1")
	case in.Speed != nil:
		over := *in.Speed / in.Airframe.StallSpeed()
		return over * over, require.Positive("speed", *in.Speed, "m/s")
	}
	return 0, &model.Error{Field: "speed", Summary: "nothing says what the wing has to bear", Hint: "give speed or load_factor"}
}

// modulus is the section modulus, m³.
func (in SparInput) modulus() (float64, error) {
	switch {
	case in.Diameter != nil:
		d := *in.Diameter
		if err := require.Positive("diameter", d, "m"); err != nil {
			return 0, err
		}
		if !(in.Bore >= 0 && in.Bore < d) {
			return 0, &model.Error{Field: "bore", Summary: "the bore leaves no wall", Hint: "give a bore below the diameter, 0 for a rod"}
		}
		return math.Pi * (math.Pow(d, 4) - math.Pow(in.Bore, 4)) / (32 * d), nil
	case in.CapWidth != nil:
		if err := require.All(require.Positive("cap_width", *in.CapWidth, "m"),
			require.Positive("cap_thickness", in.CapThickness, "m"), require.Positive("depth", in.Depth, "m")); err != nil {
			return 0, err
		}
		if 2*in.CapThickness > in.Depth {
			return 0, &model.Error{Field: "depth", Summary: "two caps do not fit into the depth", Hint: "give the depth over both caps, outside to outside"}
		}
		h, core := in.Depth, in.Depth-2*in.CapThickness
		return *in.CapWidth * (h*h*h - core*core*core) / (6 * h), nil
	}
	return 0, &model.Error{Field: "diameter", Summary: "the spar has no section", Hint: "give diameter for a tube, or cap_width, cap_thickness and depth"}
}
