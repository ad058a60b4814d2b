package flight

import (
	"context"
	"math"

	"inkwing/evaluate/numeric"
)

// What is known along a leg beside what it adds up.
const (
	kShort   = iota // terminals below the cut-off
	kStarved        // terminals below the radio's minimum
	kBehind         // less to spare than nothing
	kTerminal
	kCurrent
	kThrottle
	kClimb
	kSpeed
	kRate // s by the volt
	kCount
)

// yTime is where the time stands while the voltage is what a leg is followed over.
const yTime = yVoltage

// A fall is a leg followed over the pack's voltage, which falls all the while: all that
// happens in it depends on the voltage alone, and smoothly. A store with a slow branch is none
// of that.
type fall struct {
	*leg
	curve    numeric.Curve
	from, to float64 // V
	at       float64 // V, where it was looked at last
	last     int     // the event with which it ends; -1 for the time
	until    float64
	target   *float64
}

// mostLooks bounds what the series may take; beyond it steps are quicker.
const mostLooks = 200

// falling follows a leg over the voltage down to its first event; false where that is
// no way to follow it.
func (c *course) falling(ctx context.Context, l *leg, until float64, target *float64) (f fall, ok bool) {
	if l.law.Lags() {
		return f, false
	}
	v, at := c.y[yVoltage], l.remembered()
	if low, ok := c.soon(l, at, until, target); ok {
		if f, ok := c.down(ctx, l, at, low, -1, until, target); ok {
			return f, true
		}
	}
	low, event, ok := c.lowest(l, v, at)
	if !ok {
		return f, false
	}
	return c.down(ctx, l, at, low, event, until, target)
}

// down follows a leg down to a voltage, which is an event's if it is not below nought, or
// to its first event before.
func (c *course) down(ctx context.Context, l *leg, at looks, low float64, event int, until float64, target *float64) (f fall, ok bool) {
	v := c.y[yVoltage]
	const narrow = 1e-6 // below it the voltage tells too little of the time
	if !(v-low > narrow*v) {
		return f, false
	}
	start := append([]float64(nil), c.y...)
	start[yTime] = c.t
	var last current
	rates := c.rates(l, at, &last)
	t := numeric.Track{Start: start, Also: kCount, Feed: -1, Looks: mostLooks, Most: c.allowed(rates, v, low),
		Rates: func(_ int, v, _ float64, out []float64) { rates(v, out) }, Kind: func() (int, float64) { return int(last.kind), last.margin }}
	curve, ok := numeric.Collocate(ctx, &t, v, low)
	c.calls += curve.Looks
	f = fall{leg: l, curve: curve, from: v, to: low, at: v, last: event}
	return f, ok && c.cut(&f, until, target)
}

// soon is a voltage somewhat below that with which the time of a leg is up or its height
// reached; false where neither comes before the leg ends by itself.
func (c *course) soon(l *leg, at looks, until float64, target *float64) (low float64, ok bool) {
	const spare, far = 1.1, 0.6
	v := c.y[yVoltage]
	m := at(v)
	wait := until - c.t
	if target != nil && (*target-c.y[yHeight])*m.climb() > 0 {
		wait = min(wait, (*target-c.y[yHeight])/m.climb())
	}
	low = v
	for range 2 { // an emptier store gives more current for as much power
		if low = v - spare*wait*l.falls(m, low); !(low > far*v) {
			return low, false
		}
		m = at(low)
	}
	ends := l.phase > 0 && m.terminal <= c.cutOff || l.least > 0 && !l.failed && m.terminal <= l.least
	return low, !ends && (l.task != rate && l.task != power || m.spare >= 0)
}

// falls is how fast a store's voltage falls, by the second.
func (l *leg) falls(m moment, v float64) float64 {
	return (m.pack + m.radio + l.store.leak(v)) / l.law.At(v)
}

// lowest is where a leg ends at the latest, and with which event: at the cut-off or the
// radio's minimum; else somewhat past where the glide meets the ground.
func (c *course) lowest(l *leg, v float64, at looks) (low float64, event int, ok bool) {
	bound, event := 0.0, -1
	if l.phase > 0 {
		bound, event = c.cutOff, eCutOff
	}
	if l.least > 0 && !l.failed && l.least > bound {
		bound, event = l.least, eRadio
	}
	if bound == 0 {
		return c.ground(l, v, at), -1, true
	}
	over := func(v float64) float64 { return at(v).terminal - bound }
	if low, ok = below(over, bound, v); !ok {
		return low, event, ok
	}
	if l.task == rate || l.task == power {
		spare := func(v float64) float64 { return at(v).spare }
		if spare(low) < 0 {
			low, ok = below(spare, low, v)
			event = eSpare
		}
	}
	return low, event, ok
}

// below is where what is above nought at a voltage has passed it on the way down; false
// where it does not.
func below(of func(v float64) float64, low, v float64) (float64, bool) {
	a, b := of(low), of(v)
	switch {
	case !(b > 0) || math.IsNaN(a):
		return 0, false
	case a >= 0:
		return low, a == 0
	}
	x := numeric.Crossing(of, low, v, a, b)
	for step := 1e-15 * v; of(x) > 0 && x > low; step *= 2 {
		x = max(low, x-step)
	}
	return x, true
}

