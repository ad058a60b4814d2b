package interval

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mat"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.10g, want %.10g ± %g", what, got, want, tolerance)
	}
}

// JCGM 100:2008, table G.2, which prints three digits; the others are those of
// an independent implementation of the distribution.
func TestStudentFactor(t *testing.T) {
	for _, c := range []struct{ p, freedom, want, tolerance float64 }{
		{0.95, 16, 2.11991, 5e-6}, {0.95, 4, 2.77645, 5e-6}, {0.9545, 16, 2.16894, 5e-6}, {0.99, 16, 2.921, 5e-4},
	} {
		near(t, "t", factor(c.p, c.freedom), c.want, c.tolerance)
	}
}

func TestCoverage(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct{ freedom, want, tolerance float64 }{
		{inf, 2, 0}, {1e9, 2, 1e-6}, {0.5, inf, 0}, {0, inf, 0},
		// JCGM 100:2008, table G.2, column p = 95.45 % (16 seen, the rest from memory).
		{1, 13.97, 0.005}, {2, 4.53, 0.005}, {3, 3.31, 0.005}, {4, 2.87, 0.005}, {5, 2.65, 0.005}, {10, 2.28, 0.005}, {16, 2.17, 0.005}, {20, 2.13, 0.005}, {50, 2.05, 0.005},
		// H.1.6 truncates 16.7 to 16.
		{16.7, 2.16894, 1e-5}, {16 - 1e-12, 2.16894, 1e-5},
	} {
		if got := Coverage(c.freedom); got != c.want && !(math.Abs(got-c.want) <= c.tolerance) {
			t.Errorf("k(%v) is %v, want %v", c.freedom, got, c.want)
		}
	}
	if got := Coverage(math.NaN()); !math.IsNaN(got) {
		t.Error(got)
	}
}

// The factor falls with the degrees of freedom, never under the normal
// distribution's, and is held against the distribution's own integral where
// that can be taken: the area within ±k is the probability.
func TestCoverageFalls(t *testing.T) {
	last := math.Inf(1)
	for freedom := 1.0; freedom < 1e300; freedom = math.Ceil(freedom * 1.3) {
		k := Coverage(freedom)
		if !(k >= 2-1e-15 && k <= last) {
			t.Fatalf("k(%v) is %v behind %v", freedom, k, last)
		}
		last = k
	}
	for _, freedom := range []float64{1, 2, 3, 10, 100, 9_999, 10_001, 1e5} {
		near(t, fmt.Sprintf("area at ν = %g", freedom), studentArea(Coverage(freedom), freedom), Probability, 1e-11)
	}
	for _, freedom := range []float64{1e12, 1e15, 1e20, 1e100, 1e300} {
		near(t, fmt.Sprintf("k(%g)", freedom), Coverage(freedom), 2, 1e-11)
	}
}

// studentArea is the area of Student's density within ±k, by quadrature and
// the logarithm of the gamma function: nothing of the quantile's own route.
func studentArea(k, freedom float64) float64 {
	// ln Γ((ν+1)/2) − ln Γ(ν/2) cancels at many degrees of freedom: from
	// there on by its asymptotic series (DLMF 5.11.13).
	half := freedom / 2
	ratio := math.Sqrt(half) * (1 - 1/(8*half) + 1/(128*half*half) + 5/(1024*half*half*half))
	if freedom < 300 {
		a, _ := math.Lgamma(half + 0.5)
		b, _ := math.Lgamma(half)
		ratio = math.Exp(a - b)
	}
	density := func(x float64) float64 {
		return ratio / math.Sqrt(math.Pi*freedom) * math.Exp(-(freedom+1)/2*math.Log1p(x*x/freedom))
	}
	return 2 * quad.Fixed(density, 0, k, 200, nil, 0)
}

// What contributes to a sum never makes it surer than the least sure of its
// parts by itself: the effective degrees of freedom are at least the least of
// those that contribute (Welch and Satterthwaite), so that the expanded
// uncertainty stays within that one's factor.
func TestExpandedIsBounded(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 20_000 {
		n := 1 + r.IntN(4)
		u, freedoms, least := make([]float64, n), make([]float64, n), math.Inf(1)
		for i := range u {
			u[i] = math.Exp(r.NormFloat64() * 20)
			freedoms[i] = math.Ceil(math.Exp(r.ExpFloat64() * 20))
			if r.IntN(3) == 0 {
				freedoms[i] = math.Inf(1)
			}
			least = min(least, freedoms[i])
		}
		k := Coverage(DegreesOfFreedom(u, freedoms))
		if !(k >= 2-1e-15 && k <= Coverage(least)*(1+1e-12)) {
			t.Fatalf("k is %v for %v with %v, over %v", k, u, freedoms, Coverage(least))
		}
	}
}

