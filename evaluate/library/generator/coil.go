package generator

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// Handmade coils fill this much of their window with copper (common practice).
const handFill = 0.6

// WoundCoil is a coil as other functions read it.
type WoundCoil struct {
	Shape        string  `values:"round rectangular trapezoid"`
	Turns        float64 `unit:"1"`
	Opening      float64 `unit:"mm" help:"diameter, or length along the radius"`
	OpeningWidth float64 `unit:"mm" help:"mean width across the radius"`
	OpeningTaper float64 `unit:"mm" help:"how much wider the outer end is than the inner"`
	Leg          float64 `unit:"mm" help:"build of the winding, from opening to outside"`
	Height       float64 `unit:"mm" help:"along the magnets' field"`
	Resistance   float64 `unit:"Ω" show:"1" help:"at the temperature given" symbol:"R"`
	Inductance   float64 `unit:"mH" symbol:"L"`
	CopperMass   float64 `unit:"g" show:"2"`
	TurnsThatFit float64 `unit:"1" show:"3" help:"at the fill given"`
	MeanTurn     float64 `unit:"mm"`
	Section      float64 `unit:"mm^2" help:"of the wire, bare"`
	Fill         float64 `unit:"1" help:"copper in the window, with these turns"`
	Temperature  float64 `unit:"°C" help:"of the copper, for which the resistance is"`
}

// CoilInput is what [Coil] reads.
type CoilInput struct {
	Turns             float64  `unit:"1" range:"(0,)"`
	Wire              Winding  `help:"what wire or awg gives"`
	Opening           float64  `unit:"mm" range:"(0,)" help:"diameter of a round one, else its length along the radius"`
	Leg               float64  `unit:"mm" range:"(0,)" help:"build of the winding, from opening to outside"`
	Height            float64  `unit:"mm" range:"(0,)" help:"along the magnets' field"`
	Shape             string   `default:"round" values:"round rectangular trapezoid"`
	OpeningWidth      *float64 `unit:"mm" range:"(0,)" help:"across the radius; of a trapezoid at the outer end"`
	OpeningInnerWidth *float64 `unit:"mm" range:"[0,)" help:"of a trapezoid, at the inner end"`
	Temperature       float64  `unit:"°C" default:"20 °C" range:"[-50,200]" help:"of the copper"`
	FillFactor        float64  `unit:"1" default:"0.5" range:"(0,0.91)" help:"copper in the window that the hand reaches"`
	Current           float64  `unit:"A" default:"0 A" range:"[0,)" help:"rms in the wire" symbol:"I"`
}

// CoilResult is a coil and what its current does to it.
type CoilResult struct {
	WoundCoil
	CurrentDensity float64 `unit:"A/mm^2"`
	Loss           float64 `unit:"W" help:"of the current in the copper"`
	model.Cautions
}

// Coil is a winding of round wire without iron: resistance, copper, inductance
// and whether its turns fit.
//
// Formula: mean turn, of a round one l = π·(d + leg), rectangular l = 2·(d + w) + π·leg, trapezoid l = w + v + 2·√(d² + ((w − v)/2)²) + π·leg; R = ρ·N·l/A, ρ = (1 + 0.00393 K^-1·(T − 20 °C))/58·1 Ω·mm²/m; A = π·d_w²/4; turns that fit N_fit = floor(kf·leg·h/A), kf of hand winding 0.4 to 0.6; fill f = N·A/(leg·h); L = 0.8 µH/in·r²·N²/(6·r + 9·h + 10·leg), r = l/(2·π) a mean radius; m_cu = 8890 kg/m³·A·N·l; J = I/A; P = I²·R
//
// Letters: N turns; d opening; w opening_width; v opening_inner_width; leg leg; h height; d_w wire.diameter; T temperature; kf fill_factor; I current; l = mean_turn; A = section; R = resistance; N_fit = turns_that_fit; f = fill; L = inductance; m_cu = copper_mass; J = current_density; P = loss.
//
// Validity: the inductance of a round coil is good to about 1 % when radius, height and leg are
// alike, to a few per cent else; other shapes take the round one of the same mean turn.
//
// Source: H. A. Wheeler, Proc. IRE 16 (1928) 1398; IEC 60028; fill of hand
// winding: common practice, no source
//
// Example:
//
//	w = awg(21)
//	c = coil(87, w, 10 mm, 9 mm, 8 mm, temperature: 40 °C)
//	R [Ω] = c.resistance
func Coil(in CoilInput) (CoilResult, error) {
	err := require.All(require.Positive("turns", in.Turns, "1"),
		require.Positive("wire.diameter", in.Wire.Diameter, "m"), require.Positive("opening", in.Opening, "m"),
		require.Positive("leg", in.Leg, "m"), require.Positive("height", in.Height, "m"),
		require.Positive("fill_factor", in.FillFactor, "1"))
	if err != nil {
		return CoilResult{}, err
	}
	perimeter, width, taper, err := in.perimeter()
	if err != nil {
		return CoilResult{}, err
	}
	mean := perimeter + math.Pi*in.Leg
	area := math.Pi / 4 * in.Wire.Diameter * in.Wire.Diameter
	window := in.Leg * in.Height
	out := CoilResult{WoundCoil: WoundCoil{
		Shape: in.Shape, Turns: in.Turns, Opening: in.Opening, OpeningWidth: width, OpeningTaper: taper, Leg: in.Leg, Height: in.Height,
		Resistance:   copperResistance(area, in.Temperature) * in.Turns * mean,
		Inductance:   wheeler(mean/(2*math.Pi), in.Height, in.Leg, in.Turns),
		CopperMass:   copperDensity * area * in.Turns * mean,
		TurnsThatFit: math.Floor(in.FillFactor * window / area * (1 + 1e-12)),
		MeanTurn:     mean, Section: area, Fill: in.Turns * area / window, Temperature: in.Temperature,
	}}
	out.CurrentDensity, out.Loss = in.Current/area, in.Current*in.Current*out.Resistance
	packingCaution(&out.Cautions, in, out.Fill)
	densityCaution(&out.Cautions, out.CurrentDensity)
	return out, nil
}

