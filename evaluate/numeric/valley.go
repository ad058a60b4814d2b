package numeric

import "math"

// A Point is a place and the value there.
type Point struct{ X, Value float64 }

// valley goes down from m to a local minimum of f between a and b, by
// parabolas where they serve and by golden sections elsewhere. It ends when
// the minimum is enclosed to a width that the value reached asks for, or after
// the most calls; what is no number counts as a wall. (R. P. Brent, Algorithms
// for Minimization without Derivatives, 1973, chapter 5; from memory.)
func valley(f func(float64) float64, a, b float64, m Point, width func(v float64) float64, most int) Point {
	x, w, v := m, m, m
	step, before := 0.0, 0.0
	for range most {
		mid, tol := (a+b)/2, width(x.Value)
		if math.Abs(x.X-mid)+(b-a)/2 <= 2*tol {
			break
		}
		wide := before
		before = step
		step = parabola(x, w, v)
		at := x.X + step
		if !(math.Abs(step) < math.Abs(wide)/2) || at-a < 2*tol || b-at < 2*tol {
			before = b - x.X
			if x.X >= mid {
				before = a - x.X
			}
			step = golden * before
		}
		if math.Abs(step) < tol {
			step = math.Copysign(tol, step)
		}
		u := Point{X: x.X + step}
		u.Value = wall(f(u.X))
		if u.Value <= x.Value {
			if u.X >= x.X {
				a = x.X
			} else {
				b = x.X
			}
			v, w, x = w, x, u
			continue
		}
		if u.X < x.X {
			a = u.X
		} else {
			b = u.X
		}
		switch {
		case u.Value <= w.Value || w.X == x.X:
			v, w = w, u
		case u.Value <= v.Value || v.X == x.X || v.X == w.X:
			v = u
		}
	}
	return x
}

const golden = 0.3819660112501051 // (3 - √5)/2

// parabola is the way from x to the lowest point of the parabola through three
// points, no number if it has none.
func parabola(x, w, v Point) float64 {
	r := (x.X - w.X) * (x.Value - v.Value)
	q := (x.X - v.X) * (x.Value - w.Value)
	p := (x.X-v.X)*q - (x.X-w.X)*r
	if q = 2 * (q - r); q == 0 {
		return math.NaN()
	}
	return -p / q
}

// wall makes what is no number infinite.
func wall(v float64) float64 {
	if math.IsNaN(v) {
		return math.Inf(1)
	}
	return v
}
