package numeric

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/optimize"
)

// A descent goes down from one place of the grid.
type descent struct {
	*counted
	free, stepped []int     // the continuous and the stepped axes
	cell          []float64 // distance on the grid
	tolerance     float64
}

func (s *search) descent(w *counted) *descent {
	d := &descent{counted: w, tolerance: s.tolerance, cell: s.cells()}
	for k, line := range s.axes {
		switch {
		case len(line) < 2:
		case s.box[k].Step > 0:
			d.stepped = append(d.stepped, k)
		default:
			d.free = append(d.free, k)
		}
	}
	return d
}

// from goes down along the continuous axes, then along the steps with the
// continuous axes following, by strides that are halved when none is better.
func (d *descent) from(p spot) spot {
	p = d.slide(p)
	reach := make([]float64, len(d.stepped))
	for i, k := range d.stepped {
		reach[i] = d.cell[k]
	}
	seen := map[[3]float64]bool{d.steps(p): true}
	for len(reach) > 0 {
		q := d.stride(p, reach, seen)
		if q.v < p.v {
			p = q
			continue
		}
		if slices.Max(reach) <= 1 {
			break
		}
		for i := range reach {
			reach[i] = max(1, math.Round(reach[i]/2))
		}
	}
	return p
}

// steps is a place on the stepped axes.
func (d *descent) steps(p spot) (at [3]float64) {
	for i, k := range d.stepped {
		at[i] = p.u[k]
	}
	return at
}

// stride is the best of the places one stride away in steps that have not
// been seen, or p.
func (d *descent) stride(p spot, reach []float64, seen map[[3]float64]bool) spot {
	best := p
	for _, way := range ways(len(d.stepped)) {
		q := spot{slices.Clone(p.u), math.Inf(1)}
		for i, k := range d.stepped {
			last := float64(d.box[k].count() - 1)
			q.u[k] = min(max(q.u[k]+way[i]*reach[i], 0), last)
		}
		if seen[d.steps(q)] {
			continue
		}
		seen[d.steps(q)] = true
		if q.v = d.at(q.u); math.IsInf(q.v, 1) {
			continue
		}
		if q = d.slide(q); q.v < best.v {
			best = q
		}
	}
	return best
}

// ways are the directions to the neighbours on n axes, each -1, 0 or 1.
func ways(n int) [][]float64 {
	out := [][]float64{{}}
	for range n {
		var more [][]float64
		for _, w := range out {
			for _, x := range []float64{-1, 0, 1} {
				more = append(more, append(append([]float64(nil), w...), x))
			}
		}
		out = more
	}
	return out
}

// slide goes down along the continuous axes.
func (d *descent) slide(p spot) spot {
	switch len(d.free) {
	case 0:
		return p
	case 1:
		return d.line(p)
	}
	const rounds, settled = 6, 1e-10
	size, start := 1.0, p.v
	for range rounds {
		before := p.v
		p = d.poll(d.simplex(p, size), size)
		if !(before-p.v > settled*(start-p.v)) {
			break
		}
		size = max(size/4, 1e-3)
	}
	return p
}

// line goes down along the one continuous axis, within the neighbouring places
// of the grid, and further while the end is the best.
func (d *descent) line(p spot) spot {
	const most, moves = 100, 50
	k := d.free[0]
	u := slices.Clone(p.u)
	f := func(x float64) float64 { u[k] = x; return d.at(u) }
	m := Point{p.u[k], p.v}
	for range moves {
		from := m.X
		m = valley(f, max(from-d.cell[k], 0), min(from+d.cell[k], 1), m,
			func(float64) float64 { return d.tolerance }, most)
		if math.Abs(m.X-from) < d.cell[k]*0.99 {
			break
		}
	}
	u[k] = m.X
	return spot{u, m.Value}
}

