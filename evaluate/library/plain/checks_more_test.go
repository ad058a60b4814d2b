package plain

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// TestInverses goes there and back: an angle's function and its inverse, a
// root and its square, a logarithm and its power.
func TestInverses(t *testing.T) {
	for x := -1.5; x <= 1.5; x += 0.0625 {
		s, c, tan := worked[SinResult](t)(Sin(SinInput{x})).Value, worked[CosResult](t)(Cos(CosInput{x})).Value, worked[TanResult](t)(Tan(TanInput{x})).Value
		within(t, "sin² + cos²", s*s+c*c, 1)
		within(t, "tan·cos", tan*c, s)
		within(t, "asin sin", worked[AsinResult](t)(Asin(AsinInput{s})).Value, x)
		within(t, "acos cos", worked[AcosResult](t)(Acos(AcosInput{c})).Value, math.Abs(x))
		within(t, "atan tan", worked[AtanResult](t)(Atan(AtanInput{tan})).Value, x)
		within(t, "atan2", worked[Atan2Result](t)(Atan2(Atan2Input{Y: 7 * s, X: 7 * c})).Value, x)
		root := worked[SqrtResult](t)(Sqrt(SqrtInput{x * x})).Value
		within(t, "root of a square", root, worked[AbsResult](t)(Abs(AbsInput{x})).Value)
	}
	power := 1.0
	for n := range 16 {
		within(t, "log10 of a power", worked[Log10Result](t)(Log10(Log10Input{power})).Value, float64(n))
		power *= 10
	}
}

// within compares where steep inverses cost a few digits.
func within(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-13*max(1, math.Abs(want)) {
		t.Errorf("%s = %.17g, want %.17g", what, got, want)
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
		within(t, "min", worked[MinResult](t)(Min(MinInput{values})).Value, sorted[0])
		within(t, "max", worked[MaxResult](t)(Max(MaxInput{values})).Value, sorted[n-1])
		mean := 0.0
		for i, v := range sorted {
			mean += (v - mean) / float64(i+1)
		}
		within(t, "mean", worked[MeanResult](t)(Mean(MeanInput{values})).Value, mean)
		within(t, "count", float64(worked[CountResult](t)(Count(CountInput{values})).Value), float64(len(sorted)))
	}
}

// TestRoundIsTheNearer of floor and ceil.
func TestRoundIsTheNearer(t *testing.T) {
	r := rand.New(rand.NewPCG(43, 44))
	for range 500 {
		x := 100*r.Float64() - 50
		low, high := worked[FloorResult](t)(Floor(FloorInput{x, 0.25})).Value, worked[CeilResult](t)(Ceil(CeilInput{x, 0.25})).Value
		want := high
		if x-low < high-x {
			want = low
		}
		within(t, "round", worked[RoundResult](t)(Round(RoundInput{x, 0.25})).Value, want)
	}
}
