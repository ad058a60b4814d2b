package numeric

import (
	"math"
	"slices"
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
	for j := range y {
		rise := next[j] - y[j]
		bend := h*k[0][j] - rise
		fifth := 0.0
		for i, d := range denseWeights {
			fifth += d * k[i][j]
		}
		g.c[0][j], g.c[1][j], g.c[2][j] = y[j], rise, bend
		g.c[3][j], g.c[4][j] = rise-h*k[6][j]-bend, h*fifth
	}
}

// at writes the state at the part x of the step, 0 to 1, to y.
func (g *segment) at(x float64, y []float64) {
	z := 1 - x
	for j := range y {
		y[j] = g.c[0][j] + x*(g.c[1][j]+z*(g.c[2][j]+x*(g.c[3][j]+z*g.c[4][j])))
	}
}

// A Path is the solution between its steps.
type Path struct {
	segments []segment
	end      float64
}

func (p *Path) add(g *segment) {
	own := segment{t: g.t, h: g.h}
	for i := range g.c {
		own.c[i] = slices.Clone(g.c[i])
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