// simplex goes down by the method of Nelder and Mead, whose steps beyond the
// box are folded back into it.
func (d *descent) simplex(p spot, size float64) spot {
	u := slices.Clone(p.u)
	best := spot{slices.Clone(p.u), p.v}
	var trouble any
	// The simplex counts in distances of the grid, from p. It calls from a
	// goroutine of its own, so that a panic is carried over.
	f := func(z []float64) (v float64) {
		defer func() {
			if r := recover(); r != nil {
				trouble, v = r, math.Inf(1)
			}
		}()
		if trouble != nil {
			return math.Inf(1)
		}
		for i, k := range d.free {
			u[k] = fold(p.u[k] + z[i]*d.cell[k])
		}
		if v = d.at(u); v < best.v {
			best.v = v
			copy(best.u, u)
		}
		return v
	}
	n := len(d.free)
	settings := &optimize.Settings{
		FuncEvaluations: 250 * n,
		Converger:       &optimize.FunctionConverge{Absolute: 1e-14, Relative: 1e-13, Iterations: 15 * n},
		InitValues:      &optimize.Location{F: p.v},
	}
	// How it ended is of no concern: the best place is kept above.
	_, _ = optimize.Minimize(optimize.Problem{Func: f}, make([]float64, n), settings, &optimize.NelderMead{SimplexSize: size})
	if trouble != nil {
		panic(trouble)
	}
	return best
}

// fold reflects a part of the way at 0 and 1 into between.
func fold(u float64) float64 {
	u = math.Abs(math.Mod(u, 2))
	if u > 1 {
		u = 2 - u
	}
	return u
}

// poll looks along a frame of directions, a new one each time, going on in
// what is better and closing in when nothing is, to the tolerance. Frames that
// turn find the way along a limit that the simplex collapses on; the way is
// narrow there, so more of them are tried beside a gap before closing in
// (C. Audet, J. E. Dennis, SIAM J. Optim. 17 (2006) 188; from memory).
func (d *descent) poll(p spot, size float64) spot {
	const most, beside = 400, 2
	reach, failed := size/4, 0
	for turn := 0; reach*d.widest() > d.tolerance && turn < most; turn++ {
		gaps := d.gaps
		q := d.around(p, reach, turn)
		switch {
		case q.v < p.v:
			p, reach, failed = q, min(2*reach, size), 0
		case d.gaps > gaps && failed < beside:
			failed++
		default:
			reach, failed = reach/2, 0
		}
	}
	return p
}

// around is the first better place on a frame about p, or p.
func (d *descent) around(p spot, reach float64, turn int) spot {
	u := slices.Clone(p.u)
	for _, way := range frame(len(d.free), turn) {
		copy(u, p.u)
		for i, k := range d.free {
			u[k] = min(max(p.u[k]+way[i]*reach*d.cell[k], 0), 1)
		}
		if v := d.at(u); v < p.v {
			return spot{u, v}
		}
	}
	return p
}

func (d *descent) widest() float64 {
	wide := 0.0
	for _, k := range d.free {
		wide = max(wide, d.cell[k])
	}
	return wide
}

// frame is an orthogonal frame and its opposite, I - 2q·qᵀ with a unit vector
// q that goes round with the turns; the first lies along the axes.
func frame(n, turn int) [][]float64 {
	q := make([]float64, n)
	a := float64(turn) * math.Pi * golden
	q[0], q[1] = math.Sin(a), 1-math.Cos(a)
	if n == 3 {
		q[2] = math.Sin(float64(turn) * math.Sqrt2)
	}
	size := math.Sqrt(dot(q, q))
	if size == 0 {
		size = 1
	}
	var out [][]float64
	for i := range n {
		for _, sign := range []float64{1, -1} {
			way := make([]float64, n)
			for j := range way {
				way[j] = -2 * sign * q[i] * q[j] / (size * size)
			}
			way[i] += sign
			out = append(out, way)
		}
	}
	return out
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, x := range a {
		sum += x * b[i]
	}
	return sum
}
