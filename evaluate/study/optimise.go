package study

import (
	"errors"
	"math"
	"slices"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/numeric"
	"inkwing/evaluate/program"
	"inkwing/evaluate/run"
)

// optimise finds the values of its variables for which its goal is least, or most,
// among those that keep the limits.
//
// While uncertain inputs are moved about their nominals the choice stays as it
// is: it is the builder's setting, and has no doubt of its own.
func optimise(m *run.Machine, x *program.Optimise) (any, *run.Fault) {
	if chosen := m.AtNominal(x); chosen != nil {
		return chosen, nil
	}
	t := &optimising{x: x, plan: newPlan(m, x, x.Def, x.Over, x.Goal), sign: 1}
	if x.Most {
		t.sign = -1
	}
	for _, o := range x.Over {
		if f := t.axis(o); f != nil {
			return nil, f
		}
	}
	if f := t.size(); f != nil {
		return nil, f
	}
	best, f := t.search()
	if f != nil {
		return nil, f
	}
	t.finish(best)
	return t.value(best.X), nil
}

type optimising struct {
	*plan
	x      *program.Optimise
	sign   float64
	box    []numeric.Axis
	levels []levels // by variable; none for a continuous one
	scouts []*scout
	gap    gap
}

// axis adds a variable's range: its places counted, or everything between.
func (t *optimising) axis(o program.Variable) *run.Fault {
	if o.In != nil || o.By != nil {
		l, f := levelsOf(t.m, o)
		if f != nil {
			return f
		}
		t.box = append(t.box, numeric.Axis{High: float64(len(l.values) - 1), Step: 1})
		t.levels = append(t.levels, l)
		return nil
	}
	from, to, f := ends(t.m, o)
	if f != nil {
		return f
	}
	t.box = append(t.box, numeric.Axis{Low: min(from, to), High: max(from, to)})
	t.levels = append(t.levels, levels{})
	return nil
}

// size holds the stepped variables to what can be tried.
func (t *optimising) size() *run.Fault {
	n := 1.0
	for _, l := range t.levels {
		n *= max(1, float64(len(l.values)))
	}
	if n > program.MaxPoints {
		return tooMany(t.x, n)
	}
	return nil
}

// inputs are the variables' values at a place.
func (t *optimising) inputs(x []float64) []any {
	values := make([]any, len(x))
	for i, v := range x {
		values[i] = v
		if l := t.levels[i]; l.values != nil {
			values[i] = l.values[int(math.Round(v))]
		}
	}
	return values
}

// search looks for the best place.
func (t *optimising) search() (numeric.Minimum, *run.Fault) {
	work := make([]func([]float64) float64, cores())
	for i := range work {
		s := &scout{optimising: t, cutting: t.cut()}
		t.scouts = append(t.scouts, s)
		work[i] = s.goal
	}
	best, err := numeric.Minimise(work, t.box, numeric.MinimiseOptions{})
	for _, s := range t.scouts {
		t.m.Charge(s.steps())
		t.gap.join(s.gap)
	}
	if t.gap.whole {
		return best, t.counted()
	}
	if f := t.m.Afford(t.x); f != nil {
		return best, f
	}
	if errors.Is(err, numeric.ErrNoFit) {
		return best, t.none()
	}
	if err != nil {
		return best, run.Fail(t.x.Place(), err.Error(), "give it a range with two ends")
	}
	return best, nil
}

// none says why no place will do: nothing can be worked, or no limit is kept.
func (t *optimising) none() *run.Fault {
	seen := t.seen()
	if len(seen) == 0 {
		return run.Fail(t.x.Place(), "nothing in this range can be worked: "+t.gap.fault.Summary, t.gap.fault.Hint)
	}
	f := run.Fail(t.x.Place(), "nothing in this range keeps all limits", "widen the range, or look at the limits")
	for _, l := range t.limits {
		if slices.ContainsFunc(seen, func(r refused) bool { return slices.Contains(r.broken, l) }) {
			f.Notes = append(f.Notes, message.Note{Span: l.Place, Text: "this limit is in the way"})
		}
	}
	return f
}

// seen are the places that limits refused, in a fixed order.
func (t *optimising) seen() []refused {
	var list []refused
	for _, s := range t.scouts {
		list = append(list, s.refused...)
	}
	slices.SortStableFunc(list, func(a, b refused) int { return slices.Compare(a.x, b.x) })
	return list
}

// A scout works the goal at places, with a subgraph of its own.
type scout struct {
	*optimising
	*cutting
	refused []refused
	gap     gap
}

// A refused place would do but for a limit.
type refused struct {
	x      []float64
	goal   float64
	broken []*program.Def
}

// goal is what is to be least; +Inf where it cannot be had.
func (s *scout) goal(x []float64) float64 {
	p := s.cutting.work(s.inputs(x))
	s.optimising.m.Points().Worked()
	if f := p.faults[0]; f != nil {
		s.gap.note(f, x, s.between(x, f))
		return math.Inf(1)
	}
	v := s.sign * p.values[0].(float64)
	if broken := append(p.broken, p.silent...); len(broken) > 0 {
		s.refused = append(s.refused, refused{slices.Clone(x), v, broken})
		return math.Inf(1)
	}
	return v
}

// between reports whether a place was refused since a variable that takes every
// number lies between whole ones.
func (s *scout) between(x []float64, f *run.Fault) bool {
	for i, v := range x {
		if s.levels[i].values == nil && wantsWhole(v, f) {
			return true
		}
	}
	return false
}

// counted names the variables that may have to go in whole steps.
func (t *optimising) counted() *run.Fault {
	var names []string
	for i, o := range t.x.Over {
		q, isNumber := o.Def.Type.(program.Quantity)
		if t.levels[i].values == nil && isNumber && q.Dim.IsNumber() {
			names = append(names, "`"+o.Name+"`")
		}
	}
	return run.Fail(t.x.Place(), "between whole numbers of "+strings.Join(names, " or ")+" this cannot be worked", "add `by 1` to the range")
}

// value is the answer: one value, or a record of them.
func (t *optimising) value(x []float64) any {
	r := make(library.Record, len(x))
	for i, v := range x {
		r[i] = v
		if l := t.levels[i]; l.values != nil {
			r[i] = l.shown[int(math.Round(v))]
		}
	}
	if len(r) == 1 {
		return r[0]
	}
	return r
}
