package glide

import (
	"math"

	"inkwing/evaluate/library/model"
)

// TurningInput is what [Turning] wants.
type TurningInput struct {
	Airframe  Plane    `help:"the airframe"`
	Bank      float64  `unit:"deg" range:"(0,90)" help:"of the wings against the horizon"`
	Propeller string   `values:"folded stopped" default:"folded" help:"in the glide; a stopped one drags by the airframe's propeller_drag, which windmilling works too"`
	CL        *float64 `unit:"1" name:"CL" range:"(0,)" help:"lift coefficient flown; that of the best glide if not given"`
}

// TurningResult is what [Turning] answers.
type TurningResult struct {
	Radius     float64 `unit:"m" show:"1" help:"of the circle over the ground in still air"`
	Sink       float64 `unit:"m/s" help:"height lost in a second"`
	Speed      float64 `unit:"m/s" show:"2" help:"through the air"`
	StallSpeed float64 `unit:"m/s" show:"3" help:"in this turn" symbol:"V_stall"`
	LoadFactor float64 `unit:"1" help:"lift the turn asks for, over that of level flight"`
	TurnTime   float64 `unit:"s" help:"for a full circle"`
	HeightLost float64 `unit:"m" help:"in a full circle"`
	model.Cautions
}

// Turning says what a gliding turn costs: speed, sink, radius and the stall speed in it.
//
// Formula: n = 1/cos φ; W = m·g, g = 9.80665 m/s², k = S/(π·e·b²); CL as given, or CL = min(√(CD0/k), CL_max); CD = CD0 + k·CL²; γ = atan(n·CD/CL); V = √(2·W·n·cos γ/(ρ·S·CL)), v = V·sin γ; radius r = V²·cos γ/(g·tan φ); V_stall as V at CL_max; t = 2·π·r/(V·cos γ), h = v·t. For flat paths the speed grows with the root of n, the sink with its power 1.5, and the radius with the speed's square.
//
// Letters: m airframe.mass; b airframe.span; S airframe.area; e airframe.oswald; CD0 airframe.CD0; CL_max airframe.CL_max; ρ airframe.density; φ bank; CL CL; r = radius; v = sink; V = speed; n = load_factor; t = turn_time; h = height_lost.
//
// Validity: steady, coordinated turn at one lift coefficient, still air; exact in the path's angle. The inner wing of a tight turn flies slower and stalls earlier than this says.
//
// Source: J. D. Anderson, Introduction to Flight, chapter 6.
//
// Example:
//
//	plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
//	circle = turning(plane, bank: 30°)
//	r_turn [m] = circle.radius
func Turning(in TurningInput) (TurningResult, error) {
	if err := in.Airframe.Check("airframe"); err != nil {
		return TurningResult{}, err
	}
	if !(in.Bank > 0 && in.Bank < math.Pi/2) {
		return TurningResult{}, &model.Error{Field: "bank", Summary: "a steady turn has a bank between {0} and {1}",
			Values: []model.Value{model.In(0, "deg"), model.In(90, "deg")},
			Hint:   "write the bank in degrees, as in 30°"}
	}
	p, err := in.Airframe.With(in.Propeller)
	if err != nil {
		return TurningResult{}, err
	}
	cl, err := p.ChosenCL(in.CL)
	if err != nil {
		return TurningResult{}, err
	}
	n := 1 / math.Cos(in.Bank)
	flown := p.Trim(cl, n)
	radius := flown.Speed * flown.Speed * math.Cos(flown.Angle) / (gravity * math.Tan(in.Bank))
	circle := 2 * math.Pi * radius / (flown.Speed * math.Cos(flown.Angle))
	out := TurningResult{Radius: radius, Sink: flown.Sink, Speed: flown.Speed, LoadFactor: n,
		StallSpeed: p.Trim(p.CLMax, n).Speed, TurnTime: circle, HeightLost: flown.Sink * circle}
	AtStall(&out.Cautions, cl, p.CLMax)
	Flying(&out.Cautions)
	return out, nil
}
