package numeric

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// A Track is a set of integrals along one variable that only rises or only falls, with
// rates that depend on it, and on one of the integrals at most, weakly: a charge over
// its voltage, with the coils that warm up.
type Track struct {
	// Rates writes the rates of all integrals at a place, and behind them what is only to
	// be known along the way. feed is the integral that they depend on. They are smooth
	// as long as the mode is one.
	Rates func(mode int, x, feed float64, out []float64)
	// Mode is the one that holds from a place on; nil where there is one only.
	Mode func(x, feed float64) int
	// Kind is how things stand at the place worked last, where the rates have a bend
	// at which it changes; nil where they have none. margin is above nought on one side of
	// it and below on the other, if something is.
	Kind func() (kind int, margin float64)
	// Given writes the rates anew for a value of one more integral, the Lag, on which they depend
	// as strongly as it likes, but in a way that needs no new look: out is as Rates left it, with
	// whatever the lag was then. False where there are none with that. It is nil where there is no such integral.
	Given func(x, lag float64, out []float64) bool
	Lag   int
	Start []float64
	Also  int                         // how many values stand behind the rates
	Exits int                         // how many of those, from the first, end a mode where they rise above nought
	Feed  int                         // which integral the rates depend on; below 0 for none
	Eases func(out []float64) float64 // how its own rate changes with it, as far as that is known beforehand; nil for nothing
	Looks int                         // how many there may be; 0 for 4000
	Most  []float64                   // how far each integral may be off in all; +Inf for one that goes with the others
}

// A piece is a part of a curve, as Chebyshev series of integrals and of what is known
// beside them.
type piece struct {
	a, b, end float64 // those of its series, and where it is left
	start     []float64
	integrals [][]float64
	known     [][]float64
}

// Bounds on the pieces of a curve: how many, and how short.
const (
	mostPieces = 64
	leastPart  = 1e-7
	mostPasses = 6
	mostLooks  = 4000
)

// Collocate follows a track from one place to another by Chebyshev series on as many
// pieces as it takes, each of one mode: rates are worked as if the mode held on, and
// the piece is cut where it ends. Where a place has no finite rates, or that does not
// come to an end soon, ok is false, and [Integrate] knows more of it.
func Collocate(ctx context.Context, t *Track, from, to float64) (c Curve, ok bool) {
	w := &collocation{Track: t, from: from, to: to, at: from, ends: []float64{to}, y: slices.Clone(t.Start), c: &c}
	w.room()
	for w.begin(); w.at != to; {
		if ctx.Err() != nil || len(c.pieces) >= mostPieces || c.Looks > cmp.Or(t.Looks, mostLooks) || !w.piece() {
			return c, false
		}
	}
	c.Y = w.y
	return c, true
}

// A collocation is a curve being followed.
type collocation struct {
	*Track
	c        *Curve
	from, to float64
	at       float64 // how far it has come
	y        []float64
	ends     []float64 // of the pieces to come, the next one last

	mode   int
	a, b   float64 // the piece that is tried
	l      *level
	x      []float64 // its places
	kind   [17]int
	margin [17]float64
	values [][]float64 // by place: rates, and what is known
	feed   []float64   // by place, what the rates were worked with
	lag    []float64   // by place, if there is one
	slope  [][]float64 // how the values change with it
	was    []float64   // the feed of the pass before
	now    []float64   // the one that the rates give
	guess  []float64   // the series of the feed over the last piece that was tried
	ga, gb float64
	column []float64
	out    []float64

	rows    [][]float64 // room for equations
	unknown []float64
}

func (w *collocation) room() {
	n, m := fine.n+1, len(w.Start)+w.Also
	flat := make([]float64, 2*n*m+6*n)
	cut := func(k int) []float64 {
		part := flat[:k:k]
		flat = flat[k:]
		return part
	}
	w.values, w.slope = make([][]float64, n), make([][]float64, n)
	for i := range n {
		w.values[i], w.slope[i] = cut(m), cut(m)
	}
	w.x, w.feed, w.was, w.now, w.column, w.out = cut(n), cut(n), cut(n), cut(n), cut(n), cut(n)
	if w.Given != nil {
		w.lag = make([]float64, n)
	}
}

