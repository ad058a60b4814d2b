package numeric

import (
	"math"
	"sort"
)

// Weights of the fifth term of the dense output (Hairer, Nørsett, Wanner I,
// II.6, after Shampine).
var denseWeights = [7]float64{-12715105075. / 11282082432, 0, 87487479700. / 32700410799, -10690763975. / 1880347072,
	701980252875. / 199316789632, -1453857185. / 822651844, 69997945. / 29380423}

// A segment is the path within one step, a polynomial of the fourth order.
type segment struct {
	t, h float64
	c    [5][]float64
}

// fill computes the polynomial of a step.
func (g *segment) fill(t, h float64, y, next []float64, k *[7][]float64) {
	g.t, g.h = t, h
	n, d := len(y), &denseWeights
	k1, k3, k4, k5, k6, k7 := k[0][:n], k[2][:n], k[3][:n], k[4][:n], k[5][:n], k[6][:n]
	c0, c1, c2, c3, c4 := g.c[0][:n], g.c[1][:n], g.c[2][:n], g.c[3][:n], g.c[4][:n]
	next = next[:n]
	for j := range y {
		rise := next[j] - y[j]
		bend := h*k1[j] - rise
		c0[j], c1[j], c2[j], c3[j] = y[j], rise, bend, rise-h*k7[j]-bend
		c4[j] = h * (d[0]*k1[j] + d[2]*k3[j] + d[3]*k4[j] + d[4]*k5[j] + d[5]*k6[j] + d[6]*k7[j])
	}
}

// at writes the state at the part x of the step, 0 to 1, to y.
func (g *segment) at(x float64, y []float64) {
	z, n := 1-x, len(y)
	c0, c1, c2, c3, c4 := g.c[0][:n], g.c[1][:n], g.c[2][:n], g.c[3][:n], g.c[4][:n]
	for j := range y {
		y[j] = c0[j] + x*(c1[j]+z*(c2[j]+x*(c3[j]+z*c4[j])))
	}
}

// A Path is the solution between its steps.
type Path struct {
	segments []segment
	room     []float64 // for the next segments
	end      float64
}

// add keeps a segment. Room is taken for as many more as there are, so that few
// allocations serve.
func (p *Path) add(g *segment) {
	const fewest = 4
	n := len(g.c[0])
	if len(p.room) < len(g.c)*n {
		p.room = make([]float64, len(g.c)*n*max(fewest, len(p.segments)))
	}
	own := segment{t: g.t, h: g.h}
	for i := range g.c {
		own.c[i], p.room = p.room[:n:n], p.room[n:]
		copy(own.c[i], g.c[i])
	}
	p.segments = append(p.segments, own)
}

// Span is the first and the last time of the path, in the order travelled.
func (p *Path) Span() (from, to float64) {
	if len(p.segments) == 0 {
		return math.NaN(), math.NaN()
	}
	return p.segments[0].t, p.end
}

// At writes the state at time t to y, to the fourth order; it reports whether
// t is on the path.
func (p *Path) At(t float64, y []float64) bool {
	from, to := p.Span()
	if !(min(from, to) <= t && t <= max(from, to)) {
		return false
	}
	forward := to >= from
	i := sort.Search(len(p.segments), func(i int) bool {
		if forward {
			return p.segments[i].t > t
		}
		return p.segments[i].t < t
	})
	g := &p.segments[max(i-1, 0)]
	g.at(min(max((t-g.t)/g.h, 0), 1), y)
	return true
}
