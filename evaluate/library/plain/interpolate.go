package plain

import (
	"sort"

	"inkwing/evaluate/library/model"
)

// InterpolateInput is the input of [Interpolate].
type InterpolateInput struct {
	X  float64   `dim:"x" points:"kept" help:"where to read the table"`
	Xs []float64 `dim:"x" points:"kept" same:"n" help:"a column of the table, rising"`
	Ys []float64 `dim:"y" points:"kept" same:"n" help:"the column to read from"`
}

// InterpolateResult is the result of [Interpolate].
type InterpolateResult struct {
	Value float64 `dim:"y" points:"kept"`
}

// Interpolate reads a table between its rows, along straight lines. It never
// reads beyond the first and last row.
//
// Formula: y = yᵢ + (yᵢ₊₁ − yᵢ)·(x − xᵢ)/(xᵢ₊₁ − xᵢ), with xᵢ ≤ x ≤ xᵢ₊₁
//
// Letters: x x; y = result.
//
// Validity: xs rise from row to row; x is within them
// Source: linear interpolation, NIST Digital Library of Mathematical Functions 3.3
// Example: thrust = interpolate(2.5 V, [2 V, 3 V], [0.4 N, 0.9 N])
func Interpolate(in InterpolateInput) (InterpolateResult, error) {
	if err := readable(in); err != nil {
		return InterpolateResult{}, err
	}
	last := len(in.Xs) - 1
	if !(in.Xs[0] <= in.X && in.X <= in.Xs[last]) {
		return InterpolateResult{}, &model.Error{
			Field: "x", Summary: "{0} is outside the table, which runs from {1} to {2}",
			Values: own(in.X, in.Xs[0], in.Xs[last]),
			Hint:   "stay within the table, or add rows that reach so far",
		}
	}
	i := max(sort.SearchFloat64s(in.Xs, in.X), 1)
	part := (in.X - in.Xs[i-1]) / (in.Xs[i] - in.Xs[i-1])
	// This form hits both ends exactly.
	return InterpolateResult{in.Ys[i-1]*(1-part) + in.Ys[i]*part}, nil
}

// readable says what keeps the columns from being read as a table.
func readable(in InterpolateInput) error {
	switch {
	case len(in.Xs) != len(in.Ys):
		return &model.Error{
			Field: "ys", Summary: "there are {0} values for {1} in xs",
			Values: pure(float64(len(in.Ys)), float64(len(in.Xs))), Hint: "take both columns from one table",
		}
	case len(in.Xs) < 2:
		return outside("xs", "a table to read between needs two rows", "add a row")
	}
	for i := 1; i < len(in.Xs); i++ {
		if !(in.Xs[i-1] < in.Xs[i]) {
			return &model.Error{
				Field: "xs", Summary: "it does not rise from {0} to {1}",
				Values: own(in.Xs[i-1], in.Xs[i]), Hint: "put the rows in rising order, each value once",
			}
		}
	}
	return nil
}
