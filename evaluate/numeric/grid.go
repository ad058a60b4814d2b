package numeric

import (
	"cmp"
	"math"
	"slices"
)

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
	Parallel(len(s.workers), places, func(w, i int) { s.values[i] = s.workers[w].at(s.spot(i)) })
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
