package numeric

import (
	"math"
	"slices"
)

// alongLimit goes down along a limit by pairs of continuous variables.
func (d *descent) alongLimit(p spot) spot {
	const rounds, settled = 4, 1e-7
	for range rounds {
		before := p.v
		for i, a := range d.free {
			for _, b := range d.free[i+1:] {
				p = d.nest(p, a, b)
			}
		}
		if len(d.free) < 3 || !(before-p.v > settled*math.Abs(before)) {
			break
		}
	}
	return p
}

// nest goes down in two variables: one takes the way down of its own at every
// place of the other, and meets the limit squarely.
func (d *descent) nest(p spot, a, b int) spot {
	best := p
	u := slices.Clone(p.u)
	inner := func(y float64) float64 {
		u[b] = y
		v := d.at(u)
		if v < best.v {
			best = spot{slices.Clone(u), v}
		}
		return v
	}
	outer := func(x float64) float64 {
		u[a] = x
		return d.within(inner, best.u[b], d.cell[b]).Value
	}
	d.within(outer, p.u[a], d.cell[a])
	return best
}

// within is the least value within a cell of the grid about x: of a few places
// the best, and down from there.
func (d *descent) within(f func(float64) float64, x, cell float64) Point {
	const parts, most = 6, 60
	low, high := max(x-cell, 0), min(x+cell, 1)
	step := (high - low) / parts
	m := Point{math.NaN(), math.Inf(1)}
	for i := range parts + 1 {
		at := low + float64(i)*step
		if v := f(at); v < m.Value {
			m = Point{at, v}
		}
	}
	if math.IsNaN(m.X) {
		return m
	}
	return valley(f, max(m.X-step, low), min(m.X+step, high), m, func(float64) float64 { return d.tolerance }, most)
}
