package numeric

import "math"

// A Curve is what came of a Track.
type Curve struct {
	Y      []float64 // at the end
	Looks  int       // how often Rates was worked
	pieces []piece
}

// rises is where a series rises above nought, before a place; that place if it does
// not. It may begin at nought.
func rises(c []float64, before float64) float64 {
	const parts = 64
	if low, high := bounds(c); low > 0 || high <= 0 {
		return before
	}
	last, was := -1.0, math.Inf(1)
	for k := 1; k <= parts && last < before; k++ {
		x := min(before, -1+2*float64(k)/parts)
		y := chebyshev(c, x)
		if y > 0 && was <= 0 {
			return Crossing(func(x float64) float64 { return chebyshev(c, x) }, last, x, was, y)
		}
		last, was = x, y
	}
	return before
}

// find is the piece that holds a place, and where in it, from -1 to 1.
func (c *Curve) find(x float64) (*piece, float64) {
	i, from := 0, c.pieces[0].a
	for i+1 < len(c.pieces) && math.Abs(x-from) > math.Abs(c.pieces[i].end-from) {
		i++
	}
	p := &c.pieces[i]
	return p, min(max(2*(x-p.a)/(p.b-p.a)-1, -1), 1)
}

// At writes the integrals at a place to y, and what is known there to known.
func (c *Curve) At(x float64, y, known []float64) {
	p, at := c.find(x)
	switch x {
	case p.a:
		copy(y, p.start)
	case c.pieces[len(c.pieces)-1].end:
		copy(y, c.Y)
	default:
		for i := range y {
			y[i] = chebyshev(p.integrals[i], at)
		}
	}
	for i := range known {
		known[i] = chebyshev(p.known[i], at)
	}
}

// Value is an integral at a place, or what stands behind the integrals.
func (c *Curve) Value(i int, x float64) float64 {
	p, at := c.find(x)
	return chebyshev(p.series(i), at)
}

// Joints are the places at which pieces meet: the ends of modes among them.
func (c *Curve) Joints() (list []float64) {
	for _, p := range c.pieces[1:] {
		list = append(list, p.a)
	}
	return list
}

// Largest is the largest of what is known along the way, of so much.
func (c *Curve) Largest(known int) float64 {
	const parts = 32
	best := math.Inf(-1)
	for i := range c.pieces {
		p := &c.pieces[i]
		if _, high := bounds(p.known[known]); high <= best {
			continue
		}
		last := 2*(p.end-p.a)/(p.b-p.a) - 1
		at := func(k int) float64 { return chebyshev(p.known[known], -1+(last+1)*float64(k)/parts) }
		top, value := 0, at(0)
		for k := 1; k <= parts; k++ {
			if y := at(k); y > value {
				top, value = k, y
			}
		}
		if top > 0 && top < parts {
			before, after := at(top-1), at(top+1)
			if bend := before - 2*value + after; bend < 0 {
				value += (before - after) * (before - after) / (-8 * bend)
			}
		}
		best = max(best, value)
	}
	return best
}

// To is where a curve ends, and Start what it begins with.
func (c *Curve) To() float64 { return c.pieces[len(c.pieces)-1].end }

// Start is an integral at the beginning.
func (c *Curve) Start(integral int) float64 { return c.pieces[0].start[integral] }

// Rises is the first place at which an integral, or what stands behind the integrals,
// rises above a level from below it; Falls is where it falls to it from above.
func (c *Curve) Rises(i int, level float64) (x float64, ok bool) { return c.passes(i, level, 1) }

// Falls is [Curve.Rises] downwards.
func (c *Curve) Falls(i int, level float64) (x float64, ok bool) { return c.passes(i, level, -1) }

// passes looks at places close by one another, and between two of them closely.
func (c *Curve) passes(i int, level, sign float64) (x float64, ok bool) {
	const parts = 24
	for k := range c.pieces {
		p := &c.pieces[k]
		series := p.series(i)
		if low, high := bounds(series); low > level || high < level {
			continue
		}
		of := func(at float64) float64 { return sign * (chebyshev(series, at) - level) }
		last := 2*(p.end-p.a)/(p.b-p.a) - 1
		at, was := -1.0, of(-1)
		for n := 1; n <= parts; n++ {
			next := -1 + (last+1)*float64(n)/parts
			y := of(next)
			if was < 0 && y >= 0 {
				at = Crossing(of, at, next, was, y)
				return p.a + (p.b-p.a)*(1+at)/2, true
			}
			at, was = next, y
		}
	}
	return 0, false
}

func (p *piece) series(i int) []float64 {
	if n := len(p.integrals); i >= n {
		return p.known[i-n]
	}
	return p.integrals[i]
}