// ground is a voltage somewhat below that with which a glide comes to the ground.
func (c *course) ground(l *leg, v float64, at looks) float64 {
	const spare = 1.3
	m := at(v)
	return v * math.Exp(-spare*l.falls(m, v)/v*c.y[yHeight]/max(-m.climb(), 1e-3))
}

// rates are those of a leg by the voltage, and what is known beside them; the current
// it notes.
func (c *course) rates(l *leg, at looks, last *current) func(v float64, out []float64) {
	return func(v float64, out []float64) {
		m := at(v)
		*last = m.current
		dy, known := out[:yCount], out[yCount:]
		l.grows(m, v, c.in.Wind, dy)
		by := 1 / dy[yVoltage] // s by the volt
		for i := range dy {
			dy[i] *= by
		}
		dy[yTime] = by
		known[kShort], known[kStarved], known[kBehind] = -1, -1, -1
		if l.phase > 0 {
			known[kShort] = c.cutOff - m.terminal
		}
		if l.least > 0 && !l.failed {
			known[kStarved] = l.least - m.terminal
		}
		if l.task == rate || l.task == power {
			known[kBehind] = -m.spare
		}
		known[kTerminal], known[kCurrent], known[kThrottle] = m.terminal, m.pack+m.radio, m.throttle
		known[kClimb], known[kSpeed], known[kRate] = m.climb(), m.speed, by
	}
}

// allowed is how far time and height may be off: the time at the least that it takes.
func (c *course) allowed(rates func(v float64, out []float64), v, low float64) []float64 {
	most := make([]float64, yCount)
	for i := range most {
		most[i] = math.Inf(1)
	}
	const scale = 10 // m
	out := make([]float64, yCount+kCount)
	rates(low, out)
	most[yTime] = math.Abs(out[yTime])
	rates(v, out)
	most[yTime] = c.tolerance * (v - low) * min(most[yTime], math.Abs(out[yTime]))
	most[yHeight] = c.tolerance * scale
	return most
}

// cut finds the first event of a fall, and ends it there; false where it has none.
func (c *course) cut(f *fall, until float64, target *float64) bool {
	f.to = f.curve.To()
	ends := func(v float64, event int, ok bool) {
		if ok && v > f.to {
			f.to, f.last = v, event
		}
	}
	f.until, f.target = until, target
	v, ok := f.curve.Falls(yHeight, 0)
	ends(v, eGround, ok)
	v, ok = f.curve.Rises(yTime, until)
	ends(v, -1, ok)
	timed := ok && v == f.to
	if target != nil {
		v, ok = f.curve.Rises(yHeight, *target)
		ends(v, eHeight, ok)
		v, ok = f.curve.Falls(yHeight, *target)
		ends(v, eHeight, ok)
	}
	for i, event := range map[int]int{kShort: eCutOff, kStarved: eRadio, kBehind: eSpare} {
		v, ok := f.curve.Rises(yCount+i, 0)
		ends(v, event, ok)
	}
	return f.last >= 0 || timed
}

// state is what a fall has come to at a voltage, and the time then.
func (f *fall) state(v float64, y []float64) (t float64) {
	f.curve.At(v, y, nil)
	t = y[yTime]
	y[yVoltage] = v
	return t
}

// end is the state at the event with which a fall ends, which has happened whatever
// rounding says.
func (f *fall) end(y []float64) (t float64) {
	t = f.state(f.to, y)
	switch f.last {
	case eGround:
		y[yHeight] = 0
	case eHeight:
		y[yHeight] = *f.target
	case -1:
		t = f.until
	}
	return t
}

// At writes the state at a time to y: by Newton's steps from the last time that was
// asked for.
func (f *fall) At(t float64, y []float64) bool {
	v := f.at
	for range 20 {
		step := (f.curve.Value(yTime, v) - t) / f.curve.Value(yCount+kRate, v)
		next := min(max(v-step, f.to), f.from)
		if v, step = next, next-v; math.Abs(step) <= 1e-13*f.from {
			break
		}
	}
	if t <= f.curve.Start(yTime) {
		v = f.from
	}
	f.at = v
	f.state(v, y)
	return true
}

// row is a moment of a fall.
func (f *fall) row(t float64, y []float64) FlightRow {
	var all [yCount]float64
	var known [kCount]float64
	f.curve.At(y[yVoltage], all[:], known[:])
	return FlightRow{Time: t, Phase: f.phase, Voltage: y[yVoltage], TerminalVoltage: known[kTerminal], Current: known[kCurrent],
		Throttle: known[kThrottle], Height: max(y[yHeight], 0), ClimbRate: known[kClimb], Airspeed: known[kSpeed]}
}

// tops is when a fall begins to sink at a throttle or power; false where it does not.
func (f *fall) tops() (v float64, ok bool) {
	if f.task != throttle && f.task != power || f.lifting(f.from) <= 0 || f.lifting(f.to) > 0 {
		return 0, false
	}
	return below(f.lifting, f.to, f.from)
}
