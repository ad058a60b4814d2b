package generator

import "math"

// odd puts J_p(x), J_3p(x), J_5p(x) … into out. Above the highest order the
// recurrence may run upwards (NIST Digital Library of Mathematical Functions 10.74(iv)).
func odd(out []float64, p int, x float64) { oddAndBelow(out, nil, p, x) }

// oddAndBelow is odd, with the order below each, J_(p−1)(x), J_(3p−1)(x) … in
// under, if it is wanted.
func oddAndBelow(out, under []float64, p int, x float64) {
	if top := (2*len(out) - 1) * p; x < float64(top) {
		downwards(out, under, p, top, x)
		return
	}
	below, j, order, by := math.J0(x), math.J1(x), 1, 2/x
	for i := range out {
		for ; order < (2*i+1)*p; order++ {
			below, j = j, float64(order)*by*j-below
		}
		if out[i] = j; under != nil {
			under[i] = below
		}
	}
}

// downwards is oddAndBelow below the highest order, by Miller's recurrence from far above
// it: J0 + 2·(J2 + J4 + …) = 1 (NIST Digital Library of Mathematical Functions 3.6(vi),
// 10.12.4).
func downwards(out, under []float64, p, top int, x float64) {
	const least, huge = 0.3, 1e200 // below it the recurrence grows too fast, and there is next to nothing
	if x < least {
		for i := range out {
			out[i] = math.Jn((2*i+1)*p, x)
			if under != nil {
				under[i] = math.Jn((2*i+1)*p-1, x)
			}
		}
		return
	}
	clear(out)
	clear(under)
	above, j, even, by := 0.0, 1e-280, 0.0, 2/x
	i := len(out) - 1
	for order := top + 12 + int(1.5*math.Sqrt(float64(10*top))); order > 0; order-- {
		if i >= 0 && order == (2*i+1)*p {
			out[i] = j
		}
		above, j = j, float64(order)*by*j-above
		if math.Abs(j) > huge {
			above, j, even = above/huge, j/huge, even/huge
			for k := range out {
				out[k] /= huge
				if under != nil {
					under[k] /= huge
				}
			}
		}
		if i >= 0 && order == (2*i+1)*p {
			if under != nil {
				under[i] = j
			}
			i--
		}
		if order%2 == 1 {
			even += j // of order − 1
		}
	}
	whole := 1 / (2*even - j)
	for i := range out {
		out[i] *= whole
		if under != nil {
			under[i] *= whole
		}
	}
}

// moment is ∫ t·J1(t) dt from 0 to z, to about 1e-13.
func moment(z float64) float64 {
	switch {
	case z < 8:
		return momentBySeries(z)
	case z < 30:
		return momentBySum(z)
	}
	return momentFarOut(z)
}

// momentTerms are those of ∫ t·J1: (-1)^k/(2^(2k+1)·k!·(k+1)!·(2k+3)).
var momentTerms = func() (c [24]float64) {
	term := 0.5
	for k := range c {
		c[k] = term / float64(2*k+3)
		term /= -4 * float64((k+1)*(k+2))
	}
	return c
}()

func momentBySeries(z float64) float64 {
	sum, square := 0.0, z*z
	for k := len(momentTerms) - 1; k >= 0; k-- {
		sum = sum*square + momentTerms[k]
	}
	return sum * square * z
}

// momentBySum is -z·J0 + ∫ J0 with ∫ J0 = 2·(J1 + J3 + J5 + …) (Abramowitz and
// Stegun 11.1), all by Miller's recurrence downwards.
func momentBySum(z float64) float64 {
	above, j, parity := 0.0, 1e-30, [2]float64{}
	for order := 20 + 2*int(0.75*z); order > 0; order-- {
		parity[order%2] += j
		above, j = j, 2*float64(order)/z*j-above
	}
	return (2*parity[1] - z*j) / (j + 2*parity[0])
}

// momentFarOut is 1 + z·(J1·k0 − J0·k1), k0 and k1 the asymptotic series of
// π/2·(H − Y) of orders 0 and 1, H Struve's functions (Abramowitz and Stegun
// 11.1 and 12.1).
func momentFarOut(z float64) float64 {
	k0, k1, term := 1/z, 1.0, 1/(z*z)
	for k := 1; k <= 12; k++ {
		n := float64(2*k - 1)
		k1 += term * n
		term *= -n * n
		k0 += term / z
		term /= z * z
	}
	return 1 + z*(math.J1(z)*k0-math.J0(z)*k1)
}
