package numeric

import "math"

// guessed is the feed at a node as the last piece tried had it, or else straight on.
func (w *collocation) guessed(j int) float64 {
	switch {
	case j == 0:
		return w.y[w.Feed]
	case w.guess != nil && math.Abs(w.x[j]-w.ga) <= math.Abs(w.gb-w.ga):
		return w.foreseenAt(w.x[j])
	}
	rise := w.values[0][w.Feed] * (w.x[j] - w.a)
	if z := w.eases(0) * (w.x[j] - w.a); z < -1e-3 {
		rise *= math.Expm1(z) / z
	}
	return w.y[w.Feed] + rise
}

// eases is how the feed's rate changes with the feed itself, as far as it is known
// beforehand.
func (w *collocation) eases(j int) float64 {
	if w.Eases == nil {
		return 0
	}
	return w.Eases(w.values[j])
}

// foreseenAt is the feed over the piece tried last.
func (w *collocation) foreseenAt(x float64) float64 {
	if w.guess == nil {
		return 0
	}
	return chebyshev(w.guess, 2*(x-w.ga)/(w.gb-w.ga)-1)
}

// foreseen keeps the feed over this piece, for the pieces that are tried in its place.
func (w *collocation) foreseen() {
	if w.Feed < 0 {
		return
	}
	c := make([]float64, w.l.n+2)
	integrated(c, w.seriesOf(w.Feed))
	w.scaled(c, w.y[w.Feed])
	w.guess, w.ga, w.gb = c, w.a, w.b
}

// feeds works the feed at all places from its rates, each as it changes with the feed
// itself: round by round, or all places at once where that does not come to rest.
func (w *collocation) feeds(into []float64) {
	n := w.l.n + 1
	copy(into, w.feed[:n])
	half := (w.b - w.a) / 2
	const rest, nearly = 1e-15, 1e-12
	moved := 0.0
	for range 6 {
		for j := range n {
			w.column[j] = w.values[j][w.Feed] + w.slope[j][w.Feed]*(into[j]-w.feed[j])
		}
		moved = 0
		for j := range n {
			x := w.y[w.Feed] + half*dot(w.l.within[j], w.column[:n])
			moved = max(moved, math.Abs(x-into[j]))
			into[j] = x
		}
		if moved <= rest*math.Abs(into[n-1]) {
			break
		}
	}
	if moved > nearly*math.Abs(into[n-1]) {
		w.feedsAtOnce(into)
	}
}

// feedsAtOnce is feeds by the equations of all places.
func (w *collocation) feedsAtOnce(into []float64) {
	n, half := w.l.n+1, (w.b-w.a)/2
	rows := w.equations(n)
	for j, row := range rows {
		row[n] = w.y[w.Feed]
		for k, by := range w.l.within[j] {
			slope := w.slope[k][w.Feed]
			row[k] = -half * by * slope
			row[n] += half * by * (w.values[k][w.Feed] - slope*w.feed[k])
		}
		row[j]++
	}
	if out := eliminate(rows, w.unknown[:n]); out != nil {
		copy(into, out)
	}
}

// settle works the places again until the feed is the one that they give.
func (w *collocation) settle() bool {
	if w.Feed < 0 {
		return true
	}
	n := w.l.n + 1
	for j := range n {
		clear(w.slope[j])
		w.slope[j][w.Feed] = w.eases(j)
		w.was[j] = math.NaN()
	}
	for range mostPasses {
		w.feeds(w.now)
		if w.near() {
			w.correct()
			return true
		}
		for j := 1; j < n; j++ {
			copy(w.slope[j], w.values[j])
			w.was[j], w.feed[j] = w.feed[j], w.now[j]
			if !w.look(j) {
				return false
			}
		}
		if !w.lags(true) {
			return false
		}
		for j := 1; j < n; j++ {
			by := w.feed[j] - w.was[j]
			for i, before := range w.slope[j] {
				if w.slope[j][i] = 0; by != 0 {
					w.slope[j][i] = (w.values[j][i] - before) / by
				}
			}
		}
	}
	return false
}

// near reports whether the rates at the feed that they give are known well enough. A
// first pass says nothing of how they depend on it: then they may change by as large a part as
// it does, and some times more. Later it is what they bend by, on the way
// from the pass before.
func (w *collocation) near() bool {
	const steep = 4
	for j := 1; j <= w.l.n; j++ {
		by := math.Abs(w.now[j] - w.feed[j])
		part := steep / math.Abs(w.now[j])
		for i, most := range w.Most {
			if math.IsInf(most, 1) {
				continue
			}
			off := math.Abs(w.values[j][i]) * by * part
			if !math.IsNaN(w.was[j]) {
				off = math.Abs(w.slope[j][i]) * by * math.Abs(w.now[j]-w.was[j]) * part
			}
			if off*math.Abs(w.b-w.a) > most/steep {
				return false
			}
		}
	}
	return true
}

// correct takes the rates to the feed that they give.
func (w *collocation) correct() {
	for j := range w.l.n + 1 {
		by := w.now[j] - w.feed[j]
		for i := range w.values[j] {
			w.values[j][i] += w.slope[j][i] * by
		}
		w.feed[j] = w.now[j]
	}
}
