package study

import (
	"inkwing/evaluate/run"
)

// chunk is how many steps are worked side by side before looking at them.
const chunk = 16

// stepped finds the first step at which the condition holds.
func (a *solving) stepped() (float64, *run.Fault) {
	l, f := levelsOf(a.m, a.x.Over)
	if f != nil {
		return 0, f
	}
	for start := 0; start < len(l.values); start += chunk {
		part := l.values[start:min(start+chunk, len(l.values))]
		points, f := a.all(len(part), func(i int) []any { return part[i : i+1] })
		if f != nil {
			return 0, f
		}
		for i := range points {
			if a.holds(&points[i]) {
				a.found.First = start+i == 0
				return part[i].(float64), nil
			}
		}
	}
	return 0, a.noStep(l)
}

// holds reports whether the condition holds at a point; where it cannot be worked
// it does not.
func (a *solving) holds(p *point) bool {
	for _, f := range p.faults {
		if f != nil {
			if a.gap.fault == nil {
				a.gap.fault = f
			}
			return false
		}
	}
	return run.Keeps(a.x.Op, p.values[0], p.values[1])
}

// noStep says why no step does it: what is reached at both ends, or what kept
// the ends from being worked.
func (a *solving) noStep(l levels) *run.Fault {
	places := []float64{l.values[0].(float64), l.values[len(l.values)-1].(float64)}
	f := a.nowhere(places)
	if a.gap.fault != nil {
		f.Summary += "; where it cannot be worked, " + a.gap.fault.Summary
	}
	return f
}
