package generator

import (
	"math"
	"slices"
)

// reached is how closely a limit is met, by it.
const reached = 1e-10

// follow finds the cadence of a limit by secants, from where those before point;
// false where they do not find it.
func (a *arm) follow(v float64) (pull, bool) {
	return a.meet(v, a.Cadence, a.over)
}

// meet is follow with something that is to be nought, up to a cadence. Between two
// that are near all of a pull goes straight, so that the last step is not worked.
func (a *arm) meet(v, most float64, of func(pull) float64) (pull, bool) {
	c, steep := a.foreseen(v), a.steep
	first := c
	c = min(c*(1+a.off), most)
	p := a.turning(v, c)
	over := of(p)
	for range 12 {
		if math.Abs(over) < reached || c == most && over < 0 {
			return a.hold(v, p, first, steep), true
		}
		next := min(most, c-over/steep)
		if !(next > 0) || next == c {
			break
		}
		q := a.turning(v, next)
		then := of(q)
		steep = (then - over) / (next - c)
		if math.Abs(over*then) < reached && a.holding(p) == a.holding(q) && math.Abs(then) < math.Abs(over) && next < most {
			return a.hold(v, p.towards(q, over/(over-then)), first, steep), true
		}
		c, p, over = next, q, then
	}
	return p, false
}

// towards is a pull on the straight line to another one.
func (p pull) towards(q pull, part float64) pull {
	for _, x := range []struct{ at, to *float64 }{
		{&p.mean, &q.mean}, {&p.drain.power, &q.drain.power}, {&p.square, &q.square}, {&p.peak, &q.peak}, {&p.shared, &q.shared},
		{&p.x, &q.x}, {&p.r, &q.r}, {&p.copper, &q.copper}, {&p.diodes, &q.diodes}, {&p.direct, &q.direct},
		{&p.cadence, &q.cadence}, {&p.torque, &q.torque}, {&p.eddy, &q.eddy}, {&p.net, &q.net},
	} {
		*x.at += part * (*x.to - *x.at)
	}
	return p
}

// hold keeps what a limit holds, for other voltages.
func (a *arm) hold(v float64, p pull, foreseen, steep float64) pull {
	a.steep, a.off = steep, p.cadence/foreseen-1
	a.held[a.count%len(a.held)] = holding{v, p.cadence, a.lately}
	a.count++
	return p
}

// forget leaves of those before the nearest alone.
func (a *arm) forget() {
	if a.count > 0 {
		a.held[0] = a.held[(a.count-1)%len(a.held)]
		a.count = 1
	}
}

// foreseen is the cadence at a voltage on the parabola through the three nearest, or
// on what there is; so it is with how the bridge conducts.
func (a *arm) foreseen(v float64) float64 {
	near, n := a.nearest(v)
	first := near[0]
	w := lagrange(v, near[:n])
	c, i, at := 0.0, 0.0, 0.0
	for k, h := range near[:n] {
		c, i, at = c+w[k]*h.cadence, i+w[k]*h.i, at+w[k]*h.at
		if h.i == 0 {
			i = math.NaN()
		}
	}
	if i > 0 {
		a.lately = track{i, at}
	}
	if !(c > first.cadence/2) {
		return first.cadence
	}
	return min(c, 2*first.cadence)
}

// nearest are the last three voltages about one at which a limit held, the nearest first.
func (a *arm) nearest(v float64) (near [3]holding, n int) {
	last := min(a.count, len(a.held))
	for k := range last {
		h := a.held[(a.count-1-k)%len(a.held)] // of several at one voltage the last
		i := n
		for i > 0 && math.Abs(h.v-v) < math.Abs(near[i-1].v-v) {
			i--
		}
		if i == len(near) || slices.ContainsFunc(near[:n], func(other holding) bool { return other.v == h.v }) {
			continue
		}
		copy(near[i+1:], near[i:])
		near[i] = h
		n = min(n+1, len(near))
	}
	return near, n
}

// lagrange is the weights of up to three values at other places.
func lagrange(v float64, near []holding) (w [3]float64) {
	for k := range near {
		w[k] = 1
		for l := range near {
			if l != k {
				w[k] *= (v - near[l].v) / (near[k].v - near[l].v)
			}
		}
	}
	return w
}
