package line

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"

	"inkwing/evaluate/library/internal/kit"
)

// norris is the NIST Statistical Reference Dataset Norris (from memory): the
// readings of an ozone monitor (y) against a standard (x).
var norris = [][2]float64{
	{0.2, 0.1}, {337.4, 338.8}, {118.2, 118.1}, {884.6, 888.0}, {10.1, 9.2}, {226.5, 228.1},
	{666.3, 668.5}, {996.3, 998.5}, {448.6, 449.1}, {777.0, 778.9}, {558.2, 559.2}, {0.4, 0.3},
	{0.6, 0.1}, {775.5, 778.1}, {666.9, 668.8}, {338.0, 339.3}, {447.5, 448.9}, {11.6, 10.8},
	{556.0, 557.7}, {228.1, 228.3}, {995.8, 998.0}, {887.6, 888.8}, {120.2, 119.6}, {0.3, 0.3},
	{0.3, 0.6}, {556.8, 557.6}, {339.1, 339.3}, {887.2, 888.0}, {999.0, 998.5}, {779.0, 778.9},
	{11.1, 10.2}, {118.3, 117.6}, {229.2, 228.9}, {669.1, 668.4}, {448.9, 449.2}, {0.5, 0.2},
}

func columns(rows [][2]float64) (xs, ys []float64) {
	for _, r := range rows {
		xs, ys = append(xs, r[0]), append(ys, r[1])
	}
	return xs, ys
}

func fitted(t *testing.T, xs, ys []float64, at float64) Fit {
	t.Helper()
	f, ok := Through(xs, ys, at)
	if !ok {
		t.Fatalf("no line through %v, %v", xs, ys)
	}
	return f
}

// TestNorris has the certified values of NIST StRD Norris (from memory).
func TestNorris(t *testing.T) {
	xs, ys := columns(norris)
	f := fitted(t, xs, ys, 0)
	kit.Near(t, "slope", f.Slope, 1.00211681802045, 1e-13)
	kit.Near(t, "intercept", f.Intercept, -0.262323073774029, 1e-11)
	kit.Near(t, "u(slope)", math.Sqrt(f.SlopeVariance), 0.429796848199937e-03, 1e-12)
	kit.Near(t, "u(intercept)", math.Sqrt(f.InterceptVariance), 0.232818234301152, 1e-12)
	kit.Near(t, "scatter", f.Scatter, 0.884796396144373, 1e-12)
	if f.Freedom != 34 {
		t.Errorf("%d degrees of freedom, want 34", f.Freedom)
	}
}

// TestOrthogonal fits by a QR decomposition, and takes the covariance from the
// triangle, on made-up readings far from zero.
func TestOrthogonal(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 50 {
		n, at := 3+r.IntN(20), 100*r.NormFloat64()
		xs, ys, design := make([]float64, n), make([]float64, n), mat.NewDense(n, 2, nil)
		for i := range xs {
			xs[i] = 50 + 30*r.NormFloat64()
			ys[i] = 3 - 2*xs[i] + r.NormFloat64()
			design.SetRow(i, []float64{xs[i] - at, 1})
		}
		f := fitted(t, xs, ys, at)
		var qr mat.QR
		qr.Factorize(design)
		var found mat.VecDense
		if err := qr.SolveVecTo(&found, false, mat.NewVecDense(n, ys)); err != nil {
			t.Fatal(err)
		}
		kit.Near(t, "slope", f.Slope, found.AtVec(0), 1e-10)
		kit.Near(t, "intercept", f.Intercept, found.AtVec(1), 1e-9)
		var gram, inverse mat.Dense
		gram.Mul(design.T(), design)
		if err := inverse.Inverse(&gram); err != nil {
			t.Fatal(err)
		}
		s := f.Scatter * f.Scatter
		kit.Near(t, "var slope", f.SlopeVariance, s*inverse.At(0, 0), 1e-8)
		kit.Near(t, "covariance", f.Covariance, s*inverse.At(0, 1), 1e-8)
		kit.Near(t, "var intercept", f.InterceptVariance, s*inverse.At(1, 1), 1e-8)
	}
}

// TestSpread takes the line's value at two other places for the two values:
// another fit with its intercept there has that variance.
func TestSpread(t *testing.T) {
	xs, ys := columns(norris[:9])
	f := fitted(t, xs, ys, 0)
	got := f.Estimate([2]float64{500, 1}, [2]float64{-3, 1}, [2]float64{1, 0})
	for i, at := range []float64{500, -3} {
		there := fitted(t, xs, ys, at)
		kit.Near(t, "variance", got.Covariance[i][i], there.InterceptVariance, 1e-9)
		kit.Near(t, "covariance", got.Covariance[i][2], there.Covariance, 1e-9)
		kit.Near(t, "covariance", got.Covariance[2][i], there.Covariance, 1e-9)
	}
	if got.DegreesOfFreedom != 7 {
		t.Errorf("%v degrees of freedom", got.DegreesOfFreedom)
	}
}

func TestNoLine(t *testing.T) {
	for _, c := range [][2][]float64{
		{{1, 2}, {1, 2}}, {{1, 2, 3}, {1, 2}}, {{4, 4, 4}, {1, 2, 3}}, {nil, nil},
	} {
		if f, ok := Through(c[0], c[1], 0); ok {
			t.Errorf("through %v: %v", c, f)
		}
	}
}

// FuzzThrough: a line moved aside, or read in another unit, is the same line.
func FuzzThrough(f *testing.F) {
	f.Add(1.0, 2.0, 4.0, 3.0, 5.0, 4.0, 100.0)
	f.Fuzz(func(t *testing.T, a, b, c, x, y, z, shift float64) {
		for _, v := range []float64{a, b, c, x, y, z, shift} {
			if math.IsNaN(v) || math.Abs(v) > 1e6 || v != 0 && math.Abs(v) < 1e-3 {
				return
			}
		}
		if math.Abs(a-b) < 1 && math.Abs(b-c) < 1 {
			return
		}
		here, ok := Through([]float64{a, b, c}, []float64{x, y, z}, 0)
		moved, okMoved := Through([]float64{a + shift, b + shift, c + shift}, []float64{8 * x, 8 * y, 8 * z}, shift)
		size := max(math.Abs(x), math.Abs(y), math.Abs(z), 1e-3)
		if !ok || !okMoved || math.Abs(8*here.Slope-moved.Slope) > 1e-6*size || math.Abs(8*here.Scatter-moved.Scatter) > 1e-6*size {
			t.Errorf("%+v and moved by %v: %+v", here, shift, moved)
		}
	})
}
