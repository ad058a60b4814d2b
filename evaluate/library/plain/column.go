package plain

import (
	"math"
	"slices"
)

// MinInput is the input of [Min].
type MinInput struct {
	Values []float64 `dim:"x" points:"kept" rest:"true" help:"a list or column, or the values one by one"`
}

// MinResult is the result of [Min].
type MinResult struct {
	Value float64 `dim:"x" points:"kept"`
}

// Min is the least of the values.
//
// Formula: y = min(x), of all x
//
// Letters: x values; y = result.
//
// Validity: at least one value
// Source: plain arithmetic, worked in IEEE 754 double precision
// Example: weakest = min(48 F, 51 F, 50 F)
func Min(in MinInput) (MinResult, error) {
	if len(in.Values) == 0 {
		return MinResult{}, noValue("least")
	}
	return MinResult{slices.Min(in.Values)}, nil
}

// MaxInput is the input of [Max].
type MaxInput struct {
	Values []float64 `dim:"x" points:"kept" rest:"true" help:"a list or column, or the values one by one"`
}

// MaxResult is the result of [Max].
type MaxResult struct {
	Value float64 `dim:"x" points:"kept"`
}

// Max is the greatest of the values.
//
// Formula: y = max(x), of all x
//
// Letters: x values; y = result.
//
// Validity: at least one value
// Source: plain arithmetic, worked in IEEE 754 double precision
// Example: peak = max(3 A, 5 A, 4 A)
func Max(in MaxInput) (MaxResult, error) {
	if len(in.Values) == 0 {
		return MaxResult{}, noValue("greatest")
	}
	return MaxResult{slices.Max(in.Values)}, nil
}

// SumInput is the input of [Sum].
type SumInput struct {
	Values []float64 `dim:"x" rest:"true" help:"a list or column, or the values one by one"`
}

// SumResult is the result of [Sum].
type SumResult struct {
	Value float64 `dim:"x"`
}

// Sum adds the values up, keeping the digits that plain addition would lose.
//
// Formula: y = Σ x, with Neumaier's compensation
//
// Letters: x values; y = result.
//
// Validity: any number of values; the sum of none is 0
// Source: A. Neumaier, Zeitschrift für Angewandte Mathematik und Mechanik 54 (1974) 39–51 (from memory)
// Example: mass = sum(12 g, 8 g, 31 g)
func Sum(in SumInput) (SumResult, error) {
	return SumResult{sum(in.Values)}, nil
}

// MeanInput is the input of [Mean].
type MeanInput struct {
	Values []float64 `dim:"x" points:"kept" rest:"true" help:"a list or column, or the values one by one"`
}

// MeanResult is the result of [Mean].
type MeanResult struct {
	Value float64 `dim:"x" points:"kept"`
}

// Mean is the arithmetic mean of the values.
//
// Formula: y = Σ x/n
//
// Letters: x values; n #values; y = result.
//
// Validity: at least one value
// Source: plain arithmetic, worked in IEEE 754 double precision
// Example: typical = mean(48 F, 51 F, 50 F)
func Mean(in MeanInput) (MeanResult, error) {
	if len(in.Values) == 0 {
		return MeanResult{}, noValue("mean")
	}
	return MeanResult{sum(in.Values) / float64(len(in.Values))}, nil
}

// CountInput is the input of [Count].
type CountInput struct {
	Values []float64 `dim:"x" points:"kept" rest:"true" help:"a list or column, or the values one by one"`
}

// CountResult is the result of [Count].
type CountResult struct{ Value int }

// Count is how many values there are.
//
// Formula: n = 1 + … + 1, once a value
//
// Letters: n = result.
//
// Validity: any number of values
// Source: plain counting
// Example: cells = count(48 F, 51 F, 50 F)
func Count(in CountInput) (CountResult, error) { return CountResult{len(in.Values)}, nil }

// sum adds with Neumaier's compensation: what each addition rounds away is kept
// apart and added at the end.
func sum(values []float64) float64 {
	total, lost := 0.0, 0.0
	for _, x := range values {
		t := total + x
		if math.Abs(total) >= math.Abs(x) {
			lost += (total - t) + x
		} else {
			lost += (x - t) + total
		}
		total = t
	}
	if finite(lost) {
		total += lost
	}
	return total
}

// finite keeps the compensation of an infinite sum, which is no number, out.
func finite(x float64) bool { return !math.IsInf(x, 0) && !math.IsNaN(x) }

func noValue(of string) error {
	return outside("values", "there is no value to take the "+of+" of", "give at least one value, or a column with a row")
}
