package plain

import (
	"errors"
	"math"
	"math/big"
	"slices"
	"strings"
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/model"
)

// tolerance is how far a worked value may be off a published one of 16 digits.
const tolerance = 4e-16

// TestPublished has values of the NIST Digital Library of Mathematical
// Functions (from memory): e in 4.2.11, ln 10 in 4.2.16, angles in table 4.17.1.
func TestPublished(t *testing.T) {
	kit.Near(t, "sqrt 2", kit.Must(Sqrt(SqrtInput{2}))(t).Value, 1.414213562373095, tolerance)
	kit.Near(t, "exp 1", kit.Must(Exp(ExpInput{1}))(t).Value, 2.718281828459045, tolerance)
	kit.Near(t, "ln 10", kit.Must(Ln(LnInput{10}))(t).Value, 2.302585092994046, tolerance)
	kit.Near(t, "log10 1000", kit.Must(Log10(Log10Input{1000}))(t).Value, 3, tolerance)
	kit.Near(t, "sin 30°", kit.Must(Sin(SinInput{math.Pi / 6}))(t).Value, 0.5, tolerance)
	kit.Near(t, "cos 30°", kit.Must(Cos(CosInput{math.Pi / 6}))(t).Value, 0.8660254037844386, tolerance)
	kit.Near(t, "tan 60°", kit.Must(Tan(TanInput{math.Pi / 3}))(t).Value, 1.732050807568877, tolerance)
	kit.Near(t, "asin -1/2", kit.Must(Asin(AsinInput{-0.5}))(t).Value, -math.Pi/6, tolerance)
	kit.Near(t, "acos -1", kit.Must(Acos(AcosInput{-1}))(t).Value, math.Pi, tolerance)
	kit.Near(t, "atan 1", kit.Must(Atan(AtanInput{1}))(t).Value, math.Pi/4, tolerance)
	kit.Near(t, "atan2(3, -3)", kit.Must(Atan2(Atan2Input{Y: 3, X: -3}))(t).Value, 3*math.Pi/4, tolerance)
	kit.Near(t, "abs -4", kit.Must(Abs(AbsInput{-4}))(t).Value, 4, tolerance)
}

// TestSeries works exp and sin by their power series (DLMF 4.2.19, 4.19.1),
// another route than the functions take.
func TestSeries(t *testing.T) {
	for x := -3.0; x <= 3; x += 0.37 {
		exp, sin, term := 0.0, 0.0, 1.0
		for n := range 60 {
			exp += term
			sin += term * []float64{0, 1, 0, -1}[n%4]
			term *= x / float64(n+1)
		}
		got := kit.Must(Exp(ExpInput{x}))(t).Value
		if math.Abs(got-exp) > 1e-14*max(1, exp) {
			t.Errorf("exp %v = %v, series %v", x, got, exp)
		}
		if got := kit.Must(Sin(SinInput{x}))(t).Value; math.Abs(got-sin) > 1e-14 {
			t.Errorf("sin %v = %v, series %v", x, got, sin)
		}
		back := kit.Must(Ln(LnInput{got}))(t).Value
		if math.Abs(back-x) > 1e-14 {
			t.Errorf("ln exp %v = %v", x, back)
		}
	}
}

func failing[T any](_ T, err error) error { return err }

func TestNoAnswer(t *testing.T) {
	for _, c := range []struct {
		err         error
		field, says string
	}{
		{failing(Sqrt(SqrtInput{-1})), "x", "a negative number has no square root"},
		{failing(Exp(ExpInput{710})), "x", "e to the power 710 1 is too large"},
		{failing(Ln(LnInput{0})), "x", "zero has no logarithm"},
		{failing(Log10(Log10Input{-1})), "x", "a negative number has no logarithm"},
		{failing(Asin(AsinInput{1.2})), "x", "no angle has the sine"},
		{failing(Acos(AcosInput{-1.2})), "x", "no angle has the cosine"},
		{failing(Atan2(Atan2Input{})), "", "y and x are both zero"},
		{failing(Min(MinInput{})), "values", "no value to take the least of"},
		{failing(Max(MaxInput{})), "values", "no value to take the greatest of"},
		{failing(Mean(MeanInput{})), "values", "no value to take the mean of"},
		{failing(Round(RoundInput{1, 0})), "to", "a step must be above 0"},
		{failing(Interpolate(InterpolateInput{1, []float64{0, 1}, []float64{1}})), "ys", "there are 1 1 values for 2 1 in xs"},
		{failing(Interpolate(InterpolateInput{1, []float64{1}, []float64{1}})), "xs", "needs two rows"},
		{failing(Interpolate(InterpolateInput{1, []float64{0, 2, 2}, []float64{1, 2, 3}})), "xs", "it does not rise from 2"},
		{failing(Interpolate(InterpolateInput{math.NaN(), []float64{0, 2}, []float64{1, 2}})), "x", "outside the table"},
	} {
		var fault *model.Error
		if !errors.As(c.err, &fault) || fault.Field != c.field || !strings.Contains(c.err.Error(), c.says) || fault.Hint == "" {
			t.Errorf("%v, want %q for %q", c.err, c.says, c.field)
		}
	}
}

// TestSum: compensated summation keeps the 2 that plain addition loses
// (Neumaier 1974, his example).
func TestSum(t *testing.T) {
	for _, c := range []struct {
		values []float64
		want   float64
	}{
		{[]float64{1, 1e100, 1, -1e100}, 2},
		{slices.Repeat([]float64{0.1}, 10), 1},
		{nil, 0},
		{[]float64{math.Inf(1), 1}, math.Inf(1)},
	} {
		if got := kit.Must(Sum(SumInput{c.values}))(t).Value; got != c.want {
			t.Errorf("sum %v = %v, want %v", c.values, got, c.want)
		}
	}
}

