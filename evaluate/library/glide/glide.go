package glide

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

// Trim is a steady glide at one lift coefficient.
type Trim struct {
	Speed      float64 `unit:"m/s" show:"1" help:"through the air, along the path"`
	Sink       float64 `unit:"m/s" show:"2" help:"height lost in a second"`
	GlideRatio float64 `unit:"1" show:"3" help:"distance over height in still air"`
	Angle      float64 `unit:"deg" help:"of the path below the horizon"`
	CL         float64 `unit:"1" name:"CL" help:"lift coefficient"`
	CD         float64 `unit:"1" name:"CD" help:"drag coefficient"`
}

// Trim balances the airframe at a lift coefficient under a load factor n =
// 1/cos φ: tan γ = n·CD/CL, V² = 2W·n·cos γ/(ρ·S·CL).
func (p Plane) Trim(cl, n float64) Trim {
	cd := p.Drag(cl)
	resultant := math.Hypot(cl, n*cd)
	v := p.Reference() * math.Sqrt(n/resultant)
	return Trim{Speed: v, Sink: v * n * cd / resultant, GlideRatio: cl / (n * cd),
		Angle: math.Atan2(n*cd, cl), CL: cl, CD: cd}
}

// ChosenCL is the lift coefficient asked for, or that of the best glide.
func (p Plane) ChosenCL(cl *float64) (float64, error) {
	if cl == nil {
		return p.BestGlideCL(), nil
	}
	if err := require.Positive("CL", *cl, "1"); err != nil {
		return 0, err
	}
	if *cl > p.CLMax {
		return 0, &model.Error{Field: "CL", Summary: "the wing stalls at a lift coefficient of {0}, before {1}",
			Values: []model.Value{model.In(p.CLMax, "1"), model.In(*cl, "1")},
			Hint:   "fly faster: give a CL below the airframe's CL_max"}
	}
	return *cl, nil
}

// TrimInput is an airframe as it glides.
type TrimInput struct {
	Airframe  Plane  `help:"the airframe"`
	Propeller string `values:"folded stopped" default:"folded" help:"in the glide; a stopped one drags by the airframe's propeller_drag, which windmilling works too"`
}

// TrimResult is a glide with what there is to say about it.
type TrimResult struct {
	Trim
	model.Cautions
}

// What [BestGlide] and [LeastSink] want and answer.
type (
	BestGlideInput  TrimInput
	BestGlideResult TrimResult
	LeastSinkInput  TrimInput
	LeastSinkResult TrimResult
)

// BestGlide is the steady glide that goes farthest in still air.
//
// Formula: k = S/(π·e·b²); CL = min(√(CD0/k), CL_max); CD = CD0 + k·CL²; tan γ = CD/CL; E = CL/CD; V = √(2·m·g/(ρ·S))/(CL² + CD²)^¼, g = 9.80665 m/s²; sink v = V·sin γ.
//
// Letters: m airframe.mass; b airframe.span; S airframe.area; e airframe.oswald; CD0 airframe.CD0; CL_max airframe.CL_max; ρ airframe.density; V = speed; v = sink; E = glide_ratio; γ = angle; CL = CL; CD = CD.
//
// Validity: attached flow, still air, wings level; exact in the path's angle.
//
// Source: J. D. Anderson, Introduction to Flight, chapter 6.
//
// Example:
//
//	plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
//	far = best_glide(plane)
//	v_glide [m/s] = far.speed
func BestGlide(in BestGlideInput) (BestGlideResult, error) {
	out, err := TrimInput(in).at(Plane.BestGlideCL)
	return BestGlideResult(out), err
}

// LeastSink is the steady glide that stays up longest.
//
// Formula: k = S/(π·e·b²); CD_1 = 8·CD0/(1 + √(1 − 32·k·CD0)), CL = min(√((CD_1 − CD0)/k), CL_max), CD = CD0 + k·CL²; tan γ = CD/CL; E = CL/CD; V = √(2·m·g/(ρ·S))/(CL² + CD²)^¼, g = 9.80665 m/s²; sink v = √(2·m·g/(ρ·S))·CD/(CL² + CD²)^¾.
//
// Letters: m airframe.mass; b airframe.span; S airframe.area; e airframe.oswald; CD0 airframe.CD0; CL_max airframe.CL_max; ρ airframe.density; V = speed; v = sink; E = glide_ratio; γ = angle; CL = CL; CD = CD.
//
// Validity: attached flow, wings level; exact in the path's angle. Small-angle texts give CD = 4·CD0.
//
// Source: J. D. Anderson, Introduction to Flight, chapter 6, without its small-angle step.
//
// Example:
//
//	plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
//	slow = least_sink(plane)
//	w_least [m/s] = slow.sink
func LeastSink(in LeastSinkInput) (LeastSinkResult, error) {
	out, err := TrimInput(in).at(Plane.leastSinkCL)
	return LeastSinkResult(out), err
}

