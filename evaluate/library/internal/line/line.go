// Package line fits a straight line to readings by least squares, with the
// covariance of what it finds (JCGM 100:2008, H.3).
//
// [Through] is its one verb. All readings weigh alike, and what they scatter is
// in y only.
package line

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"inkwing/evaluate/library/model"
)

// Least is the fewest readings that show a line and its scatter.
const Least = 3

// A Fit is the line y = Intercept + Slope·(x − at).
type Fit struct {
	Slope, Intercept float64
	// Variances and covariance of the two: s²·(XᵀX)⁻¹.
	SlopeVariance, InterceptVariance, Covariance float64
	Correlation                                  float64 // of the two, whatever the scatter
	Scatter                                      float64 // s, of the readings about the line
	Freedom                                      int     // readings less two
}

// Through fits a line; at is the x of its intercept. It is not ok with fewer
// readings than [Least], with columns of unequal length, and where all x are
// equal. Everything is worked about the mean of x, which keeps the digits.
func Through(xs, ys []float64, at float64) (f Fit, ok bool) {
	n := float64(len(xs))
	if len(xs) < Least || len(xs) != len(ys) {
		return Fit{}, false
	}
	meanX, meanY := stat.Mean(xs, nil), stat.Mean(ys, nil)
	square := 0.0
	for _, x := range xs {
		square += (x - meanX) * (x - meanX)
	}
	if square == 0 {
		return Fit{}, false
	}
	_, f.Slope = stat.LinearRegression(xs, ys, nil, false)
	f.Intercept = meanY + f.Slope*(at-meanX)
	f.Freedom = len(xs) - 2
	residual := 0.0
	for i, x := range xs {
		d := ys[i] - meanY - f.Slope*(x-meanX)
		residual += d * d
	}
	variance := residual / float64(f.Freedom)
	f.Scatter = math.Sqrt(variance)
	f.SlopeVariance = variance / square
	away := (at - meanX) / math.Sqrt(square)
	f.Correlation = away / math.Hypot(away, 1/math.Sqrt(n))
	f.Covariance = f.SlopeVariance * (at - meanX)
	f.InterceptVariance = variance/n + f.Covariance*(at-meanX)
	return f, true
}

// Estimate is that of two values of which each is worked from the fit with the
// sensitivities to slope and intercept that are given; of more likewise.
func (f Fit) Estimate(sensitivities ...[2]float64) model.Estimate {
	out := model.Estimate{DegreesOfFreedom: float64(f.Freedom), Covariance: make([][]float64, len(sensitivities))}
	for i, a := range sensitivities {
		out.Covariance[i] = make([]float64, len(sensitivities))
		for j, b := range sensitivities {
			out.Covariance[i][j] = a[0]*b[0]*f.SlopeVariance + (a[0]*b[1]+a[1]*b[0])*f.Covariance + a[1]*b[1]*f.InterceptVariance
		}
	}
	return out
}
