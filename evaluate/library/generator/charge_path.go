package generator

import (
	"context"
	"math"

	"inkwing/evaluate/library/model"
)

// A mark is a state of the charge where a row of its history or a cut stands.
type mark struct {
	v   float64
	cut bool
	pull
}

// marks are the ends of equal parts of the way from a to b, and between them
// the cuts where what is integrated is not smooth: a limit begins or ceases to
// hold, or three diodes cease to share.
func (in *HandChargeInput) marks(a, b float64, parts int) []mark {
	crank := arm{HandChargeInput: in}
	out := make([]mark, 1, parts+4)
	out[0] = mark{v: a, pull: crank.at(a)}
	for i := 1; i <= parts; i++ {
		last := out[len(out)-1]
		next := mark{v: a + (b-a)*float64(i)/float64(parts)}
		next.pull = crank.at(next.v)
		out = append(append(out, in.cuts(last, next)...), next)
	}
	return out
}

// cuts are those between two marks, in order.
func (in *HandChargeInput) cuts(a, b mark) []mark {
	var out []mark
	if a.held != b.held {
		v := in.change(a.v, b.v, a.held, b.held)
		out = append(out, mark{v: v, cut: true})
	}
	if in.sharing(a.pull) > 0 && in.sharing(b.pull) < 0 {
		v := solve(a.v, b.v, func(v float64) float64 { return in.sharing(in.at(v)) })
		out = append(out, mark{v: v, cut: true})
	}
	if len(out) == 2 && out[0].v > out[1].v {
		out[0], out[1] = out[1], out[0]
	}
	return out
}

// sharing is above zero where three diodes share the current, in volts.
func (in *HandChargeInput) sharing(p pull) float64 {
	g := &in.Generator
	if !g.star() {
		return 0
	}
	return 1.5*g.PhaseConstant*p.cadence*in.Gearing - p.x
}

// change is the voltage at which one hold gives way to another.
func (in *HandChargeInput) change(a, b float64, from, to hold) float64 {
	gap := func(v float64) float64 { over, _ := in.over(in.turning(v, in.Cadence)); return over }
	if from != free && to != free {
		gap = func(v float64) float64 { return in.tilt(in.at(v)) }
	}
	if gap(a) < 0 {
		rising := gap
		gap = func(v float64) float64 { return -rising(v) }
	}
	return solve(a, b, gap)
}

// chargeTolerance is the error of time and work by their whole.
const chargeTolerance = 1e-9

// between integrates from a to b, and hands row the ends of equal parts of the
// way. On each smooth stretch Clenshaw and Curtis's rule is held against the one
// of half its points, and the stretch is halved until they agree.
func (in *HandChargeInput) between(ctx context.Context, a, b float64, parts int, row func(v, t float64, p pull)) (integrals, error) {
	w, err := in.along(ctx, in.marks(a, b, parts), row)
	return w.sum, err
}

// mostLooks bounds the work of an integration: looks at the machine. A common
// charge takes about a hundred.
const mostLooks = 20_000

// along integrates from mark to mark.
func (in *HandChargeInput) along(ctx context.Context, marks []mark, row func(v, t float64, p pull)) (way, error) {
	w := way{arm: arm{HandChargeInput: in}, rows: marks, row: row, calls: len(marks)}
	var stretches []stretch
	var whole integrals
	for from := 0; from < len(marks)-1; {
		to := from + 1
		for !marks[to].cut && to < len(marks)-1 {
			to++
		}
		s := w.stretch(marks[from].v, marks[to].v)
		stretches, whole, from = append(stretches, s), whole.plus(s.sum, 1), to
	}
	share := chargeTolerance / float64(len(stretches))
	w.bound = integrals{iTime: whole[iTime] * share, iWork: whole[iWork] * share}
	for i := range stretches {
		if err := w.take(ctx, &stretches[i], 40); err != nil {
			return w, err
		}
	}
	return w, nil
}

// A way is an integration under way.
type way struct {
	arm
	rows  []mark // still to come
	row   func(v, t float64, p pull)
	bound integrals
	sum   integrals
	calls int // of the machine, but for those that look for the cuts
}

// stretchParts is the degree of the rule on a stretch.
const stretchParts = 16

// A stretch holds what is integrated at the rule's points, and its integral.
type stretch struct {
	from, to float64
	time     [stretchParts + 1]float64
	sum      integrals
	off      [2]float64 // of time and work, from the rule of half the points
}

func (w *way) stretch(from, to float64) stretch {
	s := stretch{from: from, to: to}
	mid, half := (from+to)/2, (to-from)/2
	var coarse integrals
	w.calls += len(fine.x)
	for i, x := range fine.x {
		v := mid - half*x
		r := w.rate(v, w.at(v))
		s.time[i] = r[iTime]
		s.sum = s.sum.plus(r, half*fine.w[i])
		if i%2 == 0 {
			coarse = coarse.plus(r, half*coarser.w[i/2])
		}
	}
	s.off = [2]float64{math.Abs(s.sum[iTime] - coarse[iTime]), math.Abs(s.sum[iWork] - coarse[iWork])}
	return s
}

// take adds a stretch, or its halves where it is not yet good enough.
func (w *way) take(ctx context.Context, s *stretch, depth int) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	if w.calls > mostLooks {
		return tooRough(s.from)
	}
	if depth > 0 && !(s.off[0] <= w.bound[iTime] && s.off[1] <= w.bound[iWork]) {
		mid := s.from + (s.to-s.from)/2
		left, right := w.stretch(s.from, mid), w.stretch(mid, s.to)
		if err := w.take(ctx, &left, depth-1); err != nil {
			return err
		}
		return w.take(ctx, &right, depth-1)
	}
	w.report(s)
	w.sum = w.sum.plus(s.sum, 1)
	return nil
}

// tooRough is the error of a charge in which something changes so abruptly that
// no division of it is fine enough.
func tooRough(v float64) error {
	return &model.Error{Field: "to", Summary: "the charge cannot be followed past {0}: what the crank gives there changes too abruptly",
		Values: []model.Value{model.In(v, "V")}, Hint: "leave the arm's limits more room above the drag, or check the values of generator and store"}
}

// report hands on the rows of a stretch, its ends included.
func (w *way) report(s *stretch) {
	var path series
	for ; len(w.rows) > 0 && w.rows[0].v <= s.to; w.rows = w.rows[1:] {
		m := w.rows[0]
		if m.cut || w.row == nil {
			continue
		}
		t := 0.0
		switch {
		case m.v == s.to:
			t = s.sum[iTime]
		case m.v > s.from:
			if path == (series{}) {
				path = newSeries(&s.time)
			}
			half := (s.to - s.from) / 2
			t = half * path.upTo((m.v-s.from)/half-1)
		}
		w.row(m.v, w.sum[iTime]+t, m.pull)
	}
}

// plus is x and so much of y.
func (x integrals) plus(y integrals, part float64) integrals {
	for i := range x {
		x[i] += part * y[i]
	}
	return x
}
