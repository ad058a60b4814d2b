package glide

import (
	"math"

	"inkwing/evaluate/library/internal/require"
)

// A PanelRow is a straight-edged piece of one half of a wing.
type PanelRow struct {
	Span  float64 `unit:"mm" range:"(0,)" help:"of the panel, along the half wing"`
	Root  float64 `unit:"mm" range:"(0,)" help:"chord at its inner end"`
	Tip   float64 `unit:"mm" range:"[0,)" help:"chord at its outer end"`
	Sweep float64 `unit:"mm" default:"0 mm" help:"how far the leading edge runs back over the panel"`
}

func (p PanelRow) check(record string) error {
	return require.In(record, require.Positive("span", p.Span, "m"), require.Positive("root", p.Root, "m"),
		require.NotNegative("tip", p.Tip, "m"))
}

// PanelInput is what [Panel] wants.
type PanelInput struct{ PanelRow }

// PanelResult is what [Panel] answers.
type PanelResult struct{ PanelRow }

// Panel is a straight-edged piece of half a wing, for mean_chord, where no table of panels is at hand.
//
// Formula: none.
//
// Validity: straight leading and trailing edges.
//
// Source: definition.
//
// Example:
//
//	tip_panel = panel(200 mm, root: 150 mm, tip: 100 mm, sweep: 25 mm)
func Panel(in PanelInput) (PanelResult, error) { return PanelResult(in), in.check("") }

// MeanChordInput is what [MeanChord] wants.
type MeanChordInput struct {
	Panels []PanelRow `help:"of one half of the wing, from the middle outward: a table with the columns span, root, tip and sweep"`
}

// MeanChordResult is what [MeanChord] answers.
type MeanChordResult struct {
	Length       float64 `unit:"mm" show:"1" help:"mean aerodynamic chord"`
	LeadingEdge  float64 `unit:"mm" show:"2" help:"of the mean chord, behind the leading edge in the middle"`
	QuarterChord float64 `unit:"mm" show:"3" help:"quarter point of the mean chord, behind the leading edge in the middle"`
	Station      float64 `unit:"mm" help:"where the mean chord lies, from the middle"`
	Area         float64 `unit:"dm^2" show:"4" help:"of the whole wing"`
	Span         float64 `unit:"m" show:"5" help:"of the whole wing"`
	AspectRatio  float64 `unit:"1" help:"span² over area"`
}

// MeanChord finds the mean aerodynamic chord of a wing of any number of panels.
//
// Formula: of panels from root to tip, half the wing: S = 2·Σ (s·(r + t)/2), c = 2/S·Σ (s·(r² + r·t + t²)/3), which is (2/S)·∫c² dy, station (2/S)·∫c·y dy, leading edge x = (2/S)·∫c·x dy over the half wing; quarter chord x_q = x_e + c/4; b = 2·Σ s, AR = b²/S.
//
// Letters: s panels.span; r panels.root; t panels.tip; c = length; x_e = leading_edge; x_q = quarter_chord; S = area; b = span; AR = aspect_ratio.
//
// Validity: straight-edged panels, both halves alike; lift spread as the area is.
//
// Source: definition; the trapezoid's closed form is in any textbook of aerodynamics.
//
// Example:
//
//	chord = mean_chord([panel(350 mm, root: 170 mm, tip: 150 mm), panel(200 mm, root: 150 mm, tip: 100 mm, sweep: 25 mm)])
//	c_mean [mm] = chord.length
func MeanChord(in MeanChordInput) (MeanChordResult, error) {
	var half, span, edge, square, station, back float64
	for _, p := range in.Panels {
		if err := p.check("panels"); err != nil {
			return MeanChordResult{}, err
		}
		half += p.Span * (p.Root + p.Tip) / 2
		square += p.product(p.Root, p.Tip)
		station += p.product(span, span+p.Span)
		back += p.product(edge, edge+p.Sweep)
		span, edge = span+p.Span, edge+p.Sweep
	}
	if half == 0 {
		return MeanChordResult{}, require.Positive("panels", half, "m^2")
	}
	c := square / half
	return MeanChordResult{Length: c, LeadingEdge: back / half, QuarterChord: back/half + c/4, Station: station / half,
		Area: 2 * half, Span: 2 * span, AspectRatio: 2 * span * span / half}, nil
}

