package generator

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// RotorSagInput is what [RotorSag] reads.
type RotorSagInput struct {
	Pull      float64  `unit:"N" range:"[0,)" help:"of one rotor on the other, as rotor_pull gives it"`
	Radius    float64  `unit:"mm" range:"(0,)" help:"of the circle of the magnets' centres"`
	Outer     float64  `unit:"mm" range:"(0,)" help:"radius of the rotor's rim"`
	Hub       float64  `unit:"mm" range:"(0,)" help:"radius to which it is clamped"`
	Thickness float64  `unit:"mm" range:"(0,)" help:"solid, of the plate that carries the magnets"`
	Modulus   float64  `unit:"GPa" range:"(0,)" help:"of elasticity: PLA 2 to 3.5, ABS 2, plywood 6 to 10, steel 205"`
	Poisson   float64  `unit:"1" default:"0.35" range:"[0,0.5)" help:"lateral strain by strain: plastics 0.35 to 0.4, steel 0.3"`
	Clearance *float64 `unit:"mm" range:"(0,)" help:"from a magnet's face to the coils"`
}

// RotorSagResult is how far a rotor bows.
type RotorSagResult struct {
	Sag    float64 `unit:"mm" show:"1" help:"of one rotor at its magnets, towards the other"`
	Rim    float64 `unit:"mm" help:"of its rim"`
	Stress float64 `unit:"N/mm^2" show:"2" help:"bending, at the hub"`
	Slope  float64 `unit:"deg" help:"of the plate at its magnets"`
	model.Cautions
}

// RotorSag is how far a flat rotor bows towards the other under its magnets' pull:
// a plate clamped at its hub, free at its rim, loaded along a circle.
//
// Formula: D = E·t³/(12·(1 − ν²)); (1/r·(r·φ)′)′ = −F/(2π·D·r) within the magnets' circle and nought beyond it, φ(hub) = 0, φ′ + ν·φ/r = 0 at the rim; sag = ∫ φ dr; σ = 6·M/t²
//
// Letters: E modulus; t thickness; ν poisson.
//
// Validity: a solid flat plate that sags less than half its thickness; the pull as it is
// without the sag, which brings the rotors nearer. Prints with infill are softer, and plastics
// creep: under a steady pull they sag two to three times as far in months (common practice).
//
// Source: theory of circular plates, S. Timoshenko, Theory of Plates and Shells, ch. 3, and
// W. C. Young, Roark's Formulas for Stress and Strain, table of circular plates, from memory
//
// Example:
//
//	m = magnet_disc(20 mm, 5 mm, 1.28 T)
//	pull = rotor_pull(m, 12, 45 mm, 10 mm)
//	bow = rotor_sag(pull.pull, 45 mm, 58 mm, 10 mm, 5 mm, 2.5 GPa)
//	s [mm] = bow.sag
func RotorSag(in RotorSagInput) (RotorSagResult, error) {
	err := require.All(require.NotNegative("pull", in.Pull, "N"), require.Positive("radius", in.Radius, "m"), require.Positive("outer", in.Outer, "m"),
		require.Positive("hub", in.Hub, "m"), require.Positive("thickness", in.Thickness, "m"), require.Positive("modulus", in.Modulus, "Pa"))
	if err != nil {
		return RotorSagResult{}, err
	}
	if !(in.Hub < in.Radius && in.Radius <= in.Outer) {
		return RotorSagResult{}, &model.Error{Field: "radius", Summary: "is {0}, and the magnets stand between the hub at {1} and the rim at {2}",
			Values: []model.Value{model.In(in.Radius*1e3, "mm"), model.In(in.Hub*1e3, "mm"), model.In(in.Outer*1e3, "mm")}, Hint: "give radii, not diameters, the hub's smallest"}
	}
	p := newPlate(in)
	out := RotorSagResult{Sag: p.sag(in.Radius), Stress: 6 * p.stiffness * math.Abs(p.bend(in.Hub)) / (in.Thickness * in.Thickness),
		Slope: p.slope(in.Radius)}
	out.Rim = out.Sag + p.beyond(in.Outer)
	sagCaution(&out.Cautions, out.Sag, in.Clearance, in.Thickness)
	return out, nil
}

