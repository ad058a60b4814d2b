// Package interval is the mathematics of measurement uncertainty.
//
// [Combined], [DegreesOfFreedom] and [Coverage] are first order, by the law of
// propagation (JCGM 100:2008, the GUM). [Simulate] draws: it propagates
// distributions by a Monte Carlo method (JCGM 101:2008), with what an output
// came to in a [Sketch].
//
// Sensitivities are the caller's, and so is the model.
package interval

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Probability that an interval of k = 2 has with a normal distribution,
// erf(√2): what the tables call 95.45 %.
const Probability = 0.954499736103642

// Coverage is the factor k of an expanded uncertainty U = k·u at 95.45 %: the
// quantile of Student's distribution, 2 at infinite degrees of freedom, which
// are truncated to a whole number (JCGM 100:2008, G.4.1). Below one degree of
// freedom there is no such interval and k is infinite.
func Coverage(freedom float64) float64 { return CoverageAt(Probability, freedom) }

// CoverageAt is the factor k of an interval that holds another part p of all values,
// between 0 and 1.
func CoverageAt(p, freedom float64) float64 {
	switch {
	case !math.IsInf(freedom, 1):
		return factor(p, freedom)
	case p == Probability:
		return 2
	}
	return distuv.UnitNormal.Quantile((1 + p) / 2)
}

// wholeFreedom is how far below a whole number degrees of freedom may come by
// rounding alone.
const wholeFreedom = 1e-9

// factor is the quantile of Student's distribution that leaves (1 − p)/2 above.
func factor(p, freedom float64) float64 {
	whole := math.Floor(freedom * (1 + wholeFreedom))
	switch {
	case math.IsNaN(freedom):
		return math.NaN()
	case whole < 1:
		return math.Inf(1)
	}
	if whole > manyFreedom {
		return manyFactor(p, whole)
	}
	return distuv.StudentsT{Sigma: 1, Nu: whole}.Quantile((1 + p) / 2)
}

// manyFreedom is where the quantile by the incomplete beta function and the
// one by the series agree to twelve digits. Far above it the first one drowns
// in rounding: it is 1.855 at 1e15 and 105 at 1e20.
const manyFreedom = 1e4

// manyFactor is the quantile at many degrees of freedom, by its expansion in
// 1/ν round the normal distribution's (Abramowitz and Stegun, 26.7.5). The
// first term left out is below 1e-14 of the whole.
func manyFactor(p, freedom float64) float64 {
	x := distuv.UnitNormal.Quantile((1 + p) / 2)
	x2 := x * x
	g1 := x * (x2 + 1) / 4
	g2 := x * ((5*x2+16)*x2 + 3) / 96
	g3 := x * (((3*x2+19)*x2+17)*x2 - 15) / 384
	return x + (g1+(g2+g3/freedom)/freedom)/freedom
}

// Combined is the standard uncertainty u = √(cᵀΣc) of what depends on a group
// of inputs with the sensitivities c and the covariance Σ (JCGM 100:2008,
// 5.2.2). What is below the rounding of its terms is zero, so that perfectly
// correlated inputs cancel.
func Combined(sensitivities []float64, covariance mat.Symmetric) float64 {
	sum, size := 0.0, 0.0
	for i, a := range sensitivities {
		if a == 0 { // of a large group most do not bear on one quantity
			continue
		}
		for j, b := range sensitivities {
			term := a * b * covariance.At(i, j)
			sum += term
			size += math.Abs(term)
		}
	}
	if sum <= 8*0x1p-52*size {
		return 0
	}
	return math.Sqrt(sum)
}

// Sum is the standard uncertainty of independent contributions, u = √(Σuᵢ²)
// (JCGM 100:2008, 5.1.2), each a sensitivity times a standard uncertainty, or
// a group's by Combined.
func Sum(contributions []float64) float64 {
	total := 0.0
	for _, u := range contributions {
		total = math.Hypot(total, u)
	}
	return total
}

// DegreesOfFreedom is the effective number of degrees of freedom of independent
// contributions, each with its own: ν = u⁴/Σ(uᵢ⁴/νᵢ) (Welch and Satterthwaite;
// JCGM 100:2008, G.4.1). A group of correlated inputs is one contribution. It
// is infinite if all that contribute are, and is not truncated.
func DegreesOfFreedom(contributions, freedoms []float64) float64 {
	total := Sum(contributions)
	sum := 0.0
	for i, u := range contributions {
		if u != 0 {
			sum += math.Pow(u/total, 4) / freedoms[i]
		}
	}
	return 1 / sum
}