// product is the integral over the panel of its chord times what runs straight
// from a to b.
func (p PanelRow) product(a, b float64) float64 {
	return p.Span * (2*p.Root*a + 2*p.Tip*b + p.Root*b + p.Tip*a) / 6
}

// ReynoldsInput is what [Reynolds] wants.
type ReynoldsInput struct {
	Speed     float64 `unit:"m/s" range:"(0,)" help:"through the air"`
	Chord     float64 `unit:"mm" range:"(0,)" help:"of the wing or the blade"`
	Density   float64 `unit:"kg/m^3" range:"(0,)" default:"1.225 kg/m^3" help:"of the air"`
	Viscosity float64 `unit:"Pa·s" range:"(0,)" default:"1.78938e-5 Pa·s" help:"of the air"`
}

// ReynoldsResult is what [Reynolds] answers.
type ReynoldsResult struct {
	Number float64 `unit:"1" help:"Reynolds number"`
}

// Reynolds is the Reynolds number of a chord.
//
// Formula: Re = ρ·V·c/μ.
//
// Letters: ρ density; V speed; c chord; μ viscosity; Re = result.
//
// Validity: any; below about 1e5 a section's drag and largest lift depend strongly on it.
//
// Source: definition; air of the U.S. Standard Atmosphere 1976 at sea level if not given.
//
// Example:
//
//	Re = reynolds(8 m/s, 150 mm)
func Reynolds(in ReynoldsInput) (ReynoldsResult, error) {
	if err := require.All(require.Positive("speed", in.Speed, "m/s"), require.Positive("chord", in.Chord, "m"),
		require.Positive("density", in.Density, "kg/m^3"), require.Positive("viscosity", in.Viscosity, "Pa·s")); err != nil {
		return ReynoldsResult{}, err
	}
	return ReynoldsResult{in.Density * in.Speed * in.Chord / in.Viscosity}, nil
}

// LiftSlopeInput is what [LiftSlope] wants.
type LiftSlopeInput struct {
	AspectRatio  float64 `unit:"1" range:"(0,)" help:"of the wing or tail"`
	Efficiency   float64 `unit:"1" range:"(0,1]" default:"1" help:"span efficiency for the slope, 1 for an elliptic wing" symbol:"eta"`
	SectionSlope float64 `unit:"rad^-1" range:"(0,)" default:"6.283185307179586 rad^-1" help:"of the section, 2π a radian in theory"`
}

// LiftSlopeResult is what [LiftSlope] answers.
type LiftSlopeResult struct {
	Slope float64 `unit:"rad^-1" help:"change of lift coefficient with the angle"`
}

// LiftSlope is how fast the lift coefficient of a wing of finite span rises with its angle.
//
// Formula: a = a0/(1 + a0/(π·e·AR)).
//
// Letters: a0 section_slope; e efficiency; AR aspect_ratio; a = result.
//
// Validity: straight wings of aspect ratio above about 4, attached flow.
//
// Source: Prandtl's lifting line; J. D. Anderson, Introduction to Flight, chapter 5.
//
// Example:
//
//	a_wing = lift_slope(7.3, efficiency: 0.95)
func LiftSlope(in LiftSlopeInput) (LiftSlopeResult, error) {
	if err := require.All(require.Positive("aspect_ratio", in.AspectRatio, "1"),
		require.Positive("efficiency", in.Efficiency, "1"),
		require.Positive("section_slope", in.SectionSlope, "rad^-1")); err != nil {
		return LiftSlopeResult{}, err
	}
	return LiftSlopeResult{slope(in.AspectRatio, in.Efficiency, in.SectionSlope)}, nil
}

func slope(aspect, efficiency, section float64) float64 {
	return section / (1 + section/(math.Pi*efficiency*aspect))
}
