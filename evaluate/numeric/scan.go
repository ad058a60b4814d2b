package numeric

import (
	"cmp"
	"errors"
	"math"
	"slices"
)

// RootsOptions steer a search for roots. The zero value is a sensible choice.
type RootsOptions struct {
	Samples int                     // looks at the interval, ends included; 0 stands for 33
	Near    float64                 // what counts as zero where f touches it without crossing
	Helpers []func(float64) float64 // copies of f that may be called while f is
}

// A Scan is what a search for roots met.
type Scan struct {
	Roots           []float64    // rising
	Poles, Jumps    []float64    // where f changes its sign without a root, rising
	Stretches       [][2]float64 // where f is zero throughout; their ends are among Roots
	Left, Right     Point        // the outermost places looked at where f has a value
	Lowest, Highest Point        // the least and the greatest value met
	Nearest         Point        // where f came nearest to zero
	Gaps            int          // samples at which f has no value
	Calls           int          // evaluations of f
}

// Roots finds the roots of f between low and high: f is sampled at even
// distances, more closely where it changes its sign, and followed down where
// |f| is least between its neighbours, so that double roots and close pairs
// are found. What f does between two samples otherwise goes unseen; roots that
// are closer than 1e-7 of the interval are one. Where f has no value it gives
// NaN; the edges of such a gap are located to a thousandth of a sample's
// distance.
//
// A simple root that is crossed is as close as float64 allows, or to 1e-16 of
// the interval; one of order n to about the n-th root of that. A double root,
// at which f stays within 1e-10 of its neighbours or within Near, is known to
// about 1e-6 of the interval's 1/32.
//
// Without a root the error is a *RootError: NaN if f has no value anywhere or
// the interval is not finite, otherwise Pole, Jump or NoBracket. The Scan
// tells what was met in every case. Order and number of calls depend on
// nothing but f; with helpers, the samples are shared out.
func Roots(f func(float64) float64, low, high float64, o RootsOptions) (Scan, error) {
	if math.IsNaN(high-low) || math.IsInf(high-low, 0) {
		return Scan{}, &RootError{Cause: NaN, At: low, Left: low, Right: high, FLeft: math.NaN(), FRight: math.NaN()}
	}
	nowhere := Point{math.NaN(), math.NaN()}
	s := &scanner{f: f, near: o.Near, width: math.Abs(high - low),
		Scan: Scan{Left: nowhere, Right: nowhere, Lowest: nowhere, Highest: nowhere, Nearest: nowhere}}
	points := s.sample(min(low, high), max(low, high), o)
	points = s.edges(points)
	s.bounds(points)
	points = s.split(points)
	s.cells(points, 0)
	s.stretches(points)
	s.dips(points)
	s.settle()
	return s.Scan, s.verdict(low, high)
}

type scanner struct {
	Scan
	f           func(float64) float64
	near, width float64
}

// note keeps what a look at f came to.
func (s *scanner) note(p Point) Point {
	s.Calls++
	switch {
	case math.IsNaN(p.Value):
		return p
	case math.IsNaN(s.Nearest.X):
		s.Nearest, s.Lowest, s.Highest = p, p, p
	case math.Abs(p.Value) < math.Abs(s.Nearest.Value):
		s.Nearest = p
	}
	if p.Value < s.Lowest.Value {
		s.Lowest = p
	}
	if p.Value > s.Highest.Value {
		s.Highest = p
	}
	return p
}

func (s *scanner) at(x float64) Point { return s.note(Point{x, s.f(x)}) }

func (s *scanner) value(x float64) float64 { return s.at(x).Value }

func (s *scanner) sample(low, high float64, o RootsOptions) []Point {
	n := o.Samples
	if n == 0 {
		n = 33
	}
	n = max(n, 2)
	if low == high {
		n = 1
	}
	points := make([]Point, n)
	workers := append([]func(float64) float64{s.f}, o.Helpers...)
	Parallel(len(workers), n, func(w, i int) {
		x := high
		if i < n-1 {
			x = low + (high-low)*(float64(i)/float64(n-1))
		}
		points[i] = Point{x, workers[w](x)}
	})
	for _, p := range points {
		s.note(p)
		if math.IsNaN(p.Value) {
			s.Gaps++
		}
	}
	return points
}

