package numeric

import (
	"cmp"
	"slices"
)

// A Direction is the way in which an event's function passes through zero, in
// the direction travelled.
type Direction int8

// The directions.
const (
	Falling Direction = iota - 1
	Either
	Rising
)

// An Event is a function of time and state whose zeros are located.
type Event struct {
	Of        func(t float64, y []float64) float64
	Direction Direction
	Terminal  bool // ends the integration
}

// A Hit is an event that happened. T is the first located time at which the
// function is zero or beyond, so that an integration that goes on from there
// does not meet the same event again.
type Hit struct {
	Event int // index in Options.Events
	T     float64
	Y     []float64
}

// Looks is how often a step looks at an event's function. Two zeros between
// neighbouring looks cancel and are missed; bound the step with
// Options.Longest if an event is shorter than that.
const looks = 4

// eventWidth is how closely an event is located, as part of its step.
const eventWidth = 1e-13

// A watch follows the events' functions along the path.
type watch struct {
	events []Event
	last   []float64
	y      []float64
}

func newWatch(events []Event, t float64, y []float64) *watch {
	w := &watch{events: events, last: make([]float64, len(events)), y: make([]float64, len(y))}
	copy(w.y, y)
	for i := range events {
		w.last[i] = events[i].Of(t, w.y)
	}
	return w
}

// step finds the events of one step and adds them to the solution. It reports
// whether a terminal one is the last of them; those behind it are left out.
func (w *watch) step(g *segment, s *Solution) bool {
	first := len(s.Hits)
	for i := range w.events {
		w.follow(i, g, s)
	}
	found := s.Hits[first:]
	if len(found) == 0 {
		return false
	}
	slices.SortStableFunc(found, func(a, b Hit) int {
		if g.h < 0 {
			a, b = b, a
		}
		return cmp.Compare(a.T, b.T)
	})
	for n, h := range found {
		if w.events[h.Event].Terminal {
			s.Hits = s.Hits[:first+n+1]
			return true
		}
	}
	return false
}

func (w *watch) follow(i int, g *segment, s *Solution) {
	of := func(x float64) float64 {
		g.at(x, w.y)
		return w.events[i].Of(g.t+x*g.h, w.y)
	}
	x0, v0 := 0.0, w.last[i]
	for n := 1; n <= looks; n++ {
		x := float64(n) / looks
		v := of(x)
		if w.events[i].met(v0, v) {
			at := x
			if v != 0 {
				at, _ = narrow(of, x0, v0, x, v, eventWidth).past(v)
			}
			hit := Hit{Event: i, T: g.t + at*g.h, Y: make([]float64, len(w.y))}
			g.at(at, hit.Y)
			s.Hits = append(s.Hits, hit)
		}
		x0, v0 = x, v
	}
	w.last[i] = v0
}

// met reports whether the event's function went through zero from a to b. It
// must leave one side: what begins at zero has not gone through it.
func (e *Event) met(a, b float64) bool {
	rising, falling := a < 0 && b >= 0, a > 0 && b <= 0
	return rising && e.Direction != Falling || falling && e.Direction != Rising
}
