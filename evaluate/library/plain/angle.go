package plain

import (
	"math"

	"inkwing/evaluate/library/model"
)

// SinInput is the input of [Sin].
type SinInput struct {
	X float64 `unit:"rad" help:"an angle, in rad or ° by its unit"`
}

// SinResult is the result of [Sin].
type SinResult struct {
	Value float64 `unit:"1"`
}

// Sin is the sine of an angle.
//
// Formula: y = sin x
//
// Letters: x x; y = result.
//
// Validity: any angle
// Example: lift = 2 N * sin(30°)
func Sin(in SinInput) (SinResult, error) {
	return SinResult{math.Sin(in.X)}, nil
}

// CosInput is the input of [Cos].
type CosInput struct {
	X float64 `unit:"rad" help:"an angle, in rad or ° by its unit"`
}

// CosResult is the result of [Cos].
type CosResult struct {
	Value float64 `unit:"1"`
}

// Cos is the cosine of an angle.
//
// Formula: y = cos x
//
// Letters: x x; y = result.
//
// Validity: any angle
// Example: drop = 2 N * cos(30°)
func Cos(in CosInput) (CosResult, error) {
	return CosResult{math.Cos(in.X)}, nil
}

// TanInput is the input of [Tan].
type TanInput struct {
	X float64 `unit:"rad" help:"an angle, in rad or ° by its unit"`
}

// TanResult is the result of [Tan].
type TanResult struct {
	Value float64 `unit:"1"`
}

// Tan is the tangent of an angle.
//
// Formula: y = tan x = sin x/cos x
//
// Letters: x x; y = result.
//
// Validity: any angle; near 90° the answer is very large
// Example: slope = tan(5°)
func Tan(in TanInput) (TanResult, error) {
	return TanResult{math.Tan(in.X)}, nil
}

// AsinInput is the input of [Asin].
type AsinInput struct {
	X float64 `unit:"1" range:"[-1,1]" help:"the sine"`
}

// AsinResult is the result of [Asin].
type AsinResult struct {
	Value float64 `unit:"rad"`
}

// Asin is the angle of a sine.
//
// Formula: y = arcsin x, from -90° to 90°
//
// Letters: x x; y = result.
//
// Validity: -1 ≤ x ≤ 1
// Example: climb [°] = asin(0.1)
func Asin(in AsinInput) (AsinResult, error) {
	if math.Abs(in.X) > 1 {
		return AsinResult{}, noAngle("sine", in.X)
	}
	return AsinResult{math.Asin(in.X)}, nil
}

// AcosInput is the input of [Acos].
type AcosInput struct {
	X float64 `unit:"1" range:"[-1,1]" help:"the cosine"`
}

// AcosResult is the result of [Acos].
type AcosResult struct {
	Value float64 `unit:"rad"`
}

// Acos is the angle of a cosine.
//
// Formula: y = arccos x, from 0° to 180°
//
// Letters: x x; y = result.
//
// Validity: -1 ≤ x ≤ 1
// Example: bank [°] = acos(0.9)
func Acos(in AcosInput) (AcosResult, error) {
	if math.Abs(in.X) > 1 {
		return AcosResult{}, noAngle("cosine", in.X)
	}
	return AcosResult{math.Acos(in.X)}, nil
}

// AtanInput is the input of [Atan].
type AtanInput struct {
	X float64 `unit:"1" help:"any number"`
}

// AtanResult is the result of [Atan].
type AtanResult struct {
	Value float64 `unit:"rad"`
}

// Atan is the angle of a tangent.
//
// Formula: y = arctan x, from -90° to 90°
//
// Letters: x x; y = result.
//
// Validity: any number
// Example: glide [°] = atan(1 / 12)
func Atan(in AtanInput) (AtanResult, error) {
	return AtanResult{math.Atan(in.X)}, nil
}

// Atan2Input is the input of [Atan2].
type Atan2Input struct {
	Y float64 `dim:"x" help:"the side opposite the angle"`
	X float64 `dim:"x" help:"the side along it, of the same dimension"`
}

// Atan2Result is the result of [Atan2].
type Atan2Result struct {
	Value float64 `unit:"rad"`
}

// Atan2 is the angle of the direction that goes x along and y up.
//
// Formula: φ = arctan(y/x), from -180° to 180°, in the quadrant of x and y
//
// Letters: x x; y y; φ = result.
//
// Validity: x and y are not both zero
// Example: drift [°] = atan2(2 m/s, 9 m/s)
func Atan2(in Atan2Input) (Atan2Result, error) {
	if in.X == 0 && in.Y == 0 {
		return Atan2Result{}, outside("", "y and x are both zero, which is no direction", "check what makes them zero")
	}
	return Atan2Result{math.Atan2(in.Y, in.X)}, nil
}

// noAngle is the error of a sine or cosine beyond 1.
func noAngle(of string, x float64) error {
	return &model.Error{
		Field: "x", Summary: "no angle has the " + of + " {0}: it is between -1 and 1", Values: pure(x),
		Hint: "check which side of the triangle divides which",
	}
}