// begin finds the mode from here on.
func (w *collocation) begin() {
	const ahead = 1e-6
	if w.Mode != nil {
		feed := 0.0
		if w.Feed >= 0 {
			feed = w.y[w.Feed]
		}
		w.mode = w.Mode(w.at+ahead*(w.to-w.at), feed)
	}
}

// piece tries the way to the next end as one piece, and halves until one holds.
func (w *collocation) piece() bool {
	for range mostPieces {
		w.a, w.b, w.l = w.at, w.ends[len(w.ends)-1], coarse
		if !(math.Abs(w.b-w.a) > leastPart*math.Abs(w.to-w.from)) {
			return false
		}
		if w.tried() {
			w.keep()
			return true
		}
		w.ends = append(w.ends, w.a+(w.b-w.a)/2)
	}
	return false
}

// tried works a piece, and reports whether it holds.
func (w *collocation) tried() bool {
	if !w.first() {
		return false
	}
	if j := w.changed(); j >= 0 {
		w.ends = append(w.ends, w.change(j))
		w.b = w.ends[len(w.ends)-1]
		if !w.first() {
			return false
		}
	}
	tail, next := w.tails()
	if next > 1 || !w.settle() {
		w.foreseen()
		return false
	}
	if tail <= 1 {
		return true
	}
	if !w.refine() {
		return false
	}
	tail, _ = w.tails()
	w.foreseen()
	return tail <= 1
}

// place is where a node lies.
func (w *collocation) place(j int) float64 {
	if j == w.l.n {
		return w.b
	}
	return w.a + (w.b-w.a)*(1+w.l.nodes[j])/2
}

// look works the rates at a node.
func (w *collocation) look(j int) bool {
	w.c.Looks++
	w.Rates(w.mode, w.x[j], w.feed[j], w.values[j])
	if w.Kind != nil {
		w.kind[j], w.margin[j] = w.Kind()
	}
	return finite(w.values[j])
}

// changed is the node behind which the kind is another one first, below 0 for none. The
// ends do not count, which may lie on a change.
func (w *collocation) changed() int {
	if w.Kind != nil {
		for j := 1; j+1 < w.l.n; j++ {
			if w.kind[j] != w.kind[j+1] {
				return j
			}
		}
	}
	return -1
}

// change is where the kind changes between a node and the next, on the side of the
// first: by false position (the Illinois method) where its margins allow it, else by halving.
func (w *collocation) change(j int) float64 {
	const closely, rounds = 1e-7, 40
	a, b, fa, fb := w.x[j], w.x[j+1], w.margin[j], w.margin[j+1]
	wide, side := closely*math.Abs(b-a), 0
	for range rounds {
		x := a + (b-a)/2
		if fa*fb < 0 {
			x = (a*fb - b*fa) / (fb - fa)
		}
		w.c.Looks++
		w.Rates(w.mode, x, w.feed[j], w.values[0])
		kind, f := w.Kind()
		if kind == w.kind[j] {
			if a, fa = x, f; side > 0 {
				fb /= 2
			}
			side = 1
		} else {
			if b, fb = x, f; side < 0 {
				fa /= 2
			}
			side = -1
		}
		if math.Abs(b-a) < wide || math.Abs(f) < closely {
			break
		}
	}
	return a
}

// first works all places with a first guess of the feed.
func (w *collocation) first() bool {
	for j := range w.l.n + 1 {
		w.x[j] = w.place(j)
		if w.Feed >= 0 {
			w.feed[j] = w.guessed(j)
		}
		if !w.look(j) {
			return false
		}
	}
	return w.lags(false)
}
