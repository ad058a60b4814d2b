package numeric

import "math"

// chooseFirst proposes a first step from the sizes of y, y' and y”.
func (s *stepper) chooseFirst() {
	direction := math.Copysign(1, s.end-s.t)
	if s.o.First > 0 {
		s.h = direction * s.o.First
		return
	}
	size, slope := s.norm(s.y), s.norm(s.k[0])
	h := 1e-6
	if size > 1e-5 && slope > 1e-5 {
		h = 0.01 * size / slope
	}
	h = min(h, math.Abs(s.end-s.t))
	for j := range s.y {
		s.next[j] = s.y[j] + direction*h*s.k[0][j]
	}
	s.call(s.t+direction*h, s.next, s.k[1])
	for j := range s.y {
		s.work[j] = (s.k[1][j] - s.k[0][j]) / h
	}
	most := max(slope, s.norm(s.work))
	second := max(1e-6, h*1e-3)
	if most > 1e-15 {
		second = math.Pow(0.01/most, 0.2)
	}
	if s.h = direction * min(100*h, second); math.IsNaN(s.h) || s.h == 0 {
		s.h = direction * h
	}
}

// norm is a vector in units of the tolerance, in the mean square.
func (s *stepper) norm(v []float64) float64 {
	sum := 0.0
	for j, x := range v {
		x /= s.tolerance(j, math.Abs(s.y[j]))
		sum += x * x
	}
	return math.Sqrt(sum / float64(len(v)))
}
