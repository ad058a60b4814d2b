package numeric

import "math"

// dips follows f down where |f| is less than at its neighbours.
func (s *scanner) dips(points []Point) {
	none := Point{math.NaN(), math.NaN()}
	at := func(i int) Point {
		if i < 0 || i >= len(points) || math.IsInf(points[i].Value, 0) {
			return none
		}
		return points[i]
	}
	for i := range points {
		a, m, b := at(i-1), at(i), at(i+1)
		switch {
		case m.Value == 0 || math.IsNaN(m.Value):
		case math.IsNaN(a.Value) && !math.IsNaN(b.Value):
			s.fromEdge(m, b)
		case math.IsNaN(b.Value) && !math.IsNaN(a.Value):
			s.fromEdge(m, a)
		case m.Value*a.Value > 0 && m.Value*b.Value > 0 &&
			math.Abs(m.Value) < math.Abs(a.Value) && math.Abs(m.Value) <= math.Abs(b.Value):
			s.dip(a, m, b)
		}
	}
}

// fromEdge looks a little way in from the outermost point: does |f| sink?
func (s *scanner) fromEdge(m, b Point) {
	const little = 0.01
	if m.Value*b.Value <= 0 || math.Abs(m.Value) > math.Abs(b.Value) {
		return
	}
	p := s.at(m.X + little*(b.X-m.X))
	switch {
	case p.Value*m.Value < 0:
		s.cell(m, p, 0)
		s.cell(p, b, 0)
	case p.Value == 0:
		s.Roots = append(s.Roots, p.X)
	case math.Abs(p.Value) < math.Abs(m.Value):
		s.dip(m, p, b)
	}
}

// dip goes down from m between a and b, to a touch or across zero.
func (s *scanner) dip(a, m, b Point) {
	const touch, promising, coarse, fine, most = 1e-10, 1e-3, 1e-4, 1e-12, 120
	if a.X > b.X {
		a, b = b, a
	}
	sign := math.Copysign(1, m.Value)
	size := min(math.Abs(a.Value), math.Abs(b.Value))
	if size == math.Abs(m.Value) { // m lies beside a level stretch
		size = max(math.Abs(a.Value), math.Abs(b.Value))
	}
	wide := b.X - a.X
	low := valley(func(x float64) float64 { return sign * s.value(x) }, a.X, b.X, Point{m.X, sign * m.Value},
		func(v float64) float64 {
			switch {
			case v <= 0:
				return wide // it has crossed: enough
			case v < promising*size:
				return fine * wide
			}
			return coarse * wide
		}, most)
	switch {
	case low.Value < 0:
		p := Point{low.X, sign * low.Value}
		s.cell(a, p, 0)
		s.cell(p, b, 0)
	case low.Value <= max(touch*size, s.near):
		s.Roots = append(s.Roots, low.X)
	}
}
