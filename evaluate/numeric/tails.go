package numeric

import (
	"math"
	"slices"
)

// scaled makes the series of an integral out of that from -1 to 1.
func (w *collocation) scaled(c []float64, start float64) {
	half := (w.b - w.a) / 2
	for k := range c {
		c[k] *= half
	}
	c[0] += start
}

// seriesOf is the series of a value, until the next is asked for.
func (w *collocation) seriesOf(i int) []float64 {
	n := w.l.n + 1
	column, out := w.column[:n], w.out[:n]
	for j := range n {
		column[j] = w.values[j][i]
	}
	for k := range n {
		out[k] = dot(w.l.series[k], column)
	}
	return out
}

// tails are the errors of the integrals over this piece by what they may be, as the last
// terms of the rates say, and what they will be with twice the places.
func (w *collocation) tails() (now, next float64) {
	for i, most := range w.Most {
		if math.IsInf(most, 1) {
			continue
		}
		c := w.seriesOf(i)
		n := w.l.n
		last := max(math.Abs(c[n]), math.Abs(c[n-1]))
		first := max(math.Abs(c[1]), math.Abs(c[2]), math.Abs(c[3]), math.SmallestNonzeroFloat64)
		size := math.Abs(w.b-w.a) / most
		now = max(now, size*last/float64(n))
		const wary = 2
		next = max(next, size*last*min(1, wary*last/first)/float64(2*n))
	}
	return now, next
}

// refine works the places between.
func (w *collocation) refine() bool {
	var feed []float64
	if w.Feed >= 0 {
		w.foreseen()
		feed = w.guess
	}
	for j := w.l.n; j > 0; j-- {
		for _, list := range [][][]float64{w.values, w.slope} {
			list[j], list[2*j] = list[2*j], list[j]
		}
		w.x[2*j], w.feed[2*j] = w.x[j], w.feed[j]
		if w.lag != nil {
			w.lag[2*j] = w.lag[j]
		}
	}
	w.l = fine
	for j := 1; j < w.l.n; j += 2 {
		w.x[j] = w.place(j)
		if w.lag != nil {
			w.lag[j] = (w.lag[j-1] + w.lag[j+1]) / 2
		}
		if feed != nil {
			w.feed[j] = chebyshev(feed, w.l.nodes[j])
		}
		if !w.look(j) {
			return false
		}
		for i := range w.slope[j] {
			w.slope[j][i] = (w.slope[j-1][i] + w.slope[j+1][i]) / 2
		}
	}
	if !w.lags(true) {
		return false
	}
	if feed != nil {
		w.feeds(w.now)
		w.correct()
	}
	return true
}

// keep adds the piece to the curve as far as its mode holds, and goes on from its end.
func (w *collocation) keep() {
	n, m := w.l.n, len(w.y)
	p := piece{a: w.a, b: w.b, end: w.b, start: slices.Clone(w.y), integrals: make([][]float64, m), known: make([][]float64, w.Also)}
	room := make([]float64, (n+2)*(m+w.Also))
	for i := range m + w.Also {
		c := room[: n+2 : n+2]
		room = room[n+2:]
		if i >= m {
			copy(c, w.seriesOf(i))
			p.known[i-m] = c[:n+1]
			continue
		}
		integrated(c, w.seriesOf(i))
		w.scaled(c, w.y[i])
		p.integrals[i] = c
	}
	at := 1.0
	for _, c := range p.known[:w.Exits] {
		at = min(at, rises(c, at))
	}
	if at < 1 {
		p.end = w.a + (w.b-w.a)*(1+at)/2
	}
	w.foreseen()
	for i := range m {
		w.y[i] = chebyshev(p.integrals[i], at)
	}
	w.c.pieces = append(w.c.pieces, p)
	if w.at = p.end; at < 1 {
		w.ends = w.ends[:1] // another mode, another way of bending
		w.begin()
		return
	}
	w.ends = w.ends[:len(w.ends)-1]
}