// A plate is one clamped at hub, loaded along a circle, free at its rim: within the
// circle φ = −k·(r/2·ln(r/hub) − r/4) + c·r/2 + d/r, beyond it e·(r/2 + g/r).
type plate struct {
	hub, circle, stiffness, k, c, d, e, g float64
}

func newPlate(in RotorSagInput) plate {
	p := plate{hub: in.Hub, circle: in.Radius, stiffness: in.Modulus * math.Pow(in.Thickness, 3) / (12 * (1 - in.Poisson*in.Poisson))}
	p.k = in.Pull / (2 * math.Pi * p.stiffness)
	p.g = in.Outer * in.Outer * (1 + in.Poisson) / (2 * (1 - in.Poisson))
	r := in.Radius
	ratio := (0.5 - p.g/(r*r)) / (r/2 + p.g/r) // φ′/φ at the circle, from beyond it
	// φ(hub) = 0: c·hub/2 + d/hub = −k·hub/4; at the circle φ′ = ratio·φ.
	l := math.Log(r / p.hub)
	own, grows := -p.k*(r/2*l-r/4), -p.k*(l/2+0.25)
	// c·(1/2 − ratio·r/2) + d·(−1/r² − ratio/r) = ratio·own − grows, d = −hub²·(k/4 + c/2).
	byC, byD := 0.5-ratio*r/2, -1/(r*r)-ratio/r
	h2 := p.hub * p.hub
	p.c = (ratio*own - grows + byD*h2*p.k/4) / (byC - byD*h2/2)
	p.d = -h2 * (p.k/4 + p.c/2)
	p.e = p.slope(r) / (r/2 + p.g/r)
	return p
}

// slope is φ within the circle.
func (p plate) slope(r float64) float64 {
	return -p.k*(r/2*math.Log(r/p.hub)-r/4) + p.c*r/2 + p.d/r
}

// bend is φ′ + ν·φ/r at the hub, where φ is nought: the moment by the stiffness.
func (p plate) bend(r float64) float64 {
	return -p.k*(math.Log(r/p.hub)/2+0.25) + p.c/2 - p.d/(r*r)
}

// sag is the integral of the slope from the hub.
func (p plate) sag(r float64) float64 {
	l, h2 := math.Log(r/p.hub), p.hub*p.hub
	return -p.k*(r*r/4*l-(r*r-h2)/4) + p.c*(r*r-h2)/4 + p.d*l
}

// beyond is that from the circle to the rim.
func (p plate) beyond(rim float64) float64 {
	return p.e * ((rim*rim-p.circle*p.circle)/4 + p.g*math.Log(rim/p.circle))
}

// sagCaution says when a rotor comes near its coils.
func sagCaution(c *model.Cautions, sag float64, clearance *float64, thickness float64) {
	if clearance != nil && sag > *clearance/3 {
		c.Raise(model.Caution{ID: "rotor-bows-to-coils", Level: model.Warning, Severity: sag / *clearance,
			Summary: "The rotor bows by {0} of {1} to its coils, and creeps.",
			Values:  []model.Value{model.In(sag*1e3, "mm"), model.In(*clearance*1e3, "mm")},
			Why:     "Steel or plywood backs it. Under a steady pull plastics creep to two or three times that in months; the nearer the rotors come, the harder they pull; what rubs wears through the enamel.",
			Hint:    "Make the plate thicker, or back it.",
			Source:  "plate theory; creep of plastics: common practice, the maker's sheet comes first"})
	}
	if sag > thickness/2 {
		c.Raise(model.Caution{ID: "plate-past-theory", Level: model.Advice, Severity: sag / thickness,
			Summary: "A sag of {0} is over half of the plate's {1}.",
			Values:  []model.Value{model.In(sag*1e3, "mm"), model.In(thickness*1e3, "mm")},
			Why:     "That is past what the formula holds for.",
			Hint:    "Make the plate thicker.",
			Source:  "S. Timoshenko, Theory of Plates and Shells, from memory"})
	}
}