// at trims at the lift coefficient that choose finds.
func (in TrimInput) at(choose func(Plane) float64) (TrimResult, error) {
	if err := in.Airframe.Check("airframe"); err != nil {
		return TrimResult{}, err
	}
	p, err := in.Airframe.With(in.Propeller)
	if err != nil {
		return TrimResult{}, err
	}
	out := TrimResult{Trim: p.Trim(choose(p), 1)}
	AtStall(&out.Cautions, out.CL, p.CLMax)
	return out, nil
}

// GlideInput is what [Glide] wants.
type GlideInput struct {
	Airframe  Plane    `help:"the airframe"`
	Height    float64  `unit:"m" range:"(0,)" help:"above the place of landing"`
	Wind      float64  `unit:"m/s" default:"0 m/s" help:"along the path over the ground: tailwind positive, headwind negative"`
	Propeller string   `values:"folded stopped" default:"folded" help:"in the glide; a stopped one drags by the airframe's propeller_drag, which windmilling works too"`
	CL        *float64 `unit:"1" name:"CL" range:"(0,)" help:"lift coefficient flown; that of the best glide in still air if not given"`
}

// GlideResult is what [Glide] answers.
type GlideResult struct {
	Time        float64 `unit:"s" show:"1" help:"until touchdown" symbol:"t"`
	Range       float64 `unit:"m" show:"2" help:"over the ground"`
	Speed       float64 `unit:"m/s" help:"through the air"`
	Sink        float64 `unit:"m/s" show:"3" help:"height lost in a second"`
	GroundSpeed float64 `unit:"m/s" help:"over the ground; negative when blown back"`
	GroundRatio float64 `unit:"1" help:"range over height"`
	BestSpeed   float64 `unit:"m/s" help:"through the air, for the longest range in this wind"`
	BestRange   float64 `unit:"m" help:"range at that speed"`
	model.Cautions
}

// Glide says how long and how far an airframe glides from a height, and how fast to fly in the wind.
//
// Time and range are for the lift coefficient given, by default that of the
// best glide in still air. Against the wind it pays to fly faster than that,
// with the wind a little slower: best_speed and best_range say how much.
//
// Formula: W = m·g, g = 9.80665 m/s², k = S/(π·e·b²); CL as given, or CL = min(√(CD0/k), CL_max); CD = CD0 + k·CL²; V = √(2·W/(ρ·S))/(CL² + CD²)^¼; γ = atan(CD/CL), v = V·sin γ; t = h/v, range x = V_G·t, V_G = V·cos γ + w, ground ratio E = V_G/v; best speed where (CL + u·r^¾)/CD is largest, r = CL² + CD², u = w/√(2·W/(ρ·S)), held at CL_max.
//
// Letters: m airframe.mass; b airframe.span; S airframe.area; e airframe.oswald; CD0 airframe.CD0; CL_max airframe.CL_max; ρ airframe.density; h height; w wind; CL CL; t = time; x = range; V = speed; v = sink; V_G = ground_speed; E = ground_ratio.
//
// Validity: steady glide in steady wind, no rising or sinking air; the last flare and the speed it starts with are left out.
//
// Source: J. D. Anderson, Introduction to Flight, chapter 6; the wind by the tangent to the speed polar.
//
// Example:
//
//	plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
//	down = glide(plane, height: 50 m, wind: -2 m/s)
//	t_glide [s] = down.time
func Glide(in GlideInput) (GlideResult, error) {
	if err := in.Airframe.Check("airframe"); err != nil {
		return GlideResult{}, err
	}
	if err := require.Positive("height", in.Height, "m"); err != nil {
		return GlideResult{}, err
	}
	p, err := in.Airframe.With(in.Propeller)
	if err != nil {
		return GlideResult{}, err
	}
	cl, err := p.ChosenCL(in.CL)
	if err != nil {
		return GlideResult{}, err
	}
	flown, best := p.Trim(cl, 1), p.Trim(p.windCL(in.Wind), 1)
	ground := flown.Speed*math.Cos(flown.Angle) + in.Wind
	t := in.Height / flown.Sink
	out := GlideResult{Time: t, Range: ground * t, Speed: flown.Speed, Sink: flown.Sink,
		GroundSpeed: ground, GroundRatio: ground / flown.Sink, BestSpeed: best.Speed,
		BestRange: (best.Speed*math.Cos(best.Angle) + in.Wind) * in.Height / best.Sink}
	AtStall(&out.Cautions, cl, p.CLMax)
	BlownBack(&out.Cautions, ground, in.Wind)
	OverCeiling(&out.Cautions, in.Height)
	Flying(&out.Cautions)
	return out, nil
}

// windCL is the lift coefficient that goes farthest over the ground in a wind.
// The range's derivative changes sign once, falling, below the least sink.
func (p Plane) windCL(wind float64) float64 {
	u, k := wind/p.Reference(), p.Induced()
	rising := func(cl float64) bool {
		_, slope := p.parasite(cl)
		cd := p.Drag(cl)
		slope += 2 * k * cl
		root := math.Sqrt(math.Hypot(cl, cd)) // r^¼
		return (1+1.5*u/root*(cl+cd*slope))*cd > (cl+u*root*root*root)*slope
	}
	low, high := 0.0, p.leastSinkCL()
	if rising(high) {
		return high
	}
	return numeric.Bisect(low, high, func(cl float64) bool { return !rising(cl) })
}
