package plain

import (
	"slices"

	"inkwing/evaluate/library/internal/line"
	"inkwing/evaluate/library/model"
)

// SlopeInput is the input of [Slope].
type SlopeInput struct {
	Xs []float64 `dim:"x" points:"kept" same:"n" help:"what was set or waited for, such as the time of each reading"`
	Ys []float64 `dim:"y" points:"kept" same:"n" help:"what was read at each"`
}

// SlopeResult is the result of [Slope].
type SlopeResult struct {
	Value float64 `dim:"y/x" estimated:"true"`
	model.Estimate
}

// Slope is how steeply readings rise, by least squares: the slope of fit_line,
// which carries the uncertainty that their scatter shows.
//
// Formula: x̄ = Σ x/n, ȳ = Σ y/n, b = Σ (x − x̄)·(y − ȳ)/Σ (x − x̄)²; u(b) = s/√(Σ (x − x̄)²), with n − 2 degrees of freedom; s as in fit_line
//
// Letters: x xs; y ys; n #xs; b = result.
//
// Validity: three readings or more on a straight line; the scatter is in y, and x is known well
// Source: JCGM 100:2008, H.3
// Example: fall = slope([0 s, 20 s, 40 s, 60 s], [9.21 V, 9.02 V, 8.80 V, 8.61 V])
func Slope(in SlopeInput) (SlopeResult, error) {
	f, err := through(in.Xs, in.Ys, 0)
	if err != nil {
		return SlopeResult{}, err
	}
	return SlopeResult{f.Slope, f.Estimate([2]float64{1, 0})}, nil
}

// FitLineInput is the input of [FitLine].
type FitLineInput struct {
	Xs []float64 `dim:"x" points:"kept" same:"n" help:"what was set or waited for, such as the time of each reading"`
	Ys []float64 `dim:"y" points:"kept" same:"n" help:"what was read at each"`
	At *float64  `dim:"x" points:"kept" help:"where the intercept is read; 0 if left out"`
}

// FitLineResult is the result of [FitLine].
type FitLineResult struct {
	Slope       float64 `dim:"y/x" estimated:"true" show:"1" help:"rise of y by x"`
	Intercept   float64 `dim:"y" points:"kept" estimated:"true" show:"2" help:"y of the line where x is at"`
	Scatter     float64 `dim:"y" show:"3" help:"standard deviation of the readings about the line"`
	Correlation float64 `show:"4" help:"of slope and intercept"`
	Freedom     int     `help:"degrees of freedom: readings less two"`
	model.Estimate
	model.Cautions
}

// FitLine lays a straight line through readings by least squares. Slope and
// intercept carry the uncertainty that the scatter shows, and are correlated:
// what is worked from both takes account of it.
//
// Formula: y = a + b·(x − x0), x0 the place at, with the least s² = Σ (y − a − b·(x − x0))²/(n − 2); x̄ = Σ x/n, ȳ = Σ y/n, b = Σ (x − x̄)·(y − ȳ)/Σ (x − x̄)², a = ȳ − b·(x̄ − x0), s = √(Σ (y − a − b·(x − x0))²/ν), ν = n − 2 degrees of freedom; correlation of a and b r = −(x̄ − x0)/√((x̄ − x0)² + Σ (x − x̄)²/n); their covariance s²·(XᵀX)⁻¹
//
// Letters: x xs; y ys; x0 at; n #xs; a = intercept; b = slope; s = scatter; ν = freedom; r = correlation.
//
// Validity: three readings or more on a straight line; the scatter is in y, and x is known well; the intercept is read near the readings. For temperatures in °C give at: left out, it is absolute zero
// Source: JCGM 100:2008, H.3
// Example: correction = fit_line([21.5 °C, 23.0 °C, 24.5 °C, 26.0 °C], [-0.171 K, -0.159 K, -0.156 K, -0.161 K], at: 20 °C)
func FitLine(in FitLineInput) (FitLineResult, error) {
	at := 0.0
	if in.At != nil {
		at = *in.At
	}
	f, err := through(in.Xs, in.Ys, at)
	if err != nil {
		return FitLineResult{}, err
	}
	out := FitLineResult{
		Slope: f.Slope, Intercept: f.Intercept, Scatter: f.Scatter, Correlation: f.Correlation, Freedom: f.Freedom,
		Estimate: f.Estimate([2]float64{1, 0}, [2]float64{0, 1}),
	}
	if away := farOut(in.Xs, at); away > farthest {
		out.Raise(readFarOut(away))
	}
	return out, nil
}

// through fits the line, or says which column keeps it from being one.
func through(xs, ys []float64, at float64) (line.Fit, error) {
	f, ok := line.Through(xs, ys, at)
	switch {
	case ok:
		return f, nil
	case len(xs) != len(ys):
		return f, &model.Error{
			Field: "ys", Summary: "there are {0} values for {1} in xs",
			Values: pure(float64(len(ys)), float64(len(xs))), Hint: "take both columns from one table",
		}
	case len(xs) < line.Least:
		return f, &model.Error{
			Field: "xs", Summary: "there are {0} readings; a line and its scatter want three", Values: pure(float64(len(xs))),
			Hint: "add a reading",
		}
	}
	return f, outside("xs", "all readings are at one value", "take readings apart from one another")
}

// farthest is how many times the width of its readings a line is followed
// without a word.
const farthest = 5

// farOut is how many widths of the readings x lies outside them.
func farOut(xs []float64, x float64) float64 {
	low, high := slices.Min(xs), slices.Max(xs)
	return max(low-x, x-high) / (high - low)
}

func readFarOut(widths float64) model.Caution {
	return model.Caution{
		ID: "intercept-far-out", Level: model.Advice,
		Summary: "The intercept is {0} widths away from the readings.",
		Values:  pure(widths),
		Why:     "The width is theirs. Its uncertainty holds only if the line stays straight as far as that.",
		Hint:    "Give `at` a value near them.",
		Source:  "common practice",
	}
}
