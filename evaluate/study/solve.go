package study

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"inkwing/evaluate/numeric"
	"inkwing/evaluate/program"
	"inkwing/evaluate/run"
)

// solve finds the value of its variable at which its condition holds.
func solve(m *run.Machine, x *program.Solve) (any, *run.Fault) {
	v, f := solved(m, x)
	if f != nil {
		return nil, f
	}
	return v, nil
}

func solved(m *run.Machine, x *program.Solve) (any, *run.Fault) {
	a := &solving{x: x, plan: newPlan(m, x, x.Def, []program.Variable{x.Over}, x.Left, x.Right)}
	a.limits = nil // only at the answer
	var f *run.Fault
	if a.from, a.to, f = ends(m, x.Over); f != nil {
		return nil, f
	}
	if nominal, moved := m.AtNominal(x).(float64); moved {
		return a.near(nominal)
	}
	if x.Over.By != nil {
		return a.answer(a.stepped())
	}
	return a.answer(a.between())
}

type solving struct {
	*plan
	x        *program.Solve
	from, to float64
	found    Finding
	gap      gap
}

// answer notes what holds no longer there.
func (a *solving) answer(value float64, f *run.Fault) (any, *run.Fault) {
	if f != nil {
		return nil, f
	}
	full := newPlan(a.m, a.x, a.x.Def, []program.Variable{a.x.Over}, a.x.Left)
	if len(full.limits) > 0 {
		c := full.cut()
		a.found.Broken = c.work([]any{value}).broken
		a.m.Charge(c.steps())
	}
	a.m.Keep(a.x, &a.found)
	return value, a.m.Afford(a.x)
}

// between finds where the two sides meet, the place nearest to today's value.
func (a *solving) between() (float64, *run.Fault) {
	cuts := make([]*probe, cores())
	work := make([]func(float64) float64, len(cuts))
	for i := range cuts {
		cuts[i] = &probe{cutting: a.cut()}
		work[i] = cuts[i].difference
	}
	scan, err := numeric.Roots(work[0], a.from, a.to, numeric.RootsOptions{Helpers: work[1:]})
	for _, c := range cuts {
		a.m.Charge(c.steps())
		a.gap.join(c.gap)
	}
	if a.gap.whole {
		return 0, counted(a.x.Over)
	}
	if f := a.m.Afford(a.x); f != nil {
		return 0, f
	}
	if err != nil {
		return 0, a.none(scan, err)
	}
	return a.nearest(scan.Roots), nil
}

// nearest takes the root next to today's value and keeps the others.
func (a *solving) nearest(roots []float64) float64 {
	today, _ := a.m.Value(a.x.Over.Def).(float64)
	best := slices.MinFunc(roots, func(p, q float64) int { return cmp.Compare(math.Abs(p-today), math.Abs(q-today)) })
	for _, r := range roots {
		if r != best {
			a.found.Others = append(a.found.Others, r)
		}
	}
	return best
}

// A probe works the difference of two sides.
type probe struct {
	*cutting
	gap gap
}

func (p *probe) difference(x float64) float64 {
	got := p.work([]any{x})
	p.m.Points().Worked()
	for _, f := range got.faults {
		if f != nil {
			p.gap.note(f, []float64{x}, wantsWhole(x, f))
			return math.NaN()
		}
	}
	return got.values[0].(float64) - got.values[1].(float64)
}

func counted(o program.Variable) *run.Fault {
	return run.Fail(o.From.Place().To(o.To.Place()), "`"+o.Name+"` takes whole numbers only", "add `by 1` to its range, and compare with `>=` or `<=`")
}

// none says why the condition holds nowhere.
func (a *solving) none(scan numeric.Scan, err error) *run.Fault {
	var e *numeric.RootError
	if !errors.As(err, &e) {
		panic("study: roots failed without a cause: " + err.Error())
	}
	at := a.x.Place()
	place := a.shown(e.At)
	switch {
	case e.Cause == numeric.NaN && a.gap.fault != nil:
		return run.Fail(at, "nothing between "+a.shown(a.from)+" and "+a.shown(a.to)+" can be worked: "+a.gap.fault.Summary, a.gap.fault.Hint)
	case e.Cause == numeric.Pole:
		return run.Fail(at, "no value of `"+a.x.Over.Name+"` does it: the two sides cross at a pole only, near "+place, "look on one side of it, and mind what is divided by nothing there")
	case e.Cause == numeric.Jump:
		return run.Fail(at, "no value of `"+a.x.Over.Name+"` does it: the two sides pass each other in a jump, at "+place, "add a step to the range and write `>=` or `<=` for the first that holds")
	}
	return a.nowhere([]float64{scan.Left.X, scan.Nearest.X, scan.Right.X})
}