// JCGM 100:2008, H.1.3.2: u(d) of 5.8, 3.9 and 6.7 nm is 9.7 nm; H.1.4 and
// H.1.6: 25, 9.7, 0, 0, 2.9 and 16.6 nm make 32 nm with 16.7 degrees of
// freedom, truncated to 16, and U₉₉ = 2.92·32 nm = 93 nm.
func TestEndGauge(t *testing.T) {
	near(t, "u(d)", Sum([]float64{5.8, 3.9, 6.7}), 9.682, 5e-4)
	inf := math.Inf(1)
	u := []float64{25, 9.7, 0, 0, 2.9, 50.000623e6 * 11.5e-6 * 0.029}
	freedoms := []float64{18, 25.6, inf, inf, 50, 2}
	near(t, "u", Sum(u), 31.711, 2e-3)
	freedom := DegreesOfFreedom(u, freedoms)
	near(t, "ν", freedom, 16.656, 2e-3)
	near(t, "U99", factor(0.99, freedom)*32, 93, 0.5)
}

func TestDegreesOfFreedom(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		u, freedoms []float64
		want        float64
	}{
		{nil, nil, inf}, {[]float64{0}, []float64{3}, inf}, {[]float64{2}, []float64{4}, 4}, {[]float64{1, 1}, []float64{inf, inf}, inf},
		{[]float64{1, 1}, []float64{5, inf}, 20}, {[]float64{1, 1}, []float64{5, 5}, 10}, {[]float64{-1e-200, 1e-200}, []float64{5, 5}, 10},
	} {
		if got := DegreesOfFreedom(c.u, c.freedoms); got != c.want && !(math.Abs(got-c.want) < 1e-12*c.want) {
			t.Errorf("ν of %v with %v is %v, want %v", c.u, c.freedoms, got, c.want)
		}
	}
}

func TestCombined(t *testing.T) {
	// P = V²/R, V = 5.00(2) V, R = 2.50(5) Ω: JCGM 100:2008, 5.1, worked by another implementation.
	near(t, "u(P)", Sum([]float64{2 * 5.0 / 2.5 * 0.02, -25 / 6.25 * 0.05}), 0.215407, 5e-7)
	apart, together := mat.NewSymDense(2, []float64{0.01, 0, 0, 0.01}), mat.NewSymDense(2, []float64{0.01, 0.01, 0.01, 0.01})
	near(t, "u(P) by covariance", Combined([]float64{4, -4}, mat.NewSymDense(2, []float64{0.02 * 0.02, 0, 0, 0.05 * 0.05})), 0.215407, 5e-7)
	// JCGM 100:2008, 5.2: a = 5.0(1), b = 3.0(1) with r = 1 and r = 0.
	for _, c := range []struct {
		sensitivities []float64
		covariance    mat.Symmetric
		want          float64
	}{
		{[]float64{1, -1}, together, 0}, {[]float64{1, 1}, together, 0.2}, {[]float64{1, -1}, apart, 0.1414214}, {[]float64{1, 1}, apart, 0.1414214},
		{[]float64{0.3, -0.1}, mat.NewSymDense(2, []float64{0.01, 0.03, 0.03, 0.09}), 0},
	} {
		near(t, "u", Combined(c.sensitivities, c.covariance), c.want, 5e-8)
	}
	if got := Combined([]float64{0.3, -0.1}, mat.NewSymDense(2, []float64{0.01, 0.03, 0.03, 0.09})); got != 0 {
		t.Errorf("perfectly correlated inputs leave %v", got)
	}
}

// JCGM 100:2008, H.2: R, X and Z of five readings of V, I and φ, whose means
// are one correlated group (approach 1: the GUM prints 0.071, 0.295 and 0.236 Ω
// from rounded steps, the unrounded data give the digits here), against the
// scatter of the five values of R themselves (approach 2).
func TestCorrelatedReadings(t *testing.T) {
	v := []float64{5.007, 4.994, 5.005, 4.990, 4.999}
	i := []float64{19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3}
	phi := []float64{1.0456, 1.0438, 1.0468, 1.0428, 1.0433}
	means, cov := [3]float64{}, mat.NewSymDense(3, nil)
	columns := [3][]float64{v, i, phi}
	for a := range columns {
		for _, x := range columns[a] {
			means[a] += x / 5
		}
	}
	for a := range columns {
		for b := a; b < 3; b++ {
			s := 0.0
			for k := range 5 {
				s += (columns[a][k] - means[a]) * (columns[b][k] - means[b]) / 20
			}
			cov.SetSym(a, b, s)
		}
	}
	mv, mi, mp := means[0], means[1], means[2]
	z := mv / mi
	near(t, "u(R)", Combined([]float64{math.Cos(mp) / mi, -z * math.Cos(mp) / mi, -z * math.Sin(mp)}, cov), 0.07107, 5e-6)
	near(t, "u(X)", Combined([]float64{math.Sin(mp) / mi, -z * math.Sin(mp) / mi, z * math.Cos(mp)}, cov), 0.2956, 5e-5)
	r := [5]float64{}
	mean, square := 0.0, 0.0
	for k := range r {
		r[k] = v[k] * math.Cos(phi[k]) / i[k]
		mean += r[k] / 5
	}
	for _, x := range r {
		square += (x - mean) * (x - mean) / 20
	}
	near(t, "u(R) by approach 2", math.Sqrt(square), 0.0711, 5e-4)
	near(t, "u(Z)", Combined([]float64{1 / mi, -z / mi, 0}, cov), 0.2363, 5e-5)
}
