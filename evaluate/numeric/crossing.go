package numeric

import "math"

// Crossing is where f passes zero between a and b, at which it is fa and fb of
// different signs: bisection, and inverse quadratic interpolation where that is
// safe (T. R. Chandrupatla, Adv. Eng. Softw. 28 (1997) 145), which takes about
// eight evaluations on smooth f.
func Crossing(f func(float64) float64, a, b, fa, fb float64) float64 {
	const parts = 1e-14
	small := parts * math.Abs(b-a)
	c, fc, part := a, fa, 0.5
	for range 100 {
		x := a + part*(b-a)
		fx := f(x)
		if math.Signbit(fx) == math.Signbit(fa) {
			c, fc = a, fa
		} else {
			c, b, fc, fb = b, a, fb, fa
		}
		a, fa = x, fx
		best, fbest := a, fa
		if math.Abs(fb) < math.Abs(fa) {
			best, fbest = b, fb
		}
		least := (small + 2*parts*math.Abs(best)) / math.Abs(b-c)
		if fbest == 0 || least > 0.5 {
			return best
		}
		xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
		part = 0.5
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			part = fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		}
		part = min(max(part, least), 1-least)
	}
	return a
}
