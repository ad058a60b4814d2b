package numeric

import "math"

// lags works all places with the lag that the rates themselves give: all of them at once, by
// Newton's steps, so that it may be as stiff as it likes. It begins where the lag was looked
// for last, or else as if it went as fast as the variable, or not at all.
func (w *collocation) lags(known bool) bool {
	if w.Given == nil || known && w.lagging() {
		return true
	}
	for _, part := range [2]float64{1, 0} {
		for j := range w.l.n + 1 {
			w.lag[j] = w.y[w.Lag] + part*(w.x[j]-w.a)
		}
		if w.lagging() {
			return true
		}
	}
	return false
}

// lagging is lags from where it is.
func (w *collocation) lagging() bool {
	const rounds, little = 12, 1e-13
	n := w.l.n
	if !w.given(0, nil) {
		return false
	}
	for range rounds {
		step := w.lagStep()
		if step == nil {
			return false
		}
		part := 1.0
		for !w.given(part, step) {
			if part /= 2; part < 1e-3 {
				return false
			}
		}
		moved, size := 0.0, 0.0
		for j := range n + 1 {
			w.lag[j] += part * step[j]
			moved, size = max(moved, math.Abs(step[j])), max(size, math.Abs(w.lag[j]))
		}
		if moved <= max(little*size, 1e-3*w.Most[w.Lag]) {
			return true
		}
	}
	return false
}

// given works the rates at all places with the lag a part of a step on; false where there is
// a place that has none.
func (w *collocation) given(part float64, step []float64) bool {
	for j := range w.l.n + 1 {
		lag := w.lag[j]
		if step != nil {
			lag += part * step[j]
		}
		if !w.Given(w.x[j], lag, w.values[j]) {
			return false
		}
	}
	return true
}

// lagStep is Newton's: what is missing to y + ∫ rate, by how that changes with the lag. It is
// nil where there is none.
func (w *collocation) lagStep() []float64 {
	n, half := w.l.n+1, (w.b-w.a)/2
	rate, slope := w.column[:n], w.out[:n]
	for k := range n {
		rate[k] = w.values[k][w.Lag]
		by := 1e-7 * max(math.Abs(w.x[k]), math.Abs(w.lag[k]), math.Abs(w.b-w.a))
		if !w.Given(w.x[k], w.lag[k]+by, w.values[k]) {
			return nil
		}
		slope[k] = (w.values[k][w.Lag] - rate[k]) / by
		w.Given(w.x[k], w.lag[k], w.values[k])
	}
	rows := w.equations(n)
	for j, row := range rows {
		for k, by := range w.l.within[j] {
			row[k] = -half * by * slope[k]
		}
		row[j]++
		row[n] = w.y[w.Lag] + half*dot(w.l.within[j], rate) - w.lag[j]
	}
	return eliminate(rows, w.unknown[:n])
}

// equations is room for so many, with their right sides.
func (w *collocation) equations(n int) [][]float64 {
	if w.rows == nil {
		most := fine.n + 1
		flat := make([]float64, most*(most+2))
		w.rows, w.unknown = make([][]float64, most), flat[most*(most+1):]
		for i := range w.rows {
			w.rows[i] = flat[i*(most+1) : (i+1)*(most+1)]
		}
	}
	rows := w.rows[:n]
	for i := range rows {
		rows[i] = rows[i][:n+1]
	}
	return rows
}

// eliminate solves as many equations as there are rows, the right side of each behind it, by
// Gauss's elimination with the largest pivot, into out; nil where they have no solution.
//
// Gonum's would do: this works in the room that a curve has already, some ten times a charge.
func eliminate(rows [][]float64, out []float64) []float64 {
	n := len(rows)
	for i := range rows {
		best := i
		for j := i + 1; j < n; j++ {
			if math.Abs(rows[j][i]) > math.Abs(rows[best][i]) {
				best = j
			}
		}
		rows[i], rows[best] = rows[best], rows[i]
		if rows[i][i] == 0 {
			return nil
		}
		for _, row := range rows[i+1:] {
			by := row[i] / rows[i][i]
			for k := i; k <= n; k++ {
				row[k] -= by * rows[i][k]
			}
		}
	}
	for i := n - 1; i >= 0; i-- {
		out[i] = (rows[i][n] - dot(rows[i][i+1:n], out[i+1:])) / rows[i][i]
	}
	if !finite(out) {
		return nil
	}
	return out
}
