package generator

import "math"

// odd puts J_p(x), J_3p(x), J_5p(x) … into out. Above the highest order the
// recurrence may run upwards (NIST Digital Library of Mathematical Functions 10.74(iv)).
func odd(out []float64, p int, x float64) { oddAndBelow(out, nil, p, x) }

// oddAndBelow is odd, with the order below each, J_(p−1)(x), J_(3p−1)(x) … in
// under, if it is wanted.
func oddAndBelow(out, under []float64, p int, x float64) {
	if top := (2*len(out) - 1) * p; x < float64(top) {
		for i := range out {
			out[i] = math.Jn((2*i+1)*p, x)
			if under != nil {
				under[i] = math.Jn((2*i+1)*p-1, x)
			}
		}
		return
	}
	below, j, order := math.J0(x), math.J1(x), 1
	for i := range out {
		for ; order < (2*i+1)*p; order++ {
			below, j = j, 2*float64(order)/x*j-below
		}
		if out[i] = j; under != nil {
			under[i] = below
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
