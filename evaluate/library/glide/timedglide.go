package glide

import (
	"math"
	"slices"

	"inkwing/evaluate/library/internal/line"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// DragFromGlidesInput is what [DragFromGlides] wants.
type DragFromGlidesInput struct {
	Speed   []float64 `unit:"m/s" range:"(0,)" same:"glides" help:"of each glide, along its path through the air"`
	Height  []float64 `unit:"m" range:"(0,)" same:"glides" help:"lost in each glide"`
	Time    []float64 `unit:"s" range:"(0,)" same:"glides" help:"of each glide"`
	Mass    float64   `unit:"g" range:"(0,)" help:"all-up, as it flew" symbol:"m"`
	Area    float64   `unit:"m^2" range:"(0,)" help:"wing area"`
	Span    *float64  `unit:"m" range:"(0,)" help:"wing tip to wing tip, for the span efficiency"`
	Density float64   `unit:"kg/m^3" range:"(0,)" default:"1.225 kg/m^3" help:"of the air, see air"`
}

// DragFromGlidesResult is what [DragFromGlides] answers.
type DragFromGlidesResult struct {
	CD0      float64  `unit:"1" name:"CD0" estimated:"true" show:"1" help:"drag coefficient without lift"`
	UCD0     float64  `unit:"1" name:"u_CD0" show:"2" help:"its standard uncertainty, from the scatter"`
	Induced  float64  `unit:"1" estimated:"true" show:"3" help:"k of CD = CD0 + k·CL²"`
	UInduced float64  `unit:"1" show:"4" help:"its standard uncertainty, from the scatter"`
	Oswald   *float64 `unit:"1" estimated:"true" show:"5" help:"span efficiency"`
	UOswald  *float64 `unit:"1" help:"its standard uncertainty, from the scatter"`
	Scatter  float64  `unit:"1" help:"of the drag coefficients about the line"`
	Freedom  int      `help:"degrees of freedom: glides less two"`
	model.Estimate
	model.Cautions
}

// DragFromGlides finds an airframe's drag from timed glides, by least squares.
//
// Formula: sin γ = h/(t·V); CL = W·cos γ/(q·S), CD = W·sin γ/(q·S), q = ρ·V²/2, W = m·g, g = 9.80665 m/s²; the line CD = CD0 + k·CL² through all glides, γ = asin(h/(t·V)), x = CL², x̄ = Σ x/n, ȳ = Σ CD/n, k = Σ (x − x̄)·(CD − ȳ)/Σ (x − x̄)², CD0 = ȳ − k·x̄, u_k = s_y/√(Σ (x − x̄)²), u_CD0 = s_y·√(1/n + x̄²/Σ (x − x̄)²), s_y = √(Σ (CD − CD0 − k·x)²/ν), ν = n − 2; e = S/(π·k·b²), u_e = e·u_k/k.
//
// Letters: V speed; h height; t time; m mass; S area; b span; ρ density; n #speed; CD0 = CD0; u_CD0 = u_CD0; k = induced; u_k = u_induced; e = oswald; u_e = u_oswald; s_y = scatter; ν = freedom.
//
// Validity: steady glides in still air, at speeds that differ, above the stall; each of the same weight. The error of speed and time common to all glides is not in the scatter and comes on top.
//
// Source: J. D. Anderson, Introduction to Flight, chapter 6; JCGM 100:2008, H.3 for the line and its uncertainties.
//
// Example:
//
//	v = [6.0 m/s, 7.0 m/s, 8.5 m/s, 10.0 m/s]
//	h = [10 m, 10 m, 10 m, 10 m]
//	t = [18.2 s, 16.1 s, 11.4 s, 7.8 s]
//	drag = drag_from_glides(v, h, t, mass: 390 g, area: 0.165 m^2, span: 1.10 m)
func DragFromGlides(in DragFromGlidesInput) (DragFromGlidesResult, error) {
	if err := in.check(); err != nil {
		return DragFromGlidesResult{}, err
	}
	squares, drags, err := in.coefficients()
	if err != nil {
		return DragFromGlidesResult{}, err
	}
	out, err := in.throughLine(squares, drags)
	if err != nil {
		return DragFromGlidesResult{}, err
	}
	if !(out.CD0 > 0 && out.Induced > 0) {
		out.Raise(model.Caution{ID: "drag-not-resolved", Level: model.Warning,
			Summary: "The glides give CD0 {0} and k {1}, one below zero.", Values: []model.Value{model.In(out.CD0, "1"), model.In(out.Induced, "1")},
			Why: "Neither can be. Their scatter is larger than what they show; fly in still air.", Hint: "Fly more glides, at more speeds.", Source: "common practice"})
	}
	Flying(&out.Cautions)
	return out, nil
}

func (in DragFromGlidesInput) check() error {
	bounds := []error{require.Positive("mass", in.Mass, "kg"), require.Positive("area", in.Area, "m^2"), require.Positive("density", in.Density, "kg/m^3")}
	if in.Span != nil {
		bounds = append(bounds, require.Positive("span", *in.Span, "m"))
	}
	n := len(in.Speed)
	if n < 3 || len(in.Height) != n || len(in.Time) != n {
		return &model.Error{Field: "speed", Summary: "{0} speeds, {1} heights and {2} times: a line and its scatter want three glides or more",
			Values: []model.Value{model.In(float64(n), "1"), model.In(float64(len(in.Height)), "1"), model.In(float64(len(in.Time)), "1")},
			Hint:   "give speed, height and time of each glide"}
	}
	for i := range in.Speed {
		bounds = append(bounds, require.Positive("speed", in.Speed[i], "m/s"),
			require.Positive("height", in.Height[i], "m"), require.Positive("time", in.Time[i], "s"))
	}
	if err := require.All(bounds...); err != nil {
		return err
	}
	if slices.Max(in.Speed) < 1.01*slices.Min(in.Speed) {
		return &model.Error{Field: "speed", Summary: "all glides were flown at {0}, so that CD0 and k cannot be told apart",
			Values: []model.Value{model.In(in.Speed[0], "m/s")}, Hint: "glide at speeds that differ, from just above the stall to twice its speed"}
	}
	return nil
}

// coefficients are CL² and CD of each glide.
func (in DragFromGlidesInput) coefficients() (squares, drags []float64, err error) {
	for i, v := range in.Speed {
		sine := in.Height[i] / (in.Time[i] * v)
		if sine >= 1 {
			return nil, nil, &model.Error{Field: "height", Summary: "{0} in {1} is faster down than {2} along the path",
				Values: []model.Value{model.In(in.Height[i], "m"), model.In(in.Time[i], "s"), model.In(v, "m/s")}, Hint: "check speed, height and time of this glide"}
		}
		load := in.Mass * gravity / (0.5 * in.Density * v * v * in.Area)
		squares = append(squares, load*load*(1-sine*sine))
		drags = append(drags, load*sine)
	}
	return squares, drags, nil
}

// throughLine fits CD = CD0 + k·CL² (JCGM 100:2008, H.3). A span efficiency that
// is not known has no variance.
func (in DragFromGlidesInput) throughLine(squares, drags []float64) (DragFromGlidesResult, error) {
	fit, ok := line.Through(squares, drags, 0)
	if !ok {
		return DragFromGlidesResult{}, &model.Error{Field: "speed", Summary: "all glides have one lift coefficient, so that CD0 and k cannot be told apart",
			Hint: "glide at speeds that differ, from just above the stall to twice its speed"}
	}
	out := DragFromGlidesResult{CD0: fit.Intercept, Induced: fit.Slope, Scatter: fit.Scatter, Freedom: fit.Freedom}
	efficiency := [2]float64{}
	if in.Span != nil && out.Induced > 0 {
		e := 1 / (math.Pi * out.Induced * *in.Span * *in.Span / in.Area)
		efficiency[0] = -e / out.Induced
		out.Oswald = &e
	}
	out.Estimate = fit.Estimate([2]float64{0, 1}, [2]float64{1, 0}, efficiency)
	out.UCD0, out.UInduced = math.Sqrt(out.Covariance[0][0]), math.Sqrt(out.Covariance[1][1])
	if out.Oswald != nil {
		u := math.Sqrt(out.Covariance[2][2])
		out.UOswald = &u
	}
	return out, nil
}
