package generator

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// CrankArmInput is what [CrankArm] reads.
type CrankArmInput struct {
	Force    float64 `unit:"N" range:"[0,)" help:"at the handle, at its largest: a foot or a stall gives several times the mean"`
	Length   float64 `unit:"mm" range:"(0,)" help:"from the axle's clamp to the handle"`
	Depth    float64 `unit:"mm" range:"(0,)" help:"of the section, in the plane in which the crank turns"`
	Width    float64 `unit:"mm" range:"(0,)" help:"of the section, along the axle"`
	Strength float64 `unit:"N/mm^2" range:"(0,)" help:"in bending: printed PLA 30 along its layers and 15 across, beech 60, aluminium 150"`
	Modulus  float64 `unit:"GPa" default:"2.5 GPa" range:"(0,)" help:"of elasticity"`
	Overhang float64 `unit:"mm" default:"0 mm" range:"[0,)" help:"of the hand beside the arm, along the axle, which twists it"`
}

// CrankArmResult is how a crank bears its load.
type CrankArmResult struct {
	Stress  float64 `unit:"N/mm^2" show:"1" help:"bending at the axle, and the twist of the overhang with it"`
	Safety  float64 `unit:"1" show:"2" help:"strength by stress"`
	Bending float64 `unit:"mm" show:"3" help:"of the handle"`
	model.Cautions
}

// CrankArm is the stress in a crank of solid rectangular section.
//
// Formula: σ = F·L/(b·h²/6); τ = 4.8·F·a/(max(b, h)·min(b, h)²); both together σ_v = √(σ² + 3·τ²); safety S = σ_max/σ_v; bending x = F·L³/(3·E·b·h³/12)
//
// Letters: F force; L length; b width; h depth; E modulus; a overhang; σ_max strength; σ_v = stress; S = safety; x = bending.
//
// Validity: a straight solid arm, no notch at the axle (a sharp corner doubles it); prints
// count across their layers where those lie across the arm. The twist is that of a square
// section, 4.8, which is high for longer ones.
//
// Source: beam theory, textbook; torsion of rectangles, W. C. Young, Roark's Formulas for
// Stress and Strain, from memory
//
// Example:
//
//	arm = crank_arm(100 N, 150 mm, 20 mm, 10 mm, strength: 30 N/mm^2)
//	safety = arm.safety
func CrankArm(in CrankArmInput) (CrankArmResult, error) {
	err := require.All(require.NotNegative("force", in.Force, "N"), require.Positive("length", in.Length, "m"), require.Positive("depth", in.Depth, "m"),
		require.Positive("width", in.Width, "m"), require.Positive("strength", in.Strength, "Pa"), require.Positive("modulus", in.Modulus, "Pa"))
	if err != nil {
		return CrankArmResult{}, err
	}
	long, short := max(in.Depth, in.Width), min(in.Depth, in.Width)
	bending := in.Force * in.Length / (in.Width * in.Depth * in.Depth / 6)
	twist := 4.8 * in.Force * in.Overhang / (long * short * short)
	out := CrankArmResult{Stress: math.Sqrt(bending*bending + 3*twist*twist),
		Bending: in.Force * math.Pow(in.Length, 3) / (3 * in.Modulus * in.Width * math.Pow(in.Depth, 3) / 12)}
	if out.Stress > 0 {
		out.Safety = in.Strength / out.Stress
		crankBreaks(&out.Cautions, out.Safety)
	}
	return out, nil
}

// leastSafety is what parts that a person leans on want at least, by common
// practice: loads are guessed, prints differ, and plastics tire.
const leastSafety = 3

// crankBreaks says when a crank has little left.
func crankBreaks(c *model.Cautions, safety float64) {
	if safety >= leastSafety {
		return
	}
	c.Raise(model.Caution{ID: "crank-may-break", Level: model.Warning,
		Summary: "The crank bears {0} times its load; {1} is wanted.",
		Values:  []model.Value{model.In(safety, "1"), model.In(leastSafety, "1")},
		Why:     "A crank that breaks throws the arm that leans on it onto the stump; plastics tire and turn brittle, and sharp corners tear first.",
		Hint:    "Make it deeper, or of wood or metal.",
		Source:  "common practice for the factor; the maker's sheet for the strength"})
}

// teethBreak says when teeth have little left.
func teethBreak(c *model.Cautions, safety float64) {
	if safety >= leastSafety {
		return
	}
	c.Raise(model.Caution{ID: "teeth-may-break", Level: model.Warning,
		Summary: "The teeth bear {0} times their load; {1} is wanted.",
		Values:  []model.Value{model.In(safety, "1"), model.In(leastSafety, "1")},
		Why:     "A tooth that breaks jams the train at speed and throws pieces: cover it. Plastics tire, and soften as they warm; stronger ones help.",
		Hint:    "Take a larger module or wider wheels.",
		Source:  "common practice for the factor; the maker's sheet for the strength"})
}

