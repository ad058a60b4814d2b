package plain

import (
	"math"

	"inkwing/evaluate/library/model"
)

// ObservedInput is the input of [Observed].
type ObservedInput struct {
	Values []float64 `dim:"x" points:"kept" rest:"true" help:"repeated readings of one quantity: a list or column, or the values one by one"`
}

// ObservedResult is the result of [Observed].
type ObservedResult struct {
	Value float64 `dim:"x" points:"kept" estimated:"true"`
	model.Estimate
}

// Observed is the mean of repeated readings, which carries the uncertainty that
// their scatter shows. Use mean where values only differ, as cells of a pack do.
//
// Formula: x̄ = Σ x/n; u(x̄) = s/√n, s² = Σ (x − x̄)²/(n − 1), with n − 1 degrees of freedom
//
// Letters: x values; n #values; x̄ = result.
//
// Validity: two readings or more, each taken anew and independent of the others; what is wrong with all of them alike, such as the meter's own error, does not show in the scatter and comes on top
// Source: JCGM 100:2008, 4.2 and 5.2.3 (type A evaluation)
// Example: U_full = observed(12.41 V, 12.39 V, 12.42 V, 12.40 V)
func Observed(in ObservedInput) (ObservedResult, error) {
	n := float64(len(in.Values))
	if n < 2 {
		return ObservedResult{}, &model.Error{
			Field: "values", Summary: "there is {0} reading, which shows no scatter", Values: pure(n),
			Hint: "give two readings or more, or write the one with its ±",
		}
	}
	mean := sum(in.Values) / n
	parts, variance := make([]float64, len(in.Values)), 0.0
	for i, x := range in.Values {
		parts[i] = (x - mean) / math.Sqrt(n*(n-1))
		variance += parts[i] * parts[i]
	}
	return ObservedResult{mean, model.Estimate{Covariance: [][]float64{{variance}}, DegreesOfFreedom: n - 1, Readings: parts}}, nil
}