// perimeter is that of the opening, with its mean width and how much it widens.
func (in CoilInput) perimeter() (around, width, taper float64, err error) {
	if in.Shape == "round" || in.Shape == "" {
		if field := in.width(); field != "" {
			return 0, 0, 0, &model.Error{Field: field, Summary: "a round coil has a diameter, its opening, and no width",
				Hint: "leave it out, or give shape: \"rectangular\" or \"trapezoid\""}
		}
		return math.Pi * in.Opening, in.Opening, 0, nil
	}
	if in.OpeningWidth == nil {
		return 0, 0, 0, &model.Error{Field: "opening_width", Summary: "a coil that is not round has an opening with a width too",
			Hint: "give opening_width"}
	}
	outer := *in.OpeningWidth
	if in.Shape == "rectangular" {
		return 2 * (in.Opening + outer), outer, 0, nil
	}
	if in.OpeningInnerWidth == nil {
		return 0, 0, 0, &model.Error{Field: "opening_inner_width", Summary: "a trapezoid has a width at its inner end too",
			Hint: "give opening_inner_width, or shape: \"rectangular\""}
	}
	inner := *in.OpeningInnerWidth
	return outer + inner + 2*math.Hypot(in.Opening, (outer-inner)/2), (outer + inner) / 2, outer - inner, nil
}

// width names an input that a round coil has no use for, "" if none is given.
func (in CoilInput) width() string {
	switch {
	case in.OpeningWidth != nil:
		return "opening_width"
	case in.OpeningInnerWidth != nil:
		return "opening_inner_width"
	}
	return ""
}

// wheeler is the inductance of a multilayer coil in henry, all in metres.
func wheeler(radius, length, build, turns float64) float64 {
	const perMetre = 0.8e-6 / 0.0254
	return perMetre * radius * radius * turns * turns / (6*radius + 9*length + 10*build)
}

// squareRoom is how many round wires a window holds in square packing.
func squareRoom(window, overall float64) float64 {
	return math.Floor(window / (overall * overall) * (1 + 1e-12))
}

// packingCaution says when turns take more room than round wire leaves.
func packingCaution(c *model.Cautions, in CoilInput, fill float64) {
	d := in.Wire.Diameter
	over := ptr(in.Wire.OverallDiameter, d+heavyEnamel(d))
	room := squareRoom(in.Leg*in.Height, over)
	switch {
	case in.Turns > room:
		c.Raise(model.Caution{ID: "turns-do-not-fit", Level: model.Warning, Severity: in.Turns - room,
			Summary: "{0} turns do not fit; there is room for {2}.",
			Values:  []model.Value{model.In(in.Turns, "1"), model.In(over*1e3, "mm"), model.In(room, "1")},
			Why:     "The wire is {1} over its enamel; laid by hand, round wire seldom packs tighter than squares. The window may grow.",
			Hint:    "Take fewer, thinner wire, or more room.",
			Source:  "geometry: π/4·(d/D)² of the window is copper in square packing"})
	case fill > handFill:
		c.Raise(model.Caution{ID: "fill-above-hand-winding", Level: model.Advice,
			Summary: "Copper fills {0} of the window; by hand {1} is reached.",
			Values:  []model.Value{model.In(100*fill, "%"), model.In(100*handFill, "%")},
			Hint:    "Wind a trial coil, or fewer turns.",
			Source:  "common practice"})
	}
}

// densityCaution says when a current is more than a small coil bears for long.
func densityCaution(c *model.Cautions, density float64) {
	if density <= densityAdvice {
		return
	}
	level, bound := model.Advice, densityAdvice
	if density > densityHigh {
		level, bound = model.Warning, densityHigh
	}
	c.Raise(model.Caution{ID: "winding-current-density", Level: level,
		Summary: "The wire carries {0}; a small coil bears {1}.",
		Values:  []model.Value{model.In(density/1e6, "A/mm^2"), model.In(bound/1e6, "A/mm^2")},
		Why:     "Small enclosed coils bear 3 to 6 A/mm² for long and about 10 A/mm² for a short run, and coils in parallel share the current; hot windings burn skin and lose their enamel.",
		Hint:    "Take thicker wire; let it cool.",
		Source:  "common practice; IEC 60085 for the classes of insulation; the wire's sheet comes first"})
}
