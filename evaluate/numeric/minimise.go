package numeric

import (
	"cmp"
	"errors"
	"math"
	"slices"
)

// An Axis is the range of one variable: Low, Low + Step and so on up to High,
// or everything between them if Step is 0.
type Axis struct{ Low, High, Step float64 }

// count is the number of places on a stepped axis.
func (a Axis) count() int {
	const rounding = 1e-9
	return int(math.Floor((a.High-a.Low)/a.Step+rounding)) + 1
}

// at is the place for a coordinate: the number of steps, or the part of the way.
func (a Axis) at(u float64) float64 {
	switch {
	case a.Step > 0:
		return min(a.Low+u*a.Step, a.High)
	case u == 1:
		return a.High
	}
	return a.Low + u*(a.High-a.Low)
}

// MinimiseOptions steer a search for the least value. The zero value is a
// sensible choice.
type MinimiseOptions struct {
	Grid      int     // places on each axis of the coarse grid; 0 stands for 65, 21 or 11 for one, two or three variables
	Tolerance float64 // how closely an optimum is located, as part of each range; 0 stands for 1e-7
	Starts    int     // places of the grid from which to go down; 0 stands for 8
}

// An Optimum is a place and the value there.
type Optimum struct {
	X     []float64
	Value float64
}

// A Minimum is what a search for the least value found.
type Minimum struct {
	Optimum
	Others []Optimum // further local optima, the best first
	Whole  bool      // everything there is was tried: stepped axes with up to 10,000 places
	Calls  int
	Gaps   int // calls that gave no value
}

// Why there is no least value.
var (
	ErrBox   = errors.New("a range is not finite, ends before it begins or has too many steps")
	ErrNoFit = errors.New("the function has no value anywhere it was tried")
)

// mostWhole is how many places are tried one by one.
const mostWhole = 10_000

// Minimise finds where f is least in a box of one to three variables. The workers
// are copies of f, each called from one goroutine at a time; what is found and
// the number of calls do not depend on how many there are. Where f has no
// value, or the place is not allowed, it gives NaN or +Inf.
//
// If all axes are stepped and have no more than 10,000 places together, each is
// tried. Otherwise the places of a coarse grid are, and the search goes down
// from the best of those that are no worse than their neighbours: by parabolas
// and golden sections in one continuous variable, by the simplex of Nelder and
// Mead and then by polling ever closer neighbours in several, with one variable
// nested in another where there are gaps, and along steps by ever shorter
// strides. An optimum is not worse than any place tried; a
// narrow one that the grid misses is not found. Of equal ones the first in the
// order of the box wins. For the greatest value give -f.
func Minimise(workers []func(x []float64) float64, box []Axis, o MinimiseOptions) (Minimum, error) {
	if len(workers) == 0 || len(box) == 0 || len(box) > 3 || !sound(box) {
		return Minimum{}, ErrBox
	}
	s := newSearch(workers, box, o)
	for range 3 {
		s.tryGrid()
		if s.anywhere() || s.whole {
			break
		}
		s.grid = 2*s.grid - 1 // the slivers between
	}
	if !s.anywhere() {
		return s.result(nil), ErrNoFit
	}
	found := s.valleys()
	if !s.whole {
		found = s.descend(found)
	}
	return s.result(found), nil
}

func sound(box []Axis) bool {
	const most = 1e9
	for _, a := range box {
		wide := a.High - a.Low
		if !(wide >= 0) || math.IsInf(wide, 0) || !(a.Step >= 0) || a.Step > 0 && wide/a.Step > most {
			return false
		}
	}
	return true
}

// A spot is a place in coordinates and the value there, +Inf for none.
type spot struct {
	u []float64
	v float64
}

// A search keeps its place on each axis as a coordinate: steps or part of the way.
type search struct {
	box       []Axis
	workers   []*counted
	grid      int
	tolerance float64
	starts    int
	axes      [][]float64 // coordinates of the grid
	whole     bool
	values    []float64 // on the grid, the last axis running fastest
}

// counted is a worker with its own room and count.
type counted struct {
	box         []Axis
	f           func([]float64) float64
	x           []float64
	calls, gaps int
}

func (c *counted) at(u []float64) float64 {
	for i, a := range c.box {
		c.x[i] = a.at(u[i])
	}
	c.calls++
	v := wall(c.f(c.x))
	if math.IsInf(v, 1) {
		c.gaps++
	}
	return v
}

func newSearch(workers []func([]float64) float64, box []Axis, o MinimiseOptions) *search {
	s := &search{box: box, grid: o.Grid, tolerance: o.Tolerance, starts: o.Starts}
	if s.grid < 2 {
		s.grid = [...]int{65, 21, 11}[len(box)-1]
	}
	if s.tolerance <= 0 {
		s.tolerance = 1e-7
	}
	if s.starts < 1 {
		s.starts = 8
	}
	for _, f := range workers {
		s.workers = append(s.workers, &counted{box: box, f: f, x: make([]float64, len(box))})
	}
	return s
}

// descend goes down from the best places, each with one worker.
func (s *search) descend(found []spot) []spot {
	found = found[:min(len(found), s.starts)]
	out := make([]spot, len(found))
	Parallel(len(s.workers), len(found), func(w, i int) { out[i] = s.descent(s.workers[w]).from(found[i]) })
	out = s.distinct(out)
	if d := s.descent(s.workers[0]); s.result(nil).Gaps > 0 && len(out) > 0 {
		out[0] = d.alongLimit(out[0])
	}
	return out
}

// distinct drops what is within a cell of the grid of something better.
func (s *search) distinct(found []spot) []spot {
	slices.SortStableFunc(found, func(a, b spot) int { return cmp.Compare(a.v, b.v) })
	cell := s.cells()
	var out []spot
	for _, p := range found {
		if !slices.ContainsFunc(out, func(q spot) bool { return within(p.u, q.u, cell) }) {
			out = append(out, p)
		}
	}
	return out
}

func within(a, b, cell []float64) bool {
	for i := range a {
		if math.Abs(a[i]-b[i]) > cell[i] {
			return false
		}
	}
	return true
}

// cells are the greatest distances between neighbours on the grid.
func (s *search) cells() []float64 {
	cell := make([]float64, len(s.axes))
	for k, line := range s.axes {
		for i := 1; i < len(line); i++ {
			cell[k] = max(cell[k], line[i]-line[i-1])
		}
	}
	return cell
}

func (s *search) result(found []spot) Minimum {
	m := Minimum{Whole: s.whole, Optimum: Optimum{Value: math.NaN()}}
	for i, p := range found {
		best := Optimum{make([]float64, len(p.u)), p.v}
		for k, a := range s.box {
			best.X[k] = a.at(p.u[k])
		}
		if i == 0 {
			m.Optimum = best
		} else {
			m.Others = append(m.Others, best)
		}
	}
	for _, w := range s.workers {
		m.Calls, m.Gaps = m.Calls+w.calls, m.Gaps+w.gaps
	}
	return m
}
