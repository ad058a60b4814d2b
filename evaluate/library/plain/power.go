package plain

import (
	"math"

	"inkwing/evaluate/library/model"
)

// SqrtInput is the input of [Sqrt].
type SqrtInput struct {
	X float64 `dim:"x" range:"[0,)" help:"zero or more, of any dimension"`
}

// SqrtResult is the result of [Sqrt].
type SqrtResult struct {
	Value float64 `dim:"x^1/2"`
}

// Sqrt is the square root.
//
// Formula: y = √x
//
// Letters: x x; y = result.
//
// Validity: x ≥ 0
// Example: v = sqrt(2 * 12 J / 50 F)
func Sqrt(in SqrtInput) (SqrtResult, error) {
	if in.X < 0 {
		return SqrtResult{}, outside("x", "a negative number has no square root", "check the sign of what stands under the root")
	}
	return SqrtResult{math.Sqrt(in.X)}, nil
}

// ExpInput is the input of [Exp].
type ExpInput struct {
	X float64 `unit:"1" help:"the exponent"`
}

// ExpResult is the result of [Exp].
type ExpResult struct {
	Value float64 `unit:"1"`
}

// Exp is the exponential function.
//
// Formula: y = e^x
//
// Letters: x x; y = result.
//
// Validity: x below 709.78, above which the answer is too large for a number
// Example: left = exp(-3 s / 10 s)
func Exp(in ExpInput) (ExpResult, error) {
	y := math.Exp(in.X)
	if math.IsInf(y, 1) && !math.IsInf(in.X, 1) {
		return ExpResult{}, &model.Error{
			Field: "x", Summary: "e to the power {0} is too large for a number", Values: pure(in.X),
			Hint: "an exponent is seldom above 700; check the units of its parts",
		}
	}
	return ExpResult{y}, nil
}

// LnInput is the input of [Ln].
type LnInput struct {
	X float64 `unit:"1" range:"(0,)" help:"above zero; divide by a unit to take the logarithm of a quantity"`
}

// LnResult is the result of [Ln].
type LnResult struct {
	Value float64 `unit:"1"`
}

// Ln is the natural logarithm.
//
// Formula: y = logₑ x
//
// Letters: x x; y = result.
//
// Validity: x > 0
// Example: n = ln(5 V / 2.5 V)
func Ln(in LnInput) (LnResult, error) {
	if err := noLogarithm(in.X); err != nil {
		return LnResult{}, err
	}
	return LnResult{math.Log(in.X)}, nil
}

// Log10Input is the input of [Log10].
type Log10Input struct {
	X float64 `unit:"1" range:"(0,)" help:"above zero; divide by a unit to take the logarithm of a quantity"`
}

// Log10Result is the result of [Log10].
type Log10Result struct {
	Value float64 `unit:"1"`
}

// Log10 is the logarithm to base ten.
//
// Formula: y = log₁₀ x
//
// Letters: x x; y = result.
//
// Validity: x > 0
// Example: decades = log10(1 kΩ / 1 Ω)
func Log10(in Log10Input) (Log10Result, error) {
	if err := noLogarithm(in.X); err != nil {
		return Log10Result{}, err
	}
	return Log10Result{math.Log10(in.X)}, nil
}

func noLogarithm(x float64) error {
	switch {
	case x == 0:
		return outside("x", "zero has no logarithm", "check what makes it zero")
	case x < 0:
		return outside("x", "a negative number has no logarithm", "check its sign")
	}
	return nil
}

// AbsInput is the input of [Abs].
type AbsInput struct {
	X float64 `dim:"x" help:"of any dimension"`
}

// AbsResult is the result of [Abs].
type AbsResult struct {
	Value float64 `dim:"x"`
}

// Abs is the value without its sign.
//
// Formula: y = |x|
//
// Letters: x x; y = result.
//
// Example: off = abs(4.9 V - 5 V)
func Abs(in AbsInput) (AbsResult, error) { return AbsResult{math.Abs(in.X)}, nil }

// outside is the error of a value for which there is no answer.
func outside(field, says, mend string) error {
	return &model.Error{Field: field, Summary: says, Hint: mend}
}

// pure are pure numbers in an error.
func pure(numbers ...float64) []model.Value { return values("1", numbers) }

// own are numbers in the coherent SI unit of the input that the error names.
func own(numbers ...float64) []model.Value { return values("", numbers) }

func values(unit string, numbers []float64) []model.Value {
	all := make([]model.Value, len(numbers))
	for i, x := range numbers {
		all[i] = model.In(x, unit)
	}
	return all
}
