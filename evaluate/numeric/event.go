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
	near   []float64 // the state where an event is located
}

func newWatch(events []Event, t float64, y []float64) *watch {
	w := &watch{events: events}
	if n := len(y); len(events) > 0 {
		room := make([]float64, 2*n+len(events))
		w.y, w.near, w.last = room[:n], room[n:2*n], room[2*n:]
		copy(w.y, y)
	}
	for i := range events {
		w.last[i] = events[i].Of(t, w.y)
	}
	return w
}

// step finds the events of one step and adds them to the solution. It reports
// whether a terminal one is the last of them; those behind it are left out.
func (w *watch) step(g *segment, s *Solution) bool {
	if len(w.events) == 0 {
		return false
	}
	first, ends := len(s.Hits), false
	for n := 1; n <= looks && !ends; n++ {
		ends = w.look(n, g, s)
	}
	found := s.Hits[first:]
	slices.SortFunc(found, func(a, b Hit) int {
		if g.h < 0 && a.T != b.T {
			a, b = b, a
		}
		return cmp.Or(cmp.Compare(a.T, b.T), cmp.Compare(a.Event, b.Event))
	})
	for n, h := range found {
		if w.events[h.Event].Terminal {
			s.Hits = s.Hits[:first+n+1]
			return true
		}
	}
	return false
}

// look follows the events from one look to the next, and reports whether a
// terminal one happened.
func (w *watch) look(n int, g *segment, s *Solution) (ends bool) {
	x0, x := float64(n-1)/looks, float64(n)/looks
	g.at(x, w.y)
	for i := range w.events {
		e, v0 := &w.events[i], w.last[i]
		v := e.Of(g.t+x*g.h, w.y)
		if w.last[i] = v; e.met(v0, v) {
			s.Hits = append(s.Hits, w.locate(i, g, x0, v0, x, v))
			ends = ends || e.Terminal
		}
	}
	return ends
}

// locate finds where between two looks an event happened.
func (w *watch) locate(i int, g *segment, x0, v0, x, v float64) Hit {
	if v != 0 {
		x, _ = narrow(func(x float64) float64 {
			g.at(x, w.near)
			return w.events[i].Of(g.t+x*g.h, w.near)
		}, x0, v0, x, v, eventWidth).past(v)
	}
	hit := Hit{Event: i, T: g.t + x*g.h, Y: make([]float64, len(w.y))}
	g.at(x, hit.Y)
	return hit
}

// met reports whether the event's function went through zero from a to b. It
// must leave one side: what begins at zero has not gone through it.
func (e *Event) met(a, b float64) bool {
	rising, falling := a < 0 && b >= 0, a > 0 && b <= 0
	return rising && e.Direction != Falling || falling && e.Direction != Rising
}
