package generator

import "math"

// A clenshaw is Clenshaw and Curtis's rule on the extrema of a Chebyshev
// polynomial, from 1 to -1 (Numer. Math. 2 (1960) 197), worked out once.
type clenshaw struct{ x, w []float64 }

var fine, coarser = newClenshaw(stretchParts), newClenshaw(stretchParts / 2)

// newClenshaw makes the rule of n + 1 points, n even.
func newClenshaw(n int) clenshaw {
	c := clenshaw{make([]float64, n+1), make([]float64, n+1)}
	for j := range c.x {
		c.x[j] = math.Cos(math.Pi * float64(j) / float64(n))
		sum := 1.0
		for k := 1; k <= n/2; k++ {
			b := 2.0
			if 2*k == n {
				b = 1
			}
			sum -= b / float64(4*k*k-1) * math.Cos(2*math.Pi*float64(j*k)/float64(n))
		}
		if c.w[j] = 2 * sum / float64(n); j == 0 || j == n {
			c.w[j] /= 2
		}
	}
	return c
}

// A series is an integral from -1 as a sum of Chebyshev polynomials.
type series [stretchParts + 2]float64

// newSeries integrates the polynomial through values at the rule's points, in
// rising order.
func newSeries(f *[stretchParts + 1]float64) series {
	const n = stretchParts
	var a [n + 3]float64
	for k := range n + 1 {
		a[k] = (f[0]*cosine(k*n) + f[n]) / n
		for j := 1; j < n; j++ {
			a[k] += f[j] * cosine(k*(n-j)) * 2 / n
		}
	}
	a[n] /= 2
	var s series
	for k, sign := 1, 1.0; k <= n+1; k++ {
		s[k] = (a[k-1] - a[k+1]) / float64(2*k)
		s[0] += sign * s[k]
		sign = -sign
	}
	return s
}

// cosine is that of i·π/stretchParts.
func cosine(i int) float64 {
	i %= 2 * stretchParts
	return fine.x[min(i, 2*stretchParts-i)]
}

// upTo is the integral from -1 to x, by Clenshaw's recurrence.
func (s *series) upTo(x float64) float64 {
	var b1, b2 float64
	for k := len(s) - 1; k > 0; k-- {
		b1, b2 = s[k]+2*x*b1-b2, b1
	}
	return s[0] + x*b1 - b2
}
