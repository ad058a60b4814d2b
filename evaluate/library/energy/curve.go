package energy

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"inkwing/evaluate/library/model"
)

// A curve is one of three parameters, fitted by least squares.
type curve struct {
	p        []float64
	inverse  *mat.Dense // of JᵀJ
	scatter  float64
	freedom  int
	variance float64
}

// steps fits by the method of Gauss and Newton with Levenberg's damping; of works a
// reading from the parameters, and what it changes by each.
func steps(p, ys []float64, of func(p []float64, i int, by []float64) float64) (curve, error) {
	n, m := len(ys), len(p)
	j, rest := mat.NewDense(n, m, nil), mat.NewVecDense(n, nil)
	look := func(p []float64) float64 {
		sum, by := 0.0, make([]float64, m)
		for i, y := range ys {
			d := y - of(p, i, by)
			j.SetRow(i, by)
			rest.SetVec(i, d)
			sum += d * d
		}
		return sum
	}
	sum, damp := look(p), 1e-6
	for range 100 {
		next, ok := damped(p, j, rest, damp)
		if !ok {
			return curve{}, unsettled()
		}
		if better := look(next); better <= sum {
			settled := sum-better <= 1e-15*sum
			p, sum, damp = next, better, damp/10
			if settled {
				break
			}
			continue
		}
		if damp *= 10; damp > 1e12 {
			break
		}
		look(p)
	}
	return answer(p, look(p), j)
}

// damped is the step from p.
func damped(p []float64, j *mat.Dense, rest *mat.VecDense, damp float64) ([]float64, bool) {
	var square, inverse mat.Dense
	square.Mul(j.T(), j)
	for i := range p {
		square.Set(i, i, square.At(i, i)*(1+damp))
	}
	if err := inverse.Inverse(scaled(&square)); err != nil {
		return nil, false
	}
	var right, step mat.VecDense
	right.MulVec(j.T(), rest)
	unscale(&inverse, &square)
	step.MulVec(&inverse, &right)
	next := make([]float64, len(p))
	for i := range p {
		next[i] = p[i] + step.AtVec(i)
	}
	return next, true
}

// scaled has ones on its diagonal, so that units do not count for the inverse.
func scaled(a *mat.Dense) *mat.Dense {
	n, _ := a.Dims()
	out := mat.NewDense(n, n, nil)
	for i := range n {
		for k := range n {
			out.Set(i, k, a.At(i, k)/math.Sqrt(a.At(i, i)*a.At(k, k)))
		}
	}
	return out
}

// unscale makes the inverse of a scaled matrix that of the matrix.
func unscale(inverse, a *mat.Dense) {
	n, _ := a.Dims()
	for i := range n {
		for k := range n {
			inverse.Set(i, k, inverse.At(i, k)/math.Sqrt(a.At(i, i)*a.At(k, k)))
		}
	}
}

func answer(p []float64, sum float64, j *mat.Dense) (curve, error) {
	var square, inverse mat.Dense
	square.Mul(j.T(), j)
	if err := inverse.Inverse(scaled(&square)); err != nil {
		return curve{}, unsettled()
	}
	unscale(&inverse, &square)
	n, m := j.Dims()
	out := curve{p: p, inverse: &inverse, freedom: n - m, variance: sum / float64(n-m)}
	out.scatter = math.Sqrt(out.variance)
	return out, nil
}

// spread is that of values worked from the parameters with these sensitivities.
func (c curve) spread(sensitivities ...[]float64) model.Estimate {
	out := model.Estimate{DegreesOfFreedom: float64(c.freedom), Covariance: make([][]float64, len(sensitivities))}
	for i, a := range sensitivities {
		out.Covariance[i] = make([]float64, len(sensitivities))
		for k, b := range sensitivities {
			for r := range a {
				for s := range b {
					out.Covariance[i][k] += c.variance * a[r] * b[s] * c.inverse.At(r, s)
				}
			}
		}
	}
	return out
}

func unsettled() error {
	return &model.Error{Field: "voltage", Summary: "shows no curve of this kind", Hint: "log more readings, spread over the whole of the fall"}
}
