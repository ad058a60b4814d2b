package numeric

import (
	"context"
	"math"
	"slices"
)

// A System gives the derivative dy of the state y at time t. It must write
// all of dy and neither keep nor change y.
type System func(t float64, y, dy []float64)

// Options steer an integration. The zero value is a sensible choice.
type Options struct {
	Relative float64   // tolerance of the local error, relative to each component; 0 stands for 1e-8
	Absolute float64   // tolerance that is always granted; 0 stands for 1e-10
	Each     []float64 // absolute tolerance of each component, instead of Absolute
	First    float64   // first step; 0 to have it chosen
	Longest  float64   // longest step; 0 for no bound
	Steps    int       // most steps, accepted and rejected; 0 stands for 100 000
	Events   []Event
	Dense    bool // keep the path between the steps
}

// The defaults of Options.
const (
	defaultRelative = 1e-8
	defaultAbsolute = 1e-10
	defaultSteps    = 100_000
)

// A Solution is where an integration ended and what happened on the way.
type Solution struct {
	T     float64
	Y     []float64
	Hits  []Hit // events, in order of time
	Ended bool  // a terminal event ended it, the last of Hits
	Path  Path  // if Dense was asked for

	Accepted, Rejected, Calls int // steps, and evaluations of the system
}

// Integrate follows dy/dt = f(t, y) from t0, y0 to t1, which may lie before t0,
// or to the first terminal event. If it cannot go on, the error is a *Stall and
// the Solution holds what was reached. The context is polled at every step.
func Integrate(ctx context.Context, f System, t0 float64, y0 []float64, t1 float64, o Options) (Solution, error) {
	o = o.filled()
	s := newStepper(f, t0, y0, t1, o)
	if says := s.check(t0, t1); says != "" {
		return s.solution, s.stall(BadInput, says)
	}
	watch := newWatch(o.Events, t0, y0)
	s.call(s.t, s.y, s.k[0])
	if !finite(s.k[0]) || !finite(s.y) {
		return s.finish(), s.stall(NotFinite, "")
	}
	s.chooseFirst()
	for s.t != t1 {
		if err := ctx.Err(); err != nil {
			return s.finish(), s.cancelled(err)
		}
		if err := s.advance(); err != nil {
			return s.finish(), err
		}
		if watch.step(&s.dense, &s.solution) {
			return s.endAt(s.solution.Hits[len(s.solution.Hits)-1]), nil
		}
		s.shift()
	}
	return s.finish(), nil
}

func (o Options) filled() Options {
	if o.Relative == 0 {
		o.Relative = defaultRelative
	}
	if o.Absolute == 0 {
		o.Absolute = defaultAbsolute
	}
	if o.Steps == 0 {
		o.Steps = defaultSteps
	}
	return o
}

// check says what is wrong with the problem, "" if nothing is.
func (s *stepper) check(t0, t1 float64) string {
	const rounding = 1e-15
	o := s.o
	switch {
	case len(s.y) == 0:
		return "no state"
	case s.f == nil:
		return "no system"
	case math.IsNaN(t0) || math.IsInf(t0, 0) || math.IsNaN(t1) || math.IsInf(t1, 0):
		return "the times are not finite"
	case !(o.Relative >= rounding) || !(o.Relative < 1) || !(o.Absolute >= 0):
		return "the tolerances are out of range"
	case o.Each != nil && len(o.Each) != len(s.y):
		return "not as many tolerances as components"
	case slices.ContainsFunc(o.Each, func(x float64) bool { return !(x >= 0) }):
		return "the tolerances are out of range"
	case !(o.First >= 0) || !(o.Longest >= 0) || o.Steps < 0:
		return "the steps are out of range"
	case slices.ContainsFunc(o.Events, func(e Event) bool { return e.Of == nil }):
		return "an event has no function"
	}
	return ""
}

// finish puts the state reached into the solution.
func (s *stepper) finish() Solution {
	s.solution.T, s.solution.Y = s.t, slices.Clone(s.y)
	return s.solution
}

// endAt cuts the solution off at a terminal event.
func (s *stepper) endAt(h Hit) Solution {
	s.solution.T, s.solution.Y, s.solution.Ended = h.T, slices.Clone(h.Y), true
	if s.o.Dense {
		s.solution.Path.add(&s.dense)
		s.solution.Path.end = h.T
	}
	return s.solution
}

func (s *stepper) stall(c Cause, says string) error {
	return &Stall{Cause: c, T: s.t, Y: slices.Clone(s.y), Steps: s.solution.Accepted, Detail: says}
}

func (s *stepper) cancelled(err error) error {
	return &Stall{Cause: Cancelled, T: s.t, Y: slices.Clone(s.y), Steps: s.solution.Accepted, Detail: err.Error(), Err: err}
}

func finite(y []float64) bool {
	sum := 0.0 // NaN as soon as one is infinite or NaN
	for _, x := range y {
		sum += x * 0
	}
	return sum == 0
}
