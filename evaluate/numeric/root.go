package numeric

import (
	"fmt"
	"math"
)

// A RootCause is why no root was found.
type RootCause uint8

// The causes.
const (
	NoBracket RootCause = iota // the function has one sign at both ends
	Pole                       // the sign changes where the function runs away
	Jump                       // the sign changes where the function jumps
	NaN                        // the function is no number at At
)

// A RootError says why no root was found, and where.
type RootError struct {
	Cause         RootCause
	At            float64 // of the pole, jump or NaN; the left end without a bracket
	Left, Right   float64 // the bracket
	FLeft, FRight float64
}

// Error tells cause and place.
func (e *RootError) Error() string {
	switch e.Cause {
	case Pole:
		return fmt.Sprintf("no root between %.6g and %.6g: a pole at %.6g", e.Left, e.Right, e.At)
	case Jump:
		return fmt.Sprintf("no root between %.6g and %.6g: a jump at %.6g", e.Left, e.Right, e.At)
	case NaN:
		return fmt.Sprintf("no number at %.6g between %.6g and %.6g", e.At, e.Left, e.Right)
	}
	return fmt.Sprintf("no root bracketed by %.6g and %.6g: the values are %.6g and %.6g", e.Left, e.Right, e.FLeft, e.FRight)
}

// rootWidth is how closely a root is enclosed, relative to its size.
const rootWidth = 4e-16

// root finds x in [left, right] with f(x) = 0, where f must have different
// signs, or a zero, at the ends. The answer is as close as float64 allows for
// a simple root; a root of order n is known to about the n-th root of that.
// Otherwise the error is a *RootError.
//
// A sign change is a root if f shrinks as the bracket does. Compared are the
// differences of f across the final bracket and across one that is about 1e-6
// of the first: greater inside is a pole, about as great is a jump. A slope
// that is steeper than that can tell is taken for a jump. The bracket is closed
// to no less than an absolute width.
func root(f func(float64) float64, left, right, width float64) (float64, error) {
	a, b := f(left), f(right)
	fail := func(c RootCause, at float64) (float64, error) {
		return at, &RootError{c, at, left, right, a, b}
	}
	switch {
	case a == 0:
		return left, nil
	case b == 0:
		return right, nil
	case math.IsNaN(a) || math.IsInf(left, 0) || math.IsNaN(left):
		return fail(NaN, left)
	case math.IsNaN(b) || math.IsInf(right, 0) || math.IsNaN(right):
		return fail(NaN, right)
	case (a < 0) == (b < 0):
		return fail(NoBracket, left)
	}
	g := narrow(f, left, a, right, b, width)
	x, v := g.best()
	switch {
	case math.IsNaN(v):
		return fail(NaN, x)
	case v == 0:
		return x, nil
	}
	return judge(f, g, x, left, right, fail)
}

// judge tells a root from a pole and a jump.
func judge(f func(float64) float64, g bracket, x, left, right float64, fail func(RootCause, float64) (float64, error)) (float64, error) {
	const around, wide, alike = 1e-6, 1e3, 0.1
	reach := math.Max(around*math.Abs(right-left), wide*math.Abs(g.b-g.a))
	if reach > math.Abs(right-left) {
		return x, nil // too short a bracket to tell
	}
	low, high := min(left, right), max(left, right)
	inside := math.Abs(g.fa - g.fb)
	outside := math.Abs(f(min(x+reach, high)) - f(max(x-reach, low)))
	switch {
	case math.IsInf(inside, 0) || inside > 2*outside:
		return fail(Pole, x)
	case inside > alike*outside:
		return fail(Jump, x)
	}
	return x, nil
}

// A bracket encloses a change of sign.
type bracket struct{ a, fa, b, fb float64 }

// best is the end at which the function is smaller; an end that is no number
// comes first.
func (g bracket) best() (x, v float64) {
	if math.Abs(g.fb) < math.Abs(g.fa) {
		return g.b, g.fb
	}
	return g.a, g.fa
}

// past is the end at which the function has the sign of v, or is zero.
func (g bracket) past(v float64) (x, f float64) {
	if g.fa == 0 || g.fb != 0 && (g.fa < 0) == (v < 0) {
		return g.a, g.fa
	}
	return g.b, g.fb
}

// narrow closes a bracket in on a change of sign, by inverse quadratic
// interpolation where that is safe and by halving elsewhere (Chandrupatla), to
// a width that is relative to the root and no less than an absolute one.
func narrow(f func(float64) float64, a, fa, b, fb, width float64) bracket {
	const most = 300 // halving alone needs 53 and the exponent's range in the worst case
	c, fc, t := b, fb, 0.5
	// On entry a and b enclose the change; c is the point that fell out last.
	for range most {
		x := a + t*(b-a)
		v := f(x)
		if math.IsNaN(v) {
			return bracket{x, v, b, fb}
		}
		if (v < 0) == (fa < 0) && v != 0 {
			c, fc = a, fa
		} else {
			c, fc, b, fb = b, fb, a, fa
		}
		a, fa = x, v
		best, _ := bracket{a, fa, b, fb}.best()
		least := (rootWidth*math.Abs(best) + width) / math.Abs(b-a)
		if fa == 0 || least > 0.5 || math.Abs(b-a) <= 2*ulp(best) {
			break
		}
		t = interpolate(a, fa, b, fb, c, fc)
		t = min(max(t, least), 1-least)
	}
	return bracket{a, fa, b, fb}
}

// interpolate says what part of the way from a to b to go next.
func interpolate(a, fa, b, fb, c, fc float64) float64 {
	xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
	if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
		t := fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		if !math.IsNaN(t) {
			return t
		}
	}
	return 0.5
}
