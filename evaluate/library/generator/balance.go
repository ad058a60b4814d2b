package generator

import (
	"math"
	"math/cmplx"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// RotorBalanceInput is what [RotorBalance] reads.
type RotorBalanceInput struct {
	Masses   []float64 `unit:"g" range:"(0,)" help:"of the magnets, in order round the circle, evenly spaced"`
	Radius   float64   `unit:"mm" range:"(0,)" help:"of the circle of their centres"`
	Rotation float64   `unit:"rpm" range:"(0,)" help:"fastest of the rotor"`
	Mass     float64   `unit:"g" range:"(0,)" help:"of the whole rotor" symbol:"m"`
	Offset   float64   `unit:"mm" default:"0 mm" range:"[0,)" help:"by which the rest of it runs out of centre, at its worst"`
	At       *float64  `unit:"mm" range:"(0,)" help:"radius at which weight is added; that of the magnets if left out"`
	Grade    float64   `unit:"mm/s" default:"6.3 mm/s" range:"(0,)" help:"balance quality: 6.3 for fans and small machines, 16 for what is allowed to hum"`
}

// RotorBalanceResult is how far a rotor is from balance.
type RotorBalanceResult struct {
	Unbalance float64 `unit:"g·mm" show:"1"`
	Allowed   float64 `unit:"g·mm" show:"2" help:"by the grade"`
	Force     float64 `unit:"N" show:"3" help:"on the bearings, turning with the rotor"`
	Weight    float64 `unit:"g" show:"4" help:"to add for balance"`
	Angle     float64 `unit:"deg" help:"where to add it, from the first magnet on, in the order of the masses"`
	model.Cautions
}

// RotorBalance is the unbalance of a ring of magnets that do not weigh alike, and
// the weight that takes it away.
//
// Formula: θ = 2·π·j/n, x = Σ m·cos θ, y = Σ m·sin θ; U = r·√(x² + y²) + e·(M − Σ m), e the offset of the rest; F = U·ω²; allowed U_max = G·M/ω; opposite the weight w = r·√(x² + y²)/r, or at another radius w = r·√(x² + y²)/r_w
//
// Letters: m masses; j index masses; n #masses; r radius; M mass; e offset; ω rotation; G grade; r_w at; U = unbalance; F = force; U_max = allowed; w = weight.
//
// Validity: a rigid thin rotor, balanced in one plane; the offset counts at its worst, and
// where it points only a spin shows: add the weight, spin, and try again.
//
// Source: centre of mass, textbook; grade: ISO 21940-11 (e·ω = G), from memory
//
// Example:
//
//	b = rotor_balance([11.9 g, 12.1 g, 12 g, 11.8 g], 45 mm, 900 rpm, 180 g)
//	m [g] = b.weight
func RotorBalance(in RotorBalanceInput) (RotorBalanceResult, error) {
	n := len(in.Masses)
	if n < 2 {
		return RotorBalanceResult{}, &model.Error{Field: "masses", Summary: "is one magnet, or none, and balance is between several", Hint: "weigh each magnet, in order round the circle"}
	}
	err := require.All(require.Positive("radius", in.Radius, "m"), require.Positive("rotation", in.Rotation, "rad/s"), require.Positive("mass", in.Mass, "kg"),
		require.Positive("grade", in.Grade, "m/s"), require.NotNegative("offset", in.Offset, "m"))
	sum, magnets := complex(0, 0), 0.0
	for i, m := range in.Masses {
		err = require.All(err, require.Positive("masses", m, "kg"))
		sum += cmplx.Rect(m*in.Radius, 2*math.Pi*float64(i)/float64(n))
		magnets += m
	}
	if err == nil && magnets > in.Mass {
		err = &model.Error{Field: "mass", Summary: "is {0}, less than its magnets' {1}",
			Values: []model.Value{model.In(in.Mass*1e3, "g"), model.In(magnets*1e3, "g")}, Hint: "weigh the whole rotor"}
	}
	if err != nil {
		return RotorBalanceResult{}, err
	}
	ring := cmplx.Abs(sum)
	u := ring + (in.Mass-magnets)*in.Offset
	out := RotorBalanceResult{Unbalance: u, Allowed: in.Grade * in.Mass / in.Rotation, Force: u * in.Rotation * in.Rotation,
		Weight: ring / ptr(in.At, in.Radius)}
	if ring > 1e-12*magnets*in.Radius {
		out.Angle = math.Mod(cmplx.Phase(sum)+3*math.Pi, 2*math.Pi)
	}
	if u > out.Allowed {
		out.Raise(model.Caution{ID: "rotor-unbalanced", Level: model.Warning,
			Summary: "The rotor is {0} out of balance, {1} is allowed.",
			Values:  []model.Value{model.In(u*1e6, "g·mm"), model.In(out.Allowed*1e6, "g·mm"), model.In(out.Force, "N")},
			Why:     "It shakes with {2}. What shakes loosens glue and screws, and the rotors of a close gap touch.",
			Hint:    "Swap magnets or add weight, behind a guard.",
			Source:  "ISO 21940-11, from memory; local rules on guards come first"})
	}
	spinningRotor(&out.Cautions)
	return out, nil
}
