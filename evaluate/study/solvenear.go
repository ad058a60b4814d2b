package study

import (
	"math"

	"inkwing/evaluate/run"
)

// near finds the answer again while uncertain inputs are moved a little about
// their nominals, from the answer there, by secants. A step that was chosen
// stays chosen.
func (a *solving) near(nominal float64) (float64, *run.Fault) {
	if a.x.Over.By != nil {
		return nominal, nil
	}
	p := &probe{cutting: a.cut()}
	x, ok := a.secant(p, nominal)
	a.m.Charge(p.steps())
	if !ok {
		return a.between()
	}
	return x, nil
}

func (a *solving) secant(p *probe, nominal float64) (float64, bool) {
	const first, fine, most = 1e-6, 1e-14, 20
	wide := math.Abs(a.to - a.from)
	low, high := min(a.from, a.to), max(a.from, a.to)
	x0, x1 := nominal, nominal+first*wide
	if x1 > high {
		x1 = nominal - first*wide
	}
	f0 := p.difference(x0)
	for range most {
		f1 := p.difference(x1)
		switch {
		case math.IsNaN(f0) || math.IsNaN(f1):
			return 0, false
		case f1 == 0 || math.Abs(x1-x0) <= fine*wide:
			return x1, true
		case f1 == f0:
			return 0, false
		}
		x0, f0, x1 = x1, f1, x1-f1*(x1-x0)/(f1-f0)
		if x1 < low || x1 > high {
			return 0, false
		}
	}
	return 0, false
}
