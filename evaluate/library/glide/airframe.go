package glide

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// Plane is the record that [Airframe] makes and the other functions take: any
// record with these fields will do.
type Plane struct {
	Mass          float64 `unit:"g" range:"(0,)" help:"all-up, as it flies" symbol:"m"`
	Span          float64 `unit:"m" range:"(0,)" help:"wing tip to wing tip"`
	Area          float64 `unit:"m^2" range:"(0,)" help:"wing area, with what the fuselage covers"`
	CD0           float64 `unit:"1" name:"CD0" range:"(0,)" help:"drag coefficient without lift, propeller folded"`
	Oswald        float64 `unit:"1" range:"(0,1]" default:"0.8" help:"span efficiency, 0.7 to 0.85 for most models"`
	CLMax         float64 `unit:"1" name:"CL_max" range:"(0,)" default:"1.0" help:"lift coefficient at the stall"`
	PropellerDrag float64 `unit:"m^2" range:"[0,)" default:"0 m^2" help:"drag area of the stopped propeller, see propeller_drag; 0 if it folds"`
	Density       float64 `unit:"kg/m^3" range:"(0,)" default:"1.225 kg/m^3" help:"of the air, see air"`

	FrictionShare *float64 `unit:"%" range:"[0,100]" help:"part of CD0 that is skin friction, about 60 % to 80 % of a clean model: it then grows as the model slows down; CD0 is constant if not given"`
	FrictionSpeed *float64 `unit:"m/s" range:"(0,)" help:"at which CD0 holds"`
	Flow          string   `values:"laminar turbulent" default:"laminar" help:"of the boundary layer, for that friction"`
}

// Check reports what of the plane has no meaning, under the record's name.
func (p Plane) Check(record string) error {
	return require.In(record,
		require.Positive("mass", p.Mass, "kg"), require.Positive("span", p.Span, "m"),
		require.Positive("area", p.Area, "m^2"), require.Positive("CD0", p.CD0, "1"),
		require.Positive("oswald", p.Oswald, "1"), require.Positive("CL_max", p.CLMax, "1"),
		require.NotNegative("propeller_drag", p.PropellerDrag, "m^2"),
		require.Positive("density", p.Density, "kg/m^3"), p.frictionCheck())
}

func (p Plane) Weight() float64      { return p.Mass * gravity }
func (p Plane) aspectRatio() float64 { return p.Span * p.Span / p.Area }

// Induced is k of CD = CD0 + k·CL².
func (p Plane) Induced() float64 { return 1 / (math.Pi * p.Oswald * p.aspectRatio()) }

// Drag is the drag coefficient at a lift coefficient.
func (p Plane) Drag(cl float64) float64 {
	cd, _ := p.parasite(cl)
	return cd + p.Induced()*cl*cl
}

// Reference is √(2W/ρS), the speed at which the wing would carry at CL = 1.
func (p Plane) Reference() float64 { return math.Sqrt(2 * p.Weight() / (p.Density * p.Area)) }

func (p Plane) StallSpeed() float64 { return p.Reference() / math.Sqrt(p.CLMax) }

// With is the plane with its propeller folded or stopped: a stopped one adds
// its drag area to CD0.
func (p Plane) With(propeller string) (Plane, error) {
	switch propeller {
	case "", "folded":
	case "stopped":
		if p.PropellerDrag == 0 {
			return p, &model.Error{Field: "airframe.propeller_drag", Summary: "is not given, so that a stopped propeller would drag nothing",
				Hint: "give the airframe propeller_drag: propeller_drag(diameter), or from windmilling"}
		}
		p = p.withDrag(p.PropellerDrag)
	default:
		return p, &model.Error{Field: "propeller", Summary: "a propeller in a glide is folded or stopped",
			Hint: `write propeller: "folded" or propeller: "stopped"`}
	}
	return p, nil
}

// BestGlideCL is where CL/CD is largest, not above the stall.
func (p Plane) BestGlideCL() float64 {
	if p.FrictionShare != nil {
		return p.least(func(cl float64) float64 { return p.Drag(cl) / cl })
	}
	return min(math.Sqrt(p.CD0/p.Induced()), p.CLMax)
}

// leastSinkCL is where CD/(CL²+CD²)^¾ is least, not above the stall. Setting
// the derivative to zero gives CD = 4·CD0 + 2k·CD², of which the smaller root
// is the minimum. A body so draggy that there is none sinks least at the stall.
func (p Plane) leastSinkCL() float64 {
	if p.FrictionShare != nil {
		return p.least(func(cl float64) float64 { cd := p.Drag(cl); return cd / math.Pow(cl*cl+cd*cd, 0.75) })
	}
	k := p.Induced()
	root := 1 - 32*k*p.CD0
	if root < 0 {
		return p.CLMax
	}
	cd := 8 * p.CD0 / (1 + math.Sqrt(root))
	return min(math.Sqrt((cd-p.CD0)/k), p.CLMax)
}

// AirframeInput is what [Airframe] wants.
type AirframeInput struct{ Plane }