// GearTeethInput is what [GearTeeth] reads.
type GearTeethInput struct {
	Torque   float64 `unit:"N·m" range:"[0,)" help:"on the wheel at its largest: the pulse, not the mean"`
	Teeth    float64 `unit:"1" range:"[12,)" help:"of the wheel; the smaller of two bears less"`
	Module   float64 `unit:"mm" range:"(0,)" help:"pitch diameter by teeth"`
	Width    float64 `unit:"mm" range:"(0,)" help:"of the face"`
	Strength float64 `unit:"N/mm^2" range:"(0,)" help:"in bending, for many turns: printed PLA 15, nylon 20, acetal 30, brass 60, steel 150"`
	Dynamic  float64 `unit:"1" default:"1" range:"[1,)" help:"factor for speed and rough teeth: 1 slow, 1.5 for plain spur wheels at 3 m/s"`
}

// GearTeethResult is how teeth bear a torque.
type GearTeethResult struct {
	Force    float64 `unit:"N" help:"along the pitch circle"`
	Diameter float64 `unit:"mm" help:"of the pitch circle"`
	Form     float64 `unit:"1" help:"Lewis's form factor"`
	Stress   float64 `unit:"N/mm^2" show:"1" help:"bending, at the root of a tooth"`
	Safety   float64 `unit:"1" show:"2" help:"strength by stress"`
	model.Cautions
}

// lewis are teeth and form factors of full-depth involute teeth at 20°; the last
// is a rack (Shigley's Mechanical Engineering Design, table 14-2, from memory).
var lewis = [][2]float64{{12, 0.245}, {13, 0.261}, {14, 0.277}, {15, 0.290}, {16, 0.296}, {17, 0.303}, {18, 0.309}, {19, 0.314}, {20, 0.322},
	{21, 0.328}, {22, 0.331}, {24, 0.337}, {26, 0.346}, {28, 0.353}, {30, 0.359}, {34, 0.371}, {38, 0.384}, {43, 0.397}, {50, 0.409}, {60, 0.422},
	{75, 0.435}, {100, 0.447}, {150, 0.460}, {300, 0.472}, {math.Inf(1), 0.485}}

// GearTeeth is the bending stress in the teeth of a spur wheel.
//
// Formula: d = m·Z, F = 2·T/d; σ = K·F/(b·m·Y), Y Lewis's form factor of 20° full-depth teeth; safety S = σ_max/σ
//
// Letters: T torque; m module; Z teeth; b width; K dynamic; σ_max strength; d = diameter; F = force; σ = stress; Y = form; S = safety.
//
// Validity: 12 teeth and more, one pair of teeth bears all; bending only: steel wears and
// plastics melt at the flank first when they run long.
//
// Source: W. Lewis, Proc. Engineers' Club of Philadelphia 10 (1893) 16; form factors:
// Shigley's Mechanical Engineering Design, table 14-2, from memory
//
// Example:
//
//	wheel = gear_teeth(2 N·m, 20, 1.5 mm, 12 mm, strength: 30 N/mm^2)
//	safety = wheel.safety
func GearTeeth(in GearTeethInput) (GearTeethResult, error) {
	err := require.All(require.NotNegative("torque", in.Torque, "N·m"), require.Positive("module", in.Module, "m"), require.Positive("width", in.Width, "m"),
		require.Positive("strength", in.Strength, "Pa"), require.Positive("dynamic", in.Dynamic, "1"))
	if err == nil && !(in.Teeth >= lewis[0][0]) {
		err = &model.Error{Field: "teeth", Summary: "is {0}, and under {1} teeth are cut away at their roots",
			Values: []model.Value{model.In(in.Teeth, "1"), model.In(lewis[0][0], "1")}, Hint: "take more teeth, or a smaller module"}
	}
	if err != nil {
		return GearTeethResult{}, err
	}
	out := GearTeethResult{Diameter: in.Module * in.Teeth, Form: form(in.Teeth)}
	out.Force = 2 * in.Torque / out.Diameter
	out.Stress = in.Dynamic * out.Force / (in.Width * in.Module * out.Form)
	if out.Stress > 0 {
		out.Safety = in.Strength / out.Stress
		teethBreak(&out.Cautions, out.Safety)
	}
	return out, nil
}

// form is the form factor, straight in the reciprocal of the teeth between those
// of the table.
func form(teeth float64) float64 {
	for i := 1; i < len(lewis); i++ {
		a, b := lewis[i-1], lewis[i]
		if teeth <= b[0] {
			part := (1/a[0] - 1/teeth) / (1/a[0] - 1/b[0])
			return a[1] + part*(b[1]-a[1])
		}
	}
	return lewis[len(lewis)-1][1]
}
