package present

import (
	"math"
	"slices"

	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/run"
	"inkwing/evaluate/show"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
	"inkwing/units"
)

// limit presents a limit of the builder's own.
func limit(w *working.Evaluation, d *program.Def, b *program.Limit) report.Limit {
	x := d.Stmt.(*syntax.Limit)
	state, waits := w.State(d)
	l := report.Limit{
		Span: x.Span, Block: d.Block, State: state, Waits: waits, Text: textIn(w, d.Sheet, x.Bound.Span),
		Value: "—", Allowed: "—", Headroom: "—", Advice: x.Advice,
	}
	switch {
	case state != report.Evaluated:
	case !run.Arises(w.Machine.Value(d).(library.List)):
		l.Holds, l.Never = true, true
	default:
		j := judge{w, d, &l}
		j.judge(b)
	}
	return l
}

// judge holds a limit against what it allows, and puts the findings into l.
type judge struct {
	w *working.Evaluation
	d *program.Def
	l *report.Limit
}

// side is one comparison of a limit, seen from the value: it is below (or above)
// what is allowed.
type side struct {
	value, allowed float64
	kind           program.Quantity
	op             string // from value to allowed
	of, to         int    // places of value and allowed among the operands
}

// judge takes one comparison, or a <= b <= c with b the value.
func (j judge) judge(b *program.Limit) {
	values := j.estimates()
	j.l.Holds = run.Holds(b.Ops, values)
	at := func(of, to int, op string) side {
		return side{values[of].(float64), values[to].(float64), b.Sides[0].Type().(program.Quantity), op, of, to}
	}
	unit := show.EitherUnit(b.Sides)
	switch {
	case len(b.Ops) == 2:
		j.between(at(1, 0, run.Turned(b.Ops[0])), at(1, 2, b.Ops[1]), unit)
	case tested(b) == 1:
		j.one(at(1, 0, run.Turned(b.Ops[0])), unit)
	default:
		j.one(at(0, 1, b.Ops[0]), unit)
	}
}

// estimates are the operands of a limit; of those that were drawn, the means.
func (j judge) estimates() library.List {
	values := slices.Clone(j.w.Machine.Value(j.d).(library.List))
	for i := range values {
		if s := j.w.Leaf(j.d, i); s.Drawn {
			values[i] = s.Mean
		}
	}
	return values
}

// one shows a limit with one bound.
func (j judge) one(s side, unit units.Unit) {
	j.straddle(s)
	j.l.Value, j.l.Allowed = j.sides(s, unit)
	j.l.Margin = margin(s, s)
	j.l.Headroom = headroom(j.l.Margin, s.kind)
}

// between shows a limit with two bounds, the lower one first.
func (j judge) between(low, high side, unit units.Unit) {
	near := narrower(low, high)
	j.straddle(low)
	j.straddle(high)
	j.l.Value, _ = j.sides(near, unit)
	if !low.isLow() {
		low, high = high, low
	}
	_, from := j.sides(low, unit)
	_, to := j.sides(high, unit)
	j.l.Allowed, j.l.Margin = from+" to "+to, margin(near, low, high)
	j.l.Headroom = headroom(j.l.Margin, near.kind)
}

// straddle reports whether a bound lies within the interval of what is tested: of
// allowed − value as one quantity, so that what bears on both counts once.
func (j judge) straddle(s side) {
	u := j.w.Difference(j.d, s.of, s.to)
	room := math.Abs(s.room())
	if u.Drawn {
		j.l.Straddle = j.l.Straddle || u.Low < 0 && u.High > 0
		return
	}
	j.l.Straddle = j.l.Straddle || u.Expanded > 0 && room < u.Expanded
}

// sides shows both sides of a comparison, with as many digits as it takes to
// see why it does not hold.
func (j judge) sides(s side, unit units.Unit) (string, string) {
	a, b := "", ""
	for n := digits(j.w, ""); n <= 15; n++ {
		a, _ = show.Uncertain(s.kind, s.value, j.w.UncertaintyOf(j.d, []int{s.of}), unit, n)
		b, _ = show.Uncertain(s.kind, s.allowed, j.w.UncertaintyOf(j.d, []int{s.to}), unit, n)
		if j.l.Holds || a != b {
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

// room is allowed − value, positive inside the bound.
func (s side) room() float64 {
	if s.isLow() {
		return s.value - s.allowed
	}
	return s.allowed - s.value
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
	m := &report.Margin{SIUnit: near.kind.Dim.SIUnit(), Value: near.value, Headroom: near.room()}
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

// broken is a limit that does not hold, as a point of its block's callout.
func broken(l report.Limit) report.Caution {
	says := message.Sentence("the limit `" + l.Text + "` does not hold: worked " + l.Value + ", allowed " + l.Allowed + ".")
	return report.Caution{ID: "limit", Kind: report.OfLimit, Level: model.Warning, Span: l.Span, Block: l.Block, Names: []string{l.Text},
		Text: message.Sentence(sentences(says, l.Advice)), Summary: says, Hint: l.Advice}
}