func TestColumns(t *testing.T) {
	values := []float64{48, 51, 50, 47}
	if got := kit.Must(Mean(MeanInput{values}))(t).Value; got != 49 {
		t.Errorf("mean = %v", got)
	}
	if got := kit.Must(Min(MinInput{values}))(t).Value; got != 47 {
		t.Errorf("min = %v", got)
	}
	if got := kit.Must(Max(MaxInput{values}))(t).Value; got != 51 {
		t.Errorf("max = %v", got)
	}
	if got := kit.Must(Count(CountInput{values}))(t).Value; got != 4 {
		t.Errorf("count = %v", got)
	}
}

func TestSteps(t *testing.T) {
	for _, c := range []struct{ x, to, round, floor, ceil float64 }{
		{2.5, 1, 3, 2, 3},
		{-2.5, 1, -3, -3, -2},
		{0.3, 0.1, 0.3, 0.3, 0.3}, // 0.3/0.1 is just below 3 in binary
		{3.42, 0.5, 3.5, 3, 3.5},
		{87.6, 10, 90, 80, 90},
		{0, 1, 0, 0, 0},
	} {
		kit.Near(t, "round", kit.Must(Round(RoundInput{c.x, c.to}))(t).Value, c.round, tolerance)
		kit.Near(t, "floor", kit.Must(Floor(FloorInput{c.x, c.to}))(t).Value, c.floor, tolerance)
		kit.Near(t, "ceil", kit.Must(Ceil(CeilInput{c.x, c.to}))(t).Value, c.ceil, tolerance)
	}
}

// TestInterpolate reads the cubes of 0 to 3 along straight lines, by hand:
// 1 + (8−1)/2 = 4.5 and 8 + (27−8)/4 = 12.75; and a straight line, which
// linear interpolation gives back.
func TestInterpolate(t *testing.T) {
	xs, ys := []float64{0, 1, 2, 3}, []float64{0, 1, 8, 27}
	for x, want := range map[float64]float64{1.5: 4.5, 2.25: 12.75, 0: 0, 1: 1, 3: 27} {
		if got := kit.Must(Interpolate(InterpolateInput{x, xs, ys}))(t).Value; got != want {
			t.Errorf("at %v: %v, want %v", x, got, want)
		}
	}
	for x := 0.0; x <= 3; x += 0.1 {
		line := []float64{5, 3, 1, -1}
		kit.Near(t, "a line", kit.Must(Interpolate(InterpolateInput{x, xs, line}))(t).Value, 5-2*x, tolerance)
	}
	for _, x := range []float64{-0.001, 3.001} {
		_, err := Interpolate(InterpolateInput{x, xs, ys})
		var fault *model.Error
		if !errors.As(err, &fault) || len(fault.Values) != 3 || fault.Values[1].Number != 0 || fault.Values[2].Number != 3 {
			t.Errorf("at %v: %v, want an error that names 0 to 3", x, err)
		}
	}
}

// FuzzInterpolate: what is read stays between its neighbours.
func FuzzInterpolate(f *testing.F) {
	f.Add(0.5, 1.0, 2.0, 3.0, 4.0)
	f.Fuzz(func(t *testing.T, x, x1, x2, y1, y2 float64) {
		out, err := Interpolate(InterpolateInput{x, []float64{x1, x2}, []float64{y1, y2}})
		if err != nil || math.IsNaN(y1+y2) || math.IsInf(x2-x1, 0) || math.Abs(y1) > 1e300 || math.Abs(y2) > 1e300 {
			return
		}
		slack := 1e-15 * max(math.Abs(y1), math.Abs(y2))
		if out.Value < min(y1, y2)-slack || out.Value > max(y1, y2)+slack {
			t.Errorf("%v at %v lies outside %v to %v", out.Value, x, y1, y2)
		}
	})
}

// FuzzSum: a sum of four is as near the exact one (math/big) as its terms allow.
func FuzzSum(f *testing.F) {
	f.Add(1.0, 1e100, 1.0, -1e100)
	f.Fuzz(func(t *testing.T, a, b, c, d float64) {
		exact := new(big.Float).SetPrec(2200)
		total := 0.0
		for _, x := range []float64{a, b, c, d} {
			if math.IsNaN(x) || math.Abs(x) > 1e300 {
				return
			}
			exact.Add(exact, new(big.Float).SetFloat64(x))
			total += math.Abs(x)
		}
		want, _ := exact.Float64()
		got, _ := Sum(SumInput{[]float64{a, b, c, d}})
		// Compensation leaves an error of the order of eps² of the terms.
		if math.Abs(got.Value-want) > 3e-16*math.Abs(want)+1e-30*total {
			t.Errorf("sum %v %v %v %v = %v, want %v", a, b, c, d, got.Value, want)
		}
	})
}

// FuzzSteps: floor and ceil are at most a step apart, with x between them.
func FuzzSteps(f *testing.F) {
	f.Add(0.3, 0.1)
	f.Fuzz(func(t *testing.T, x, to float64) {
		low, err := Floor(FloorInput{x, to})
		high, _ := Ceil(CeilInput{x, to})
		if err != nil || math.IsNaN(x) || math.Abs(x/to) > 1e12 || math.Abs(x) > 1e300 || to > 1e300 || to < 1e-300 {
			return
		}
		slack := 1e-11 * max(math.Abs(x), to)
		if low.Value > x+slack || high.Value < x-slack || high.Value-low.Value > to+slack {
			t.Errorf("%v by %v: %v to %v", x, to, low.Value, high.Value)
		}
	})
}
