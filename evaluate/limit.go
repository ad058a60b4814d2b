package evaluate

import (
	"math"
	"slices"

	"inkwing/evaluate/check"
	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/run"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// limit reports a bound of the builder's own.
func (w *worker) limit(d *check.Def) {
	x := d.Stmt.(*syntax.Limit)
	state, waits := w.state(d)
	l := report.Limit{
		Span: x.Span, Block: d.Block, State: state, Waits: waits, Text: w.textOf(x.Bound.Span),
		Worked: "—", Allowed: "—", Headroom: "—", Advice: x.Advice,
	}
	if state == report.Evaluated {
		w.judge(&l, d)
	}
	w.out.Limits = append(w.out.Limits, l)
	if state != report.Failed {
		b := &w.out.Blocks[d.Block]
		b.Limits = append(b.Limits, l)
	}
	if state == report.Evaluated && !l.Holds {
		w.broken(l)
	}
}

// side is one comparison of a limit, seen from what is worked: it is below (or
// above) what is allowed.
type side struct {
	worked, allowed any
	kind            check.Type
	op              string // from worked to allowed
	of, to          int    // places of worked and allowed among the operands
}

// judge works a limit: one comparison, or a <= b <= c with b the worked one.
func (w *worker) judge(l *report.Limit, d *check.Def) {
	values := w.estimates(d)
	l.Holds = run.Holds(d.Ops, values)
	t := d.Bound[0].Type()
	if len(d.Ops) == 2 {
		low := side{values[1], values[0], t, run.Turned(d.Ops[0]), 1, 0}
		high := side{values[1], values[2], t, d.Ops[1], 1, 2}
		w.judgeBetween(l, d, low, high)
		return
	}
	s := side{values[0], values[1], t, d.Ops[0], 0, 1}
	if literal(d.Bound[0]) && !literal(d.Bound[1]) {
		s = side{values[1], values[0], t, run.Turned(d.Ops[0]), 1, 0}
	}
	w.straddle(l, d, s)
	l.Worked, l.Allowed = w.sides(l.Holds, d, s, writtenUnit(d.Bound))
	l.Headroom = w.headroom(s)
}

// estimates are the operands of a limit; of those that were drawn, the means.
func (w *worker) estimates(d *check.Def) library.List {
	values := slices.Clone(w.machine.Value(d).(library.List))
	for i := range values {
		if s := w.leaf(d, i); s.Drawn {
			values[i] = s.Mean
		}
	}
	return values
}

// judgeBetween shows a limit with two bounds, the lower one first.
func (w *worker) judgeBetween(l *report.Limit, d *check.Def, low, high side) {
	near := narrower(low, high)
	u := writtenUnit(d.Bound)
	w.straddle(l, d, low)
	w.straddle(l, d, high)
	l.Worked, _ = w.sides(l.Holds, d, near, u)
	if low.op == "<" || low.op == "<=" {
		low, high = high, low
	}
	_, from := w.sides(l.Holds, d, low, u)
	_, to := w.sides(l.Holds, d, high, u)
	l.Allowed, l.Headroom = from+" to "+to, w.headroom(near)
}

// straddle reports whether a bound lies within the interval of what is tested: of
// allowed − worked as one quantity, so that what bears on both counts once.
func (w *worker) straddle(l *report.Limit, d *check.Def, s side) {
	spread := w.difference(d, s.of, s.to)
	room := math.Abs(s.room())
	if spread.Drawn {
		l.Straddle = l.Straddle || spread.Low < 0 && spread.High > 0
		return
	}
	l.Straddle = l.Straddle || spread.Expanded > 0 && room < spread.Expanded
}

// sides shows both sides of a comparison, with as many digits as it takes to
// see why it does not hold.
func (w *worker) sides(holds bool, d *check.Def, s side, unit units.Unit) (string, string) {
	a, b := "", ""
	for digits := w.digits(""); digits <= 15; digits++ {
		a, _ = w.showSpread(s.kind, s.worked, w.spread(d, []int{s.of}), unit, digits)
		b, _ = w.showSpread(s.kind, s.allowed, w.spread(d, []int{s.to}), unit, digits)
		if holds || a != b {
			break
		}
	}
	return a, b
}

// literal reports whether an operand is written out: then it is the bound.
func literal(n check.Node) bool {
	_, ok := check.Middle(n).(*check.Const)
	return ok
}

// room is allowed − worked, positive inside the bound; NaN for what is no number.
func (s side) room() float64 {
	a, okA := s.allowed.(float64)
	b, okB := s.worked.(float64)
	if !okA || !okB || s.op == "==" || s.op == "!=" {
		return math.NaN()
	}
	if s.op == ">" || s.op == ">=" {
		return b - a
	}
	return a - b
}

// share is the room as a part of what is allowed.
func (s side) share() float64 { return s.room() / math.Abs(s.allowed.(float64)) }

// narrower is the side with the smaller share of its bound left.
func narrower(a, b side) side {
	if b.share() < a.share() {
		return b
	}
	return a
}

// headroom is the room as a share of what is allowed, or as a difference on a
// temperature scale, where a share means nothing.
func (w *worker) headroom(s side) string {
	room := s.room()
	if math.IsNaN(room) {
		return "—"
	}
	if math.Abs(room) <= run.Rounding*math.Abs(s.allowed.(float64)) {
		room = 0
	}
	if q := s.kind.(check.Quantity); q.Point {
		return units.Show(room, units.MustParse("K"), 2)
	}
	allowed := math.Abs(s.allowed.(float64))
	if allowed == 0 {
		return "—"
	}
	return units.Show(room/allowed, units.MustParse("%"), 2)
}

// broken makes a limit that does not hold a point of its block's callout.
func (w *worker) broken(l report.Limit) {
	text := "the limit `" + l.Text + "` does not hold: worked " + l.Worked + ", allowed " + l.Allowed + "."
	if l.Advice != "" {
		text += " " + l.Advice
	}
	w.caution(report.Caution{ID: "limit", Kind: report.OfLimit, Level: model.Warning, Span: l.Span, Block: l.Block, Text: message.Sentence(text)})
}