// AirframeResult is what [Airframe] answers: the airframe and how it flies.
type AirframeResult struct {
	Plane
	AspectRatio    float64 `unit:"1" help:"span² over area"`
	Induced        float64 `unit:"1" help:"k of CD = CD0 + k·CL²"`
	WingLoading    float64 `unit:"g/dm^2" help:"mass over area"`
	StallSpeed     float64 `unit:"m/s" show:"1" help:"wings level" symbol:"V_stall"`
	GlideRatio     float64 `unit:"1" show:"2" help:"best, propeller folded, no wind"`
	GlideSpeed     float64 `unit:"m/s" help:"where it glides farthest"`
	LeastSink      float64 `unit:"m/s" show:"3" help:"slowest way down"`
	LeastSinkSpeed float64 `unit:"m/s" help:"where it sinks least"`
	Reynolds       float64 `unit:"1" help:"of the mean chord, area over span, at the best glide in air of 15 °C"`
}

// Airframe says how an airframe flies: stall, best glide, least sink.
//
// The drag is a parabola in the lift; lift and drag balance the weight along
// the sloping path exactly, not for small angles only. The answer holds the
// airframe itself and serves wherever an airframe is wanted.
//
// Formula: AR = b²/S; k = 1/(π·e·AR), of the drag that grows with the lift; W = m·g, g = 9.80665 m/s²; w = m/S; V_stall = √(2·W/(ρ·S·CL_max)); best glide at CL_g = min(√(CD0/k), CL_max), its ratio E = CL_g/CD_g, CD_g = CD0 + k·CL_g², V_g = √(2·W/(ρ·S))/(CL_g² + CD_g²)^¼; least sink at CL_s = min(√((8·CD0/(1 + √(1 − 32·k·CD0)) − CD0)/k), CL_max), CD_s = CD0 + k·CL_s², V_s = √(2·W/(ρ·S))/(CL_s² + CD_s²)^¼, sink v_s = V_s·CD_s/√(CL_s² + CD_s²); Re = ρ·V_g·S/(b·μ), μ = 1.458e-6 Pa·s·288.15^1.5/(288.15 + 110.4). With a friction_share s CD0 becomes CD0·(1 − s + s·(V/V_ref)^−x), V that of level flight, x the half of laminar and the fifth of turbulent flow.
//
// Letters: m mass; b span; S area; e oswald; CD0 CD0; CL_max CL_max; ρ density; AR = aspect_ratio; k = induced; w = wing_loading; V_stall = stall_speed; E = glide_ratio; V_g = glide_speed; v_s = least_sink; V_s = least_sink_speed; Re = reynolds.
//
// Validity: attached flow; CD0, e and CL_max change with the Reynolds number below about 1e5, of which friction_share works the first.
//
// Source: J. D. Anderson, Introduction to Flight, chapter 6; friction: H. Blasius' and L. Prandtl's plates, chapter 4.
//
// Example:
//
//	plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
//	v_stall [m/s] = plane.stall_speed
func Airframe(given AirframeInput) (AirframeResult, error) {
	in := given.Plane
	if err := in.Check(""); err != nil {
		return AirframeResult{}, err
	}
	best, least := in.Trim(in.BestGlideCL(), 1), in.Trim(in.leastSinkCL(), 1)
	out := AirframeResult{Plane: in, AspectRatio: in.aspectRatio(), Induced: in.Induced(),
		WingLoading: in.Mass / in.Area, StallSpeed: in.StallSpeed(),
		GlideRatio: best.GlideRatio, GlideSpeed: best.Speed,
		LeastSink: least.Sink, LeastSinkSpeed: least.Speed,
		Reynolds: in.Density * best.Speed * in.Area / in.Span / viscosity(seaTemperature)}
	return out, nil
}

// PropellerDragInput is what [PropellerDrag] wants.
type PropellerDragInput struct {
	Diameter float64 `unit:"mm" range:"(0,)" help:"of the propeller"`
	Solidity float64 `unit:"1" range:"(0,1)" default:"0.1" help:"blade area over disc area, about 0.1 for two blades"`
}

// PropellerDragResult is what [PropellerDrag] answers.
type PropellerDragResult struct {
	DragArea float64 `unit:"m^2" help:"drag over dynamic pressure"`
}

// PropellerDrag estimates the drag area of a propeller that stands still in the glide.
//
// One that turns with the wind may drag several times as much at a fine pitch,
// or less at a coarse one: measure it with timed glides.
//
// Formula: by the dynamic pressure S_d = 0.8·σ·A, A = π·D²/4.
//
// Letters: σ solidity; D diameter; S_d = result.
//
// Validity: an estimate for a stopped propeller; a folded one is near 0.
//
// Source: D. P. Raymer, Aircraft Design, propeller drag (from memory).
//
// Example:
//
//	stopped [cm^2] = propeller_drag(200 mm, solidity: 0.10)
func PropellerDrag(in PropellerDragInput) (PropellerDragResult, error) {
	if err := require.All(require.Positive("diameter", in.Diameter, "m"),
		require.Positive("solidity", in.Solidity, "1")); err != nil {
		return PropellerDragResult{}, err
	}
	return PropellerDragResult{0.8 * in.Solidity * math.Pi / 4 * in.Diameter * in.Diameter}, nil
}
