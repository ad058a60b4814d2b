package plain

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// TestInverses goes there and back: an angle's function and its inverse, a
// root and its square, a logarithm and its power.
func TestInverses(t *testing.T) {
	for x := -1.5; x <= 1.5; x += 0.0625 {
		s, c, tan := kit.Must(Sin(SinInput{x}))(t).Value, kit.Must(Cos(CosInput{x}))(t).Value, kit.Must(Tan(TanInput{x}))(t).Value
		kit.Near(t, "sin² + cos²", s*s+c*c, 1, 1e-13)
		kit.Near(t, "tan·cos", tan*c, s, 1e-13)
		kit.Near(t, "asin sin", kit.Must(Asin(AsinInput{s}))(t).Value, x, 1e-13)
		kit.Near(t, "acos cos", kit.Must(Acos(AcosInput{c}))(t).Value, math.Abs(x), 1e-13)
		kit.Near(t, "atan tan", kit.Must(Atan(AtanInput{tan}))(t).Value, x, 1e-13)
		kit.Near(t, "atan2", kit.Must(Atan2(Atan2Input{Y: 7 * s, X: 7 * c}))(t).Value, x, 1e-13)
		root := kit.Must(Sqrt(SqrtInput{x * x}))(t).Value
		kit.Near(t, "root of a square", root, kit.Must(Abs(AbsInput{x}))(t).Value, 1e-13)
	}
	power := 1.0
	for n := range 16 {
		kit.Near(t, "log10 of a power", kit.Must(Log10(Log10Input{power}))(t).Value, float64(n), 1e-13)
		power *= 10
	}
}

// TestColumnsBySorting takes least, greatest, mean and count by other ways.
func TestColumnsBySorting(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 42))
	for n := 1; n < 40; n++ {
		var values []float64
		for range n {
			values = append(values, float64(r.IntN(1000)))
		}
		sorted := slices.Sorted(slices.Values(values))
		kit.Near(t, "min", kit.Must(Min(MinInput{values}))(t).Value, sorted[0], 1e-13)
		kit.Near(t, "max", kit.Must(Max(MaxInput{values}))(t).Value, sorted[n-1], 1e-13)
		mean := 0.0
		for i, v := range sorted {
			mean += (v - mean) / float64(i+1)
		}
		kit.Near(t, "mean", kit.Must(Mean(MeanInput{values}))(t).Value, mean, 1e-13)
		kit.Near(t, "count", float64(kit.Must(Count(CountInput{values}))(t).Value), float64(len(sorted)), 1e-13)
	}
}

// TestRoundIsTheNearer of floor and ceil.
func TestRoundIsTheNearer(t *testing.T) {
	r := rand.New(rand.NewPCG(43, 44))
	for range 500 {
		x := 100*r.Float64() - 50
		low, high := kit.Must(Floor(FloorInput{x, 0.25}))(t).Value, kit.Must(Ceil(CeilInput{x, 0.25}))(t).Value
		want := high
		if x-low < high-x {
			want = low
		}
		kit.Near(t, "round", kit.Must(Round(RoundInput{x, 0.25}))(t).Value, want, 1e-13)
	}
}
