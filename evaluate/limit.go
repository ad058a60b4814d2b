package evaluate

import (
	"math"

	"inkwing/evaluate/check"
	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// limit reports a bound of the builder's own.
func (w *worker) limit(d *check.Def) {
	x := d.Stmt.(*syntax.Limit)
	state, waits := w.state(d)
	l := Limit{
		Span: x.Span, Block: d.Block, State: state, Waits: waits, Text: w.textOf(x.Bound.Span),
		Worked: "—", Allowed: "—", Headroom: "—", Advice: x.Advice,
	}
	if state == Worked {
		w.judge(&l, d)
	}
	w.out.Limits = append(w.out.Limits, l)
	if state != Failed {
		b := &w.out.Blocks[d.Block]
		b.Limits = append(b.Limits, l)
	}
	if state == Worked && !l.Holds {
		w.broken(l)
	}
}

// side is one comparison of a limit, seen from what is worked: it is below (or
// above) what is allowed.
type side struct {
	worked, allowed any
	kind            check.Type
	op              string // from worked to allowed
}

// turned is each comparison read from the other side.
var turned = map[string]string{"<": ">", "<=": ">=", ">": "<", ">=": "<=", "==": "==", "!=": "!="}

// judge works a limit: one comparison, or a <= b <= c with b the worked one.
func (w *worker) judge(l *Limit, d *check.Def) {
	values := w.machine.Value(d).(library.List)
	t := d.Bound[0].Type()
	if len(d.Ops) == 2 {
		low := side{values[1], values[0], t, turned[d.Ops[0]]}
		high := side{values[1], values[2], t, d.Ops[1]}
		l.Holds = low.holds() && high.holds()
		u := writtenUnit(d.Bound)
		l.Worked = w.side(t, values[1], u)
		l.Allowed = w.side(t, values[0], u) + " to " + w.side(t, values[2], u)
		l.Headroom = w.headroom(narrower(low, high))
		return
	}
	s := side{values[0], values[1], t, d.Ops[0]}
	if literal(d.Bound[0]) && !literal(d.Bound[1]) {
		s = side{values[1], values[0], t, turned[d.Ops[0]]}
	}
	l.Holds = s.holds()
	u := writtenUnit(d.Bound)
	l.Worked, l.Allowed, l.Headroom = w.side(t, s.worked, u), w.side(t, s.allowed, u), w.headroom(s)
}

// literal says whether an operand is written out: then it is the bound.
func literal(n check.Node) bool {
	_, ok := n.(*check.Const)
	return ok
}

// writtenUnit is the unit in which the builder wrote one of the sides, so that
// both are shown in it; the zero unit where neither is written out.
func writtenUnit(operands []check.Node) units.Unit {
	for _, n := range operands {
		if k, ok := n.(*check.Const); ok && !k.Unit.IsZero() {
			return k.Unit
		}
	}
	return units.Unit{}
}

func (w *worker) side(t check.Type, v any, unit units.Unit) string {
	text, _ := w.show(t, v, unit, w.digits(""))
	return text
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

func (s side) holds() bool {
	switch s.op {
	case "==":
		return s.worked == s.allowed
	case "!=":
		return s.worked != s.allowed
	case "<", ">":
		return s.room() > 0
	}
	return s.room() >= 0
}

func narrower(a, b side) side {
	if b.room() < a.room() {
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
func (w *worker) broken(l Limit) {
	text := "the limit `" + l.Text + "` does not hold: worked " + l.Worked + ", allowed " + l.Allowed + "."
	if l.Advice != "" {
		text += " " + l.Advice
	}
	w.caution(Caution{ID: "limit", Kind: OfLimit, Level: model.Warning, Span: l.Span, Block: l.Block, Text: sentence(text)})
}
