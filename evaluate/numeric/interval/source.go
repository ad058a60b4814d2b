package interval

import (
	"errors"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// A Source draws an input, or a group of inputs that go together. It is
// constant, and may be used by several simulations at once.
type Source interface {
	// Size is the number of inputs.
	Size() int
	// fill draws columns of one length, one an input.
	fill(r *rand.Rand, columns [][]float64)
}

// Student draws from the scaled and shifted t-distribution (JCGM 101:2008,
// 6.4.9): mean and u = s/√n of n readings, with n − 1 degrees of freedom. The
// standard deviation of what is drawn is u·√(ν/(ν − 2)), and there is none up
// to ν = 2. Infinite degrees of freedom are the normal distribution (6.4.7): what
// a builder types as ± U has the standard uncertainty u = U/2.
func Student(mean, u, freedom float64) Source {
	return &joint{means: []float64{mean}, factor: [][]float64{{u}}, rank: 1, freedom: freedom}
}

// Rectangular draws evenly between two limits (JCGM 101:2008, 6.4.2).
func Rectangular(low, high float64) Source { return rectangular{low, high} }

type rectangular struct{ low, high float64 }

func (rectangular) Size() int { return 1 }

func (d rectangular) fill(r *rand.Rand, columns [][]float64) {
	column := columns[0]
	for k := range column {
		x := r.Float64()
		column[k] = d.low*(1-x) + d.high*x
	}
}

// Triangular draws from the symmetric triangle between two limits: the mean of two
// even draws (JCGM 101:2008, 6.4.5).
func Triangular(low, high float64) Source { return triangular{low, high} }

type triangular struct{ low, high float64 }

func (triangular) Size() int { return 1 }

func (d triangular) fill(r *rand.Rand, columns [][]float64) {
	column := columns[0]
	for k := range column {
		x := (r.Float64() + r.Float64()) / 2
		column[k] = d.low*(1-x) + d.high*x
	}
}

// FitTogether reports whether there are errors with those correlations: whether the
// matrix is positive semidefinite.
func FitTogether(correlation mat.Symmetric) bool {
	_, _, err := root(correlation)
	return err == nil
}

// ErrCovariance says that a matrix is no covariance: it is not finite, or not
// positive semidefinite, such as with a correlation above 1.
var ErrCovariance = errors.New("the covariances do not fit together")

// Joint draws a group of inputs with that covariance of their means: from the
// multivariate normal distribution (JCGM 101:2008, 6.4.8), or from the
// multivariate t-distribution (JCGM 102:2011) if the degrees of freedom,
// common to all, are finite. Inputs may be perfectly correlated.
func Joint(means []float64, covariance mat.Symmetric, freedom float64) (Source, error) {
	factor, rank, err := root(covariance)
	if err != nil {
		return nil, err
	}
	return &joint{means, factor, rank, freedom}, nil
}

// joint draws means + factor·z, where z is rank independent normal numbers,
// all divided by √(χ²/ν) if ν is finite.
type joint struct {
	means   []float64
	factor  [][]float64 // a row an input
	rank    int
	freedom float64
}

func (d *joint) Size() int { return len(d.means) }

func (d *joint) fill(r *rand.Rand, columns [][]float64) {
	z := make([]float64, d.rank)
	finite := !math.IsInf(d.freedom, 1)
	chi := distuv.ChiSquared{K: d.freedom, Src: r}
	for k := range columns[0] {
		for i := range z {
			z[i] = r.NormFloat64()
		}
		scale := 1.0
		if finite {
			scale = math.Sqrt(d.freedom / chi.Rand())
		}
		for i, row := range d.factor {
			sum := 0.0
			for j, x := range row {
				sum += x * z[j]
			}
			columns[i][k] = d.means[i] + scale*sum
		}
	}
}

// fits is how far a factor's square may be from the correlations.
const fits = 1e-8

// root is F with F·Fᵀ the covariance, by pivoted Cholesky factorisation of the
// correlations, so that large inputs do not drown small ones. It has a column
// for each independent input, and no more.
func root(covariance mat.Symmetric) (factor [][]float64, rank int, err error) {
	n := covariance.SymmetricDim()
	correlation := mat.NewSymDense(n, nil)
	size := make([]float64, n)
	for i := range n {
		size[i] = math.Sqrt(covariance.At(i, i))
		for j := range i + 1 {
			r := covariance.At(i, j)
			if r != 0 {
				r = r / size[i] / size[j]
			}
			if !(math.Abs(r) <= 1+fits) {
				return nil, 0, ErrCovariance
			}
			correlation.SetSym(i, j, r)
		}
	}
	var chol mat.PivotedCholesky
	chol.Factorize(correlation, float64(n)*1e-12)
	var upper mat.TriDense
	chol.UTo(&upper)
	factor, rank = make([][]float64, n), chol.Rank()
	for k, i := range chol.ColumnPivots(nil) {
		factor[i] = make([]float64, rank)
		for j := range rank {
			factor[i][j] = upper.At(j, k)
		}
	}
	return factor, rank, scaleRows(factor, size, correlation)
}

// scaleRows makes rows of correlations rows of covariances, if they fit.
func scaleRows(factor [][]float64, size []float64, correlation mat.Symmetric) error {
	for i, a := range factor {
		for j, b := range factor[:i+1] {
			sum := 0.0
			for k := range a {
				sum += a[k] * b[k]
			}
			if !(math.Abs(sum-correlation.At(i, j)) <= fits) {
				return ErrCovariance
			}
		}
	}
	for i, row := range factor {
		for k := range row {
			row[k] *= size[i]
		}
	}
	return nil
}
