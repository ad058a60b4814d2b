package glide

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// TailVolumeInput is what [TailVolume] wants.
type TailVolumeInput struct {
	Area     float64  `unit:"dm^2" range:"(0,)" help:"of the tail surface"`
	Arm      float64  `unit:"mm" range:"(0,)" help:"from the wing's quarter chord to the tail's"`
	WingArea float64  `unit:"dm^2" range:"(0,)" help:"of the wing"`
	Chord    *float64 `unit:"mm" range:"(0,)" choose:"length" help:"mean chord of the wing, for a tailplane"`
	Span     *float64 `unit:"m" range:"(0,)" choose:"length" help:"of the wing, for a fin"`
}

// TailVolumeResult is what [TailVolume] answers.
type TailVolumeResult struct {
	Volume float64 `unit:"1" help:"tail volume coefficient"`
	model.Cautions
}

// TailVolume is the tail volume coefficient: of a tailplane with the wing's chord, of a fin with its span.
//
// Formula: V = S_tail·l/(S_wing·c), or with the span V = S_tail·l/(S_wing·b).
//
// Letters: S_tail area; l arm; S_wing wing_area; c chord; b span; V = result.
//
// Validity: the arm from quarter chord to quarter chord, as model builders take it; textbooks take it from the centre of gravity. Usual: 0.3 to 0.7 for a tailplane, 0.02 to 0.06 for a fin.
//
// Source: definition; J. D. Anderson, Introduction to Flight, chapter 7. The usual ranges: common practice.
//
// Example:
//
//	V_h = tail_volume(area: 2.6 dm^2, arm: 480 mm, wing_area: 16.5 dm^2, chord: 150 mm)
func TailVolume(in TailVolumeInput) (TailVolumeResult, error) {
	if err := require.All(require.Positive("area", in.Area, "m^2"), require.Positive("arm", in.Arm, "m"),
		require.Positive("wing_area", in.WingArea, "m^2")); err != nil {
		return TailVolumeResult{}, err
	}
	name, length, low, high := "chord", in.Chord, 0.3, 0.7
	if length == nil {
		name, length, low, high = "span", in.Span, 0.02, 0.06
	}
	if length == nil {
		return TailVolumeResult{}, &model.Error{Field: "chord", Summary: "nothing says which length of the wing to take", Hint: "give chord for a tailplane, span for a fin"}
	}
	if err := require.Positive(name, *length, "m"); err != nil {
		return TailVolumeResult{}, err
	}
	out := TailVolumeResult{Volume: in.Area * in.Arm / (in.WingArea * *length)}
	if out.Volume < low || out.Volume > high {
		out.Raise(model.Caution{ID: "unusual-tail-volume", Level: model.Advice, Severity: max(low/out.Volume, out.Volume/high),
			Summary: "A tail volume of {0} is outside {1} to {2}.",
			Values:  []model.Value{model.In(out.Volume, "1"), model.In(low, "1"), model.In(high, "1")},
			Why:     "Those are the usual ones. A small tail steadies little, a large one is weight at the wrong end.",
			Hint:    "Check that area and arm are its own.", Source: "common practice"})
	}
	return out, nil
}

// NeutralPointInput is what [NeutralPoint] wants.
type NeutralPointInput struct {
	TailVolume        float64  `unit:"1" range:"[0,)" help:"of the tailplane, see tail_volume"`
	AspectRatio       *float64 `unit:"1" range:"(0,)" choose:"wing" help:"of the wing"`
	WingSlope         *float64 `unit:"rad^-1" range:"(0,)" choose:"wing" help:"of the wing's lift, if known"`
	TailAspectRatio   *float64 `unit:"1" range:"(0,)" choose:"tail" help:"of the tailplane"`
	TailSlope         *float64 `unit:"rad^-1" range:"(0,)" choose:"tail" help:"of the tailplane's lift, if known"`
	Downwash          *float64 `unit:"1" range:"[0,1)" help:"its change with the wing's angle; 2a/(π·AR) if not given"`
	TailEfficiency    float64  `unit:"1" range:"(0,1]" default:"0.9" help:"dynamic pressure at the tail over that at the wing"`
	AerodynamicCentre float64  `unit:"%" default:"25 %" help:"of wing and body, as a share of the mean chord"`
}

// NeutralPointResult is what [NeutralPoint] answers.
type NeutralPointResult struct {
	NeutralPoint float64 `unit:"%" help:"of the mean chord, from its leading edge"`
}

