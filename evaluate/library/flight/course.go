package flight

import (
	"context"
	"errors"
	"math"
	"slices"

	"inkwing/evaluate/library/glide"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

// Where things stand in the state that is integrated.
const (
	yVoltage = iota // of the store, rested
	yHeight
	yRange
	yRadio // from here on energies
	ySource
	yLeads
	yControl
	yCopper
	yIdle
	yGear
	yPropeller
	yDrag
	yLeak
	yCount

	ySlow     = yCount // V, of the slow branch of a store that has one
	ySettling = yCount + 1
	yBranched = yCount + 2
)

// A flown leg is a leg with its path.
type flown struct {
	*leg
	from, to float64
	first    float64 // V, rested, with which it begins
	path     path
	end      []float64
}

// A path is the state by the time.
type path interface {
	At(t float64, y []float64) bool
}

// A course is a flight under way.
type course struct {
	in     *FlightInput
	plane  glide.Plane // in the glide
	glide  float64
	cutOff float64
	t      float64
	y      []float64
	off    float64   // when the motor has stopped for good
	then   []float64 // the state at that time
	rested float64   // for how long it rested before that
	legs   []flown
	events []FlightEvent
	ended  string

	tolerance    float64
	steps, calls int
}

// flightTolerance is relative, of each step; flightScale what is granted
// beside it: volts, metres and joules.
const (
	flightTolerance = 1e-8
	flightScale     = 1e-7
)

// Where the events of a leg stand.
const (
	eGround = iota
	eHeight
	eCutOff
	eSpare
	eTop
	eRadio
)

// derivative is the leg's system.
func (l *leg) derivative(wind float64) numeric.System {
	return func(_ float64, y, dy []float64) {
		l.grows(l.at(y[yVoltage]), y[yVoltage], wind, dy)
		l.settle(y, dy)
	}
}

// grows is what a moment at a rested voltage adds to the state, by the second.
func (l *leg) grows(m moment, v, wind float64, dy []float64) {
	all, leak := m.pack+m.radio, l.store.leak(v)
	dy[yVoltage] = -(all + leak) / l.law.At(v)
	dy[yHeight] = m.climb()
	dy[yRange] = m.speed*math.Cos(m.angle) + wind
	dy[yRadio] = m.terminal * m.radio
	dy[ySource] = all * all * l.store.Resistance
	dy[yLeads] = m.pack * m.pack * l.drive.LeadResistance
	dy[yControl] = m.square * l.drive.SpeedControl.Resistance
	dy[yCopper] = m.square * l.drive.Motor.Resistance
	dy[yIdle], dy[yGear], dy[yPropeller] = 0, 0, 0
	if l.task != rest {
		shaft := 2 * math.Pi * m.turns * m.torque
		dy[yIdle] = l.drive.Motor.IdleCurrent * l.emf * m.turns
		if l.drive.GearLoses() { // else what is left over is rounding
			dy[yGear] = l.emf*m.turns*m.motor - dy[yIdle] - shaft
		}
		dy[yPropeller] = shaft - m.thrust*m.speed
	}
	dy[yDrag] = m.drag * m.speed
	dy[yLeak] = leak * v
}

// watched are the leg's events. One that does not concern it never happens.
func (c *course) watched(l *leg, target *float64) []numeric.Event {
	never := numeric.Event{Of: func(float64, []float64) float64 { return 1 }, Direction: numeric.Falling}
	events := []numeric.Event{eGround: {Of: func(_ float64, y []float64) float64 { return y[yHeight] }, Direction: numeric.Falling, Terminal: true},
		eHeight: never, eCutOff: never, eSpare: never, eTop: never, eRadio: never}
	on := func(i int, terminal bool, of func(v float64) float64) {
		events[i] = numeric.Event{Of: func(_ float64, y []float64) float64 { return of(y[yVoltage]) }, Direction: numeric.Falling, Terminal: terminal}
	}
	if target != nil {
		events[eHeight] = numeric.Event{Of: func(_ float64, y []float64) float64 { return y[yHeight] - *target }, Direction: numeric.Either, Terminal: true}
	}
	memo := l.remembered()
	if l.phase > 0 {
		on(eCutOff, true, func(v float64) float64 { return memo(v).terminal - c.cutOff })
	}
	if l.task == rate || l.task == power {
		on(eSpare, true, func(v float64) float64 { return memo(v).spare })
	}
	if l.task == throttle || l.task == power {
		on(eTop, false, l.lifting)
	}
	if l.least > 0 && !l.failed {
		on(eRadio, true, func(v float64) float64 { return memo(v).terminal - l.least })
	}
	return events
}

// looks are at moments of a leg by its voltage.
type looks func(rested float64) moment

// remembered works a voltage once for all who ask for it soon: each of several events
// looks at the same few moments of a step, and what follows a leg at its ends.
func (l *leg) remembered() looks {
	var at [8]float64
	var known [8]moment
	next := 0
	return func(v float64) moment {
		for i := range at {
			if at[i] == v && known[i].speed > 0 {
				return known[i]
			}
		}
		next = (next + 1) % len(at)
		at[next], known[next] = v, l.at(v)
		return known[next]
	}
}

// fly follows a leg to its end and says which event ended it; -1 for the time.
// At the radio's minimum, where its current has a bend, it begins anew: a step
// across the bend would be off by more than it knows.
func (c *course) fly(ctx context.Context, l *leg, until float64, target *float64) (int, error) {
	for {
		event, err := c.stretch(ctx, l.listening(c.y[yVoltage]), until, target)
		if err != nil || event != eRadio {
			return event, err
		}
		c.note(c.t, c.y, l.phase, "radio's minimum")
	}
}

// listening is the leg with the radio at work or failed, as it begins.
func (l *leg) listening(rested float64) *leg {
	own := *l.circuit
	own.failed = false
	as := *l
	as.circuit = &own
	own.failed = own.least > 0 && as.at(rested).terminal <= own.least
	return &as
}

// flightSteps bounds a stretch; a common one takes some tens.
const flightSteps = 5000

// stretch follows a leg to its next event that ends it: over the voltage, or where
// that says too little in steps of time.
func (c *course) stretch(ctx context.Context, l *leg, until float64, target *float64) (int, error) {
	if f, ok := c.falling(ctx, l, until, target); ok {
		return c.fallen(&f)
	}
	s, err := numeric.Integrate(ctx, l.derivative(c.in.Wind), c.t, c.y, until, numeric.Options{
		Relative: c.tolerance, Absolute: c.tolerance / flightTolerance * flightScale, Longest: c.longest(l),
		Steps: flightSteps, Events: c.watched(l, target), Dense: true})
	c.steps, c.calls = c.steps+s.Accepted+s.Rejected, c.calls+s.Calls
	if err != nil {
		return 0, stalled(err)
	}
	last := -1
	for _, h := range s.Hits {
		if h.Event == eTop {
			c.note(h.T, h.Y, l.phase, "climbs no more")
		}
		last = h.Event
	}
	if !s.Ended {
		last = -1
	}
	return last, c.flew(l, &s.Path, s.T, s.Y)
}

// fallen is a leg that was followed over the voltage.
func (c *course) fallen(f *fall) (int, error) {
	y := make([]float64, yCount)
	if v, ok := f.tops(); ok {
		t := f.state(v, y)
		c.note(t, y, f.phase, "climbs no more")
	}
	t := f.end(y)
	return f.last, c.flew(f.leg, f, t, y)
}

// flew puts a leg behind the course.
func (c *course) flew(l *leg, p path, t float64, y []float64) error {
	c.legs = append(c.legs, flown{leg: l, from: c.t, to: t, first: c.y[yVoltage], path: p, end: y})
	if l.phase > 0 && l.task != rest {
		c.rested += c.t - c.off
		c.off, c.then = t, slices.Clone(y)
	}
	c.t, c.y = t, y
	if m := l.at(c.y[yVoltage]); l.task != rest && !l.within(m.turns, m.speed) {
		return l.disc.Unbalanced("drive.propeller")
	}
	return nil
}

// longest is a step that does not leap far past the cut-off, where the motor
// would ask for what the pack no longer has.
func (c *course) longest(l *leg) float64 {
	v := c.y[yVoltage]
	m := l.at(v)
	if l.task == rest || m.pack+m.radio <= 0 {
		return 0
	}
	return max(0.25*l.law.At(v)*(v-0.8*min(c.cutOff, v))/(m.pack+m.radio), 1e-6)
}

// stalled puts a stall of the integration in the builder's terms, but for one
// that the context asked for.
func stalled(err error) error {
	var s *numeric.Stall
	if !errors.As(err, &s) {
		return err
	}
	if s.Cause == numeric.Cancelled {
		return s.Err
	}
	return &model.Error{Summary: "the flight could not be followed past {0}", Values: []model.Value{model.In(s.T, "s")},
		Hint: "check the store, the drive and the airframe for a value far out of the usual"}
}

func (c *course) note(t float64, y []float64, phase int, what string) {
	c.events = append(c.events, FlightEvent{Time: t, What: what, Phase: phase, Voltage: y[yVoltage], Height: y[yHeight]})
}
