package numeric

import "math"

// A level is what it takes to go to and from Chebyshev series through n + 1 places,
// the ends among them (L. N. Trefethen, Spectral Methods in MATLAB, 2000, chapters 6
// and 12): those of half as many are every second of its own.
type level struct {
	n      int
	nodes  []float64   // from -1 to 1
	series [][]float64 // the coefficients of what takes values there
	within [][]float64 // the integral from -1 to each place
}

var coarse, fine = newLevel(8), newLevel(16)

func newLevel(n int) *level {
	l := &level{n: n, nodes: make([]float64, n+1), series: make([][]float64, n+1), within: make([][]float64, n+1)}
	for j := range l.nodes {
		l.nodes[j] = -math.Cos(math.Pi * float64(j) / float64(n))
	}
	l.nodes[n/2] = 0
	for k := range l.series {
		l.series[k] = make([]float64, n+1)
		for j := range l.nodes {
			l.series[k][j] = 2 / float64(n) * atEnds(j, n) * atEnds(k, n) * math.Cos(math.Pi*float64(k)*float64(n-j)/float64(n))
		}
	}
	for i, x := range l.nodes {
		l.within[i] = make([]float64, n+1)
		for j := range l.nodes {
			c := make([]float64, n+1)
			for k := range c {
				c[k] = l.series[k][j]
			}
			l.within[i][j] = chebyshev(integrated(make([]float64, n+2), c), x)
		}
	}
	return l
}

// atEnds halves what stands at either end.
func atEnds(i, n int) float64 {
	if i == 0 || i == n {
		return 0.5
	}
	return 1
}

// integrated writes the series of the integral from -1 of a series.
func integrated(out, c []float64) []float64 {
	at := func(k int) float64 {
		if k < len(c) {
			return c[k]
		}
		return 0
	}
	out[1] = at(0) - at(2)/2
	for k := 2; k <= len(c); k++ {
		out[k] = (at(k-1) - at(k+1)) / float64(2*k)
	}
	out[0] = 0
	sign := 1.0
	for k := 1; k <= len(c); k++ {
		out[0] += sign * out[k]
		sign = -sign
	}
	return out
}

// bounds are two numbers between which a series stays from -1 to 1, since no polynomial
// of it is beyond 1 there.
func bounds(c []float64) (low, high float64) {
	wide := 0.0
	for _, x := range c[1:] {
		wide += math.Abs(x)
	}
	return c[0] - wide, c[0] + wide
}

// chebyshev is a series at a place from -1 to 1 (Clenshaw).
func chebyshev(c []float64, x float64) float64 {
	var b1, b2 float64
	for k := len(c) - 1; k > 0; k-- {
		b1, b2 = 2*x*b1-b2+c[k], b1
	}
	return x*b1 - b2 + c[0]
}
