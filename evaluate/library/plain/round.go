package plain

import "math"

// RoundInput is the input of [Round].
type RoundInput struct {
	X  float64 `dim:"x" help:"of any dimension, if a step of it is given"`
	To float64 `dim:"x" range:"(0,)" default:"1" help:"the step"`
}

// RoundResult is the result of [Round].
type RoundResult struct {
	Value float64 `dim:"x"`
}

// Round is the nearest whole number of steps; halves go away from zero.
//
// Formula: y = to·round(x/to)
//
// Letters: x x; to to; y = result.
//
// Validity: a step above zero; a quotient within 1e-12 of a whole number is that number
// Source: plain arithmetic, worked in IEEE 754 double precision
// Example: turns = round(87.6)
func Round(in RoundInput) (RoundResult, error) {
	y, err := step(in.X, in.To, math.Round)
	return RoundResult{y}, err
}

// FloorInput is the input of [Floor].
type FloorInput struct {
	X  float64 `dim:"x" help:"of any dimension, if a step of it is given"`
	To float64 `dim:"x" range:"(0,)" default:"1" help:"the step"`
}

// FloorResult is the result of [Floor].
type FloorResult struct {
	Value float64 `dim:"x"`
}

// Floor is the greatest whole number of steps that is not above x.
//
// Formula: y = to·floor(x/to)
//
// Letters: x x; to to; y = result.
//
// Validity: a step above zero; a quotient within 1e-12 of a whole number is that number
// Source: plain arithmetic, worked in IEEE 754 double precision
// Example: cells = floor(17 V / 2.7 V)
func Floor(in FloorInput) (FloorResult, error) {
	y, err := step(in.X, in.To, math.Floor)
	return FloorResult{y}, err
}

// CeilInput is the input of [Ceil].
type CeilInput struct {
	X  float64 `dim:"x" help:"of any dimension, if a step of it is given"`
	To float64 `dim:"x" range:"(0,)" default:"1" help:"the step"`
}

// CeilResult is the result of [Ceil].
type CeilResult struct {
	Value float64 `dim:"x"`
}

// Ceil is the least whole number of steps that is not below x.
//
// Formula: y = to·ceil(x/to)
//
// Letters: x x; to to; y = result.
//
// Validity: a step above zero; a quotient within 1e-12 of a whole number is that number
// Source: plain arithmetic, worked in IEEE 754 double precision
// Example: wire = ceil(3.42 m, to: 0.5 m)
func Ceil(in CeilInput) (CeilResult, error) {
	y, err := step(in.X, in.To, math.Ceil)
	return CeilResult{y}, err
}

// nearlyWhole is how near, relative to its size, a quotient is taken for the
// whole number beside it: 0.3/0.1 in binary is 4e-16 short of 3.
const nearlyWhole = 1e-12

// step rounds x to whole steps.
func step(x, to float64, round func(float64) float64) (float64, error) {
	if !(to > 0) {
		return 0, outside("to", "a step must be above 0", "give a step above 0")
	}
	n := x / to
	if whole := math.Round(n); math.Abs(n-whole) <= nearlyWhole*math.Abs(whole) {
		return whole * to, nil
	}
	return round(n) * to, nil
}