// NeutralPoint is where the centre of gravity would leave the model indifferent in pitch.
//
// Formula: hn = h_ac + η·V·(a_t/a)·(1 − ε), slopes a = 2·π/(1 + 2/AR), a_t = 2·π/(1 + 2/AR_t), downwash ε = 2·a/(π·AR).
//
// Letters: V tail_volume; AR aspect_ratio; a wing_slope; AR_t tail_aspect_ratio; a_t tail_slope; ε downwash; η tail_efficiency; h_ac aerodynamic_centre; hn = result.
//
// Validity: controls held, propeller left out; a thick or long nose moves it forward.
//
// Source: J. D. Anderson, Introduction to Flight, chapter 7; tail efficiency 0.9: common practice.
//
// Example:
//
//	hn = neutral_point(0.50, aspect_ratio: 7.3, tail_aspect_ratio: 4.0)
func NeutralPoint(in NeutralPointInput) (NeutralPointResult, error) {
	if err := require.All(require.NotNegative("tail_volume", in.TailVolume, "1"),
		require.Positive("tail_efficiency", in.TailEfficiency, "1")); err != nil {
		return NeutralPointResult{}, err
	}
	wing, err := slopeOf("aspect_ratio", in.AspectRatio, "wing_slope", in.WingSlope)
	if err != nil {
		return NeutralPointResult{}, err
	}
	tail, err := slopeOf("tail_aspect_ratio", in.TailAspectRatio, "tail_slope", in.TailSlope)
	if err != nil {
		return NeutralPointResult{}, err
	}
	down, err := in.downwash(wing)
	if err != nil {
		return NeutralPointResult{}, err
	}
	return NeutralPointResult{in.AerodynamicCentre + in.TailEfficiency*in.TailVolume*tail/wing*(1-down)}, nil
}

// slopeOf is the slope given, or that of the aspect ratio.
func slopeOf(aspectName string, aspect *float64, name string, given *float64) (float64, error) {
	switch {
	case given != nil:
		return *given, require.Positive(name, *given, "rad^-1")
	case aspect != nil:
		return slope(*aspect, 1, 2*math.Pi), require.Positive(aspectName, *aspect, "1")
	}
	return 0, &model.Error{Field: aspectName, Summary: "nothing says how its lift rises with the angle", Hint: "give " + aspectName + " or " + name}
}

func (in NeutralPointInput) downwash(wing float64) (float64, error) {
	switch {
	case in.Downwash != nil:
		return *in.Downwash, require.NotNegative("downwash", *in.Downwash, "1")
	case in.AspectRatio != nil:
		return 2 * wing / (math.Pi * *in.AspectRatio), nil
	}
	return 0, &model.Error{Field: "downwash", Summary: "the downwash at the tail is not known",
		Hint: "give downwash, or aspect_ratio instead of wing_slope"}
}

// StaticMarginInput is what [StaticMargin] wants.
type StaticMarginInput struct {
	NeutralPoint float64 `unit:"%" help:"of the mean chord"`
	Centre       float64 `unit:"%" help:"of gravity, of the mean chord"`
}

// StaticMarginResult is what [StaticMargin] answers.
type StaticMarginResult struct {
	Margin float64 `unit:"%" help:"of the mean chord; positive is stable"`
	model.Cautions
}

// leastMargin is the static margin under which a model is hard to fly.
const leastMargin = 0.05

// StaticMargin is how far the centre of gravity lies before the neutral point.
//
// Formula: margin x = hn − h.
//
// Letters: hn neutral_point; h centre; x = result.
//
// Validity: as the neutral point's; 5 % to 15 % is usual for a model glider.
//
// Source: J. D. Anderson, Introduction to Flight, chapter 7; the usual range: common practice.
//
// Example:
//
//	margin = static_margin(neutral_point: 52 %, centre: 40 %)
func StaticMargin(in StaticMarginInput) (StaticMarginResult, error) {
	out := StaticMarginResult{Margin: in.NeutralPoint - in.Centre}
	if out.Margin >= leastMargin {
		return out, nil
	}
	c := model.Caution{ID: "static-margin-short", Level: model.Warning,
		Summary: "The centre of gravity is {0} before the neutral point, under {1}.",
		Values:  []model.Value{model.In(100*out.Margin, "%"), model.In(100*leastMargin, "%")},
		Why:     "In parts of the chord, of which {1} is little. The model answers a gust or the stick with ever more of it; a larger tailplane helps, too.",
		Hint:    "Move mass forward.", Source: "common practice"}
	if out.Margin < 0 {
		c.ID, c.Level, c.Summary = "unstable", model.Danger, "The centre of gravity is behind the neutral point: {0}."
	}
	out.Raise(c)
	return out, nil
}
