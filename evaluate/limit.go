package evaluate

import (
	"math"
	"slices"

	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/run"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// limit reports a bound of the builder's own.
func (w *worker) limit(d *program.Def, limit *program.Limit) {
	x := d.Stmt.(*syntax.Limit)
	state, waits := w.state(d)
	l := report.Limit{
		Span: x.Span, Block: d.Block, State: state, Waits: waits, Text: w.textOf(x.Bound.Span),
		Value: "—", Allowed: "—", Headroom: "—", Advice: x.Advice,
	}
	if state == report.Evaluated {
		w.judge(&l, d, limit)
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
	worked, allowed float64
	kind            program.Quantity
	op              string // from worked to allowed
	of, to          int    // places of worked and allowed among the operands
}

// judge works a limit: one comparison, or a <= b <= c with b the worked one.
func (w *worker) judge(l *report.Limit, d *program.Def, limit *program.Limit) {
	values := w.estimates(d)
	l.Holds = run.Holds(limit.Ops, values)
	at := func(of, to int, op string) side {
		return side{values[of].(float64), values[to].(float64), limit.Sides[0].Type().(program.Quantity), op, of, to}
	}
	if len(limit.Ops) == 2 {
		w.judgeBetween(l, d, at(1, 0, run.Turned(limit.Ops[0])), at(1, 2, limit.Ops[1]))
		return
	}
	s := at(0, 1, limit.Ops[0])
	if literal(limit.Sides[0]) && !literal(limit.Sides[1]) {
		s = at(1, 0, run.Turned(limit.Ops[0]))
	}
	w.straddle(l, d, s)
	l.Value, l.Allowed = w.sides(l.Holds, d, s, writtenUnit(limit.Sides))
	l.Margin = margin(s, s)
	l.Headroom = headroom(l.Margin, s.kind)
}

// estimates are the operands of a limit; of those that were drawn, the means.
func (w *worker) estimates(d *program.Def) library.List {
	values := slices.Clone(w.machine.Value(d).(library.List))
	for i := range values {
		if s := w.leaf(d, i); s.Drawn {
			values[i] = s.Mean
		}
	}
	return values
}

// judgeBetween shows a limit with two bounds, the lower one first.
func (w *worker) judgeBetween(l *report.Limit, d *program.Def, low, high side) {
	near := narrower(low, high)
	u := writtenUnit(d.Body.Operands())
	w.straddle(l, d, low)
	w.straddle(l, d, high)
	l.Value, _ = w.sides(l.Holds, d, near, u)
	if !low.isLow() {
		low, high = high, low
	}
	_, from := w.sides(l.Holds, d, low, u)
	_, to := w.sides(l.Holds, d, high, u)
	l.Allowed, l.Margin = from+" to "+to, margin(near, low, high)
	l.Headroom = headroom(l.Margin, near.kind)
}

// straddle reports whether a bound lies within the interval of what is tested: of
// allowed − worked as one quantity, so that what bears on both counts once.
func (w *worker) straddle(l *report.Limit, d *program.Def, s side) {
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
func (w *worker) sides(holds bool, d *program.Def, s side, unit units.Unit) (string, string) {
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
func literal(n program.Node) bool {
	_, ok := program.Nominal(n).(*program.Const)
	return ok
}

// room is allowed − worked, positive inside the bound.
func (s side) room() float64 {
	if s.isLow() {
		return s.worked - s.allowed
	}
	return s.allowed - s.worked
}

// isLow reports whether what is allowed is the least that may be.
func (s side) isLow() bool { return s.op == ">" || s.op == ">=" }

// share is the room as a part of what is allowed.
func (s side) share() float64 { return s.room() / math.Abs(s.allowed) }

// narrower is the side with the smaller share of its bound left.
func narrower(a, b side) side {
	if b.share() < a.share() {
		return b
	}
	return a
}

// margin is a limit in numbers: the headroom of its nearer side, and the bounds of
// all of them.
func margin(near side, sides ...side) *report.Margin {
	m := &report.Margin{SIUnit: near.kind.Dim.SIUnit(), Value: near.worked, Headroom: near.room()}
	for _, s := range sides {
		if s.isLow() {
			m.Low = &s.allowed
		} else {
			m.High = &s.allowed
		}
	}
	allowed := math.Abs(near.allowed)
	if math.Abs(m.Headroom) <= run.Rounding*allowed {
		m.Headroom = 0
	}
	if ratio := m.Headroom / allowed; allowed > 0 && !near.kind.Point {
		m.Ratio = &ratio
	}
	return m
}

// headroom writes a margin's as a share of what is allowed, or as a difference on
// a temperature scale, where a share means nothing.
func headroom(m *report.Margin, kind program.Quantity) string {
	switch {
	case kind.Point:
		return units.Show(m.Headroom, units.MustParse("K"), 2)
	case m.Ratio == nil:
		return "—"
	}
	return units.Show(*m.Ratio, units.MustParse("%"), 2)
}

// broken makes a limit that does not hold a point of its block's callout.
func (w *worker) broken(l report.Limit) {
	text := "the limit `" + l.Text + "` does not hold: worked " + l.Value + ", allowed " + l.Allowed + "."
	if l.Advice != "" {
		text += " " + l.Advice
	}
	w.caution(report.Caution{ID: "limit", Kind: report.OfLimit, Level: model.Warning, Span: l.Span, Block: l.Block, Text: message.Sentence(text)})
}
