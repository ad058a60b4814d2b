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
	s := &slope{a: a, b: b, x: m, w: m, v: m}
	for range most {
		tol := width(s.x.Value)
		if math.Abs(s.x.X-(s.a+s.b)/2)+(s.b-s.a)/2 <= 2*tol {
			break
		}
		u := Point{X: s.next(tol)}
		u.Value = wall(f(u.X))
		s.take(u)
	}
	return s.x
}

// A slope is a minimum enclosed by a and b, with the three lowest points: x, w, v.
type slope struct {
	a, b         float64
	x, w, v      Point
	step, before float64 // the last steps
}

// next is where to look next.
func (s *slope) next(tol float64) float64 {
	x, wide := s.x.X, s.before
	s.before = s.step
	s.step = parabola(s.x, s.w, s.v)
	at := x + s.step
	if !(math.Abs(s.step) < math.Abs(wide)/2) || at-s.a < 2*tol || s.b-at < 2*tol {
		s.before = s.b - x
		if x >= (s.a+s.b)/2 {
			s.before = s.a - x
		}
		s.step = golden * s.before
	}
	if math.Abs(s.step) < tol {
		s.step = math.Copysign(tol, s.step)
	}
	return x + s.step
}

// take closes in by what was seen at u.
func (s *slope) take(u Point) {
	worse, better := u, s.x // the worse becomes an end
	if u.Value <= s.x.Value {
		worse, better = s.x, u
	}
	if worse.X < better.X || worse.X == better.X && u.Value <= s.x.Value {
		s.a = worse.X
	} else {
		s.b = worse.X
	}
	switch {
	case u.Value <= s.x.Value:
		s.v, s.w, s.x = s.w, s.x, u
	case u.Value <= s.w.Value || s.w.X == s.x.X:
		s.v, s.w = s.w, u
	case u.Value <= s.v.Value || s.v.X == s.x.X || s.v.X == s.w.X:
		s.v = u
	}
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
