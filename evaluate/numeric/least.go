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

// LeastOptions steer a search for the least value. The zero value is a
// sensible choice.
type LeastOptions struct {
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

// Least finds where f is least in a box of one to three variables. The workers
// are copies of f, each called from one goroutine at a time; what is found and
// the number of calls do not depend on how many there are. Where f has no
// value, or the place is not allowed, it gives NaN or +Inf.
//
// If all axes are stepped and have no more than 10,000 places together, each is
// tried. Otherwise the places of a coarse grid are, and the search goes down
// from the best of those that are no worse than their neighbours: by parabolas
// and golden sections in one continuous variable, by the simplex of Nelder and
// Mead and then by polling ever closer neighbours in several, and along steps
// by ever shorter strides. An optimum is not worse than any place tried; a
// narrow one that the grid misses is not found. Of equal ones the first in the
// order of the box wins. For the greatest value give -f.
func Least(workers []func(x []float64) float64, box []Axis, o LeastOptions) (Minimum, error) {
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

func newSearch(workers []func([]float64) float64, box []Axis, o LeastOptions) *search {
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

// tryGrid lays the grid, whole if that is possible, and works it.
func (s *search) tryGrid() {
	all, stepped := 1.0, true
	for _, a := range s.box {
		if a.Step > 0 {
			all *= float64(a.count())
		} else {
			stepped = false
		}
	}
	s.whole = stepped && all <= mostWhole
	s.axes = s.axes[:0]
	places := 1
	for _, a := range s.box {
		line := s.line(a)
		s.axes = append(s.axes, line)
		places *= len(line)
	}
	s.values = make([]float64, places)
	spread(len(s.workers), places, func(w, i int) { s.values[i] = s.workers[w].at(s.spot(i)) })
}

// line is the grid on one axis: its ends and even distances between them.
func (s *search) line(a Axis) []float64 {
	last, n := 1.0, s.grid
	if a.Step > 0 {
		last = float64(a.count() - 1)
		if n > a.count() || s.whole {
			n = a.count()
		}
	}
	if n < 2 || a.High == a.Low {
		return []float64{0}
	}
	line := make([]float64, n)
	for i := range line {
		line[i] = last * float64(i) / float64(n-1)
		if a.Step > 0 {
			line[i] = math.Round(line[i])
		}
	}
	return line
}

// spot is a place of the grid.
func (s *search) spot(i int) []float64 {
	u := make([]float64, len(s.axes))
	for k := len(s.axes) - 1; k >= 0; k-- {
		n := len(s.axes[k])
		u[k] = s.axes[k][i%n]
		i /= n
	}
	return u
}

func (s *search) anywhere() bool {
	return slices.ContainsFunc(s.values, func(v float64) bool { return !math.IsInf(v, 1) })
}

// valleys are the places of the grid that no neighbour beats, the best first;
// of equal neighbours the first stands. Where there are continuous axes,
// places that differ in steps are no neighbours.
func (s *search) valleys() []spot {
	var found []spot
	for i, v := range s.values {
		if !math.IsInf(v, 1) && s.lowest(i) {
			found = append(found, spot{s.spot(i), v})
		}
	}
	slices.SortStableFunc(found, func(a, b spot) int { return cmp.Compare(a.v, b.v) })
	return found
}

func (s *search) lowest(i int) bool {
	mixed := s.continuous() > 0
	stride, rest := 1, i
	near := []int{i}
	for k := len(s.axes) - 1; k >= 0; k-- {
		n := len(s.axes[k])
		here := rest % n
		rest /= n
		if !mixed || s.box[k].Step == 0 {
			for _, j := range near {
				if here > 0 {
					near = append(near, j-stride)
				}
				if here < n-1 {
					near = append(near, j+stride)
				}
			}
		}
		stride *= n
	}
	return !slices.ContainsFunc(near, func(j int) bool {
		return s.values[j] < s.values[i] || s.values[j] == s.values[i] && j < i
	})
}

// continuous is the number of continuous axes.
func (s *search) continuous() int {
	n := 0
	for _, a := range s.box {
		if a.Step == 0 && a.High > a.Low {
			n++
		}
	}
	return n
}

// descend goes down from the best places, each with one worker.
func (s *search) descend(found []spot) []spot {
	found = found[:min(len(found), s.starts)]
	out := make([]spot, len(found))
	spread(len(s.workers), len(found), func(w, i int) { out[i] = s.descent(s.workers[w]).from(found[i]) })
	return s.distinct(out)
}

// distinct drops what is near something better.
func (s *search) distinct(found []spot) []spot {
	const near = 1e-3
	slices.SortStableFunc(found, func(a, b spot) int { return cmp.Compare(a.v, b.v) })
	var out []spot
	for _, p := range found {
		if !slices.ContainsFunc(out, func(q spot) bool { return farther(p.u, q.u) <= near }) {
			out = append(out, p)
		}
	}
	return out
}

func farther(a, b []float64) float64 {
	d := 0.0
	for i := range a {
		d = max(d, math.Abs(a[i]-b[i]))
	}
	return d
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