// edges looks more closely where f begins or ceases to have a value.
func (s *scanner) edges(points []Point) []Point {
	const halvings = 10
	out := slices.Clone(points)
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		if math.IsNaN(a.Value) == math.IsNaN(b.Value) {
			continue
		}
		for range halvings {
			p := s.at(a.X + (b.X-a.X)/2)
			out = append(out, p)
			if math.IsNaN(p.Value) == math.IsNaN(a.Value) {
				a = p
			} else {
				b = p
			}
		}
	}
	return ordered(out)
}

func ordered(points []Point) []Point {
	slices.SortStableFunc(points, func(a, b Point) int { return cmp.Compare(a.X, b.X) })
	return points
}

func (s *scanner) bounds(points []Point) {
	for _, p := range points {
		if math.IsNaN(p.Value) {
			continue
		}
		if math.IsNaN(s.Left.X) {
			s.Left = p
		}
		s.Right = p
	}
}

// split looks more closely where the sign changes.
func (s *scanner) split(points []Point) []Point {
	const parts = 4
	out := slices.Clone(points)
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		for n := 1; n < parts && a.Value*b.Value < 0; n++ {
			out = append(out, s.at(a.X+(b.X-a.X)*float64(n)/parts))
		}
	}
	return ordered(out)
}

// cells finds the roots at the points and the changes of sign between them.
func (s *scanner) cells(points []Point, depth int) {
	for i, b := range points {
		if b.Value == 0 {
			s.Roots = append(s.Roots, b.X)
		}
		if i > 0 {
			s.cell(points[i-1], b, depth)
		}
	}
}

func (s *scanner) cell(a, b Point, depth int) {
	const deepest, finest = 3, 1e-16
	if !(a.Value < 0 && b.Value > 0 || a.Value > 0 && b.Value < 0) {
		return
	}
	x, err := root(s.value, a.X, b.X, finest*s.width)
	if err == nil {
		s.Roots = append(s.Roots, x)
		return
	}
	var e *RootError
	switch errors.As(err, &e); {
	case e.Cause == Pole:
		s.Poles = append(s.Poles, x)
	case e.Cause == Jump:
		s.Jumps = append(s.Jumps, x)
	case depth < deepest: // a gap in between: look at both sides of it
		s.Gaps++
		s.cells(s.edges([]Point{a, {x, math.NaN()}, b}), depth+1)
	}
}

// stretches notes where f is zero at several points on end.
func (s *scanner) stretches(points []Point) {
	for i := 0; i < len(points); i++ {
		first := i
		for i+1 < len(points) && points[i].Value == 0 && points[i+1].Value == 0 {
			i++
		}
		if i == first {
			continue
		}
		ends := [2]float64{s.lastZero(points, first, first-1), s.lastZero(points, i, i+1)}
		s.Stretches = append(s.Stretches, ends)
		s.Roots = slices.DeleteFunc(s.Roots, func(x float64) bool { return ends[0] <= x && x <= ends[1] })
		s.Roots = append(s.Roots, ends[0], ends[1])
	}
}

// lastZero is how far from point i towards point j f stays zero.
func (s *scanner) lastZero(points []Point, i, j int) float64 {
	const halvings = 40
	zero := points[i].X
	if j < 0 || j >= len(points) {
		return zero
	}
	other := points[j].X
	for range halvings {
		p := s.at(zero + (other-zero)/2)
		if p.Value == 0 {
			zero = p.X
		} else {
			other = p.X
		}
	}
	return zero
}

// settle puts what was found in order, each once.
func (s *scanner) settle() {
	const same = 1e-7
	for _, found := range []*[]float64{&s.Roots, &s.Poles, &s.Jumps} {
		slices.Sort(*found)
		*found = slices.CompactFunc(*found, func(a, b float64) bool { return math.Abs(b-a) <= same*s.width })
	}
}

// verdict is the reason for which there is no root, nil if there is one.
func (s *scanner) verdict(low, high float64) error {
	e := &RootError{Cause: NoBracket, At: s.Nearest.X, Left: low, Right: high, FLeft: s.Left.Value, FRight: s.Right.Value}
	switch {
	case len(s.Roots) > 0:
		return nil
	case math.IsNaN(s.Nearest.X):
		e.Cause, e.At = NaN, low
	case len(s.Poles) > 0:
		e.Cause, e.At = Pole, s.Poles[0]
	case len(s.Jumps) > 0:
		e.Cause, e.At = Jump, s.Jumps[0]
	}
	return e
}
