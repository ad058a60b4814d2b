package generator

import "math"

// A drain is what flows at one voltage and one rotation, with what it loses.
type drain struct {
	flow
	x      float64 // V, into which it flows: the store and the diodes
	copper float64 // W, in the coils
	diodes float64 // W
	direct float64 // W, in the resistance behind the bridge
	slope  float64 // W, what power gains by the logarithm of the rotation
}

// at is the flow into x, the store's rested voltage and two diodes, at a
// rotation, with rd behind the bridge (leads and store).
func (m *Machine) at(x, rotation, rd float64) drain {
	e := m.PhaseConstant * rotation
	d := drain{x: x}
	switch {
	case e <= 0:
		return d
	case m.star():
		d.flow = threeFlow(e, m.PhaseResistance, rd, x)
	case m.Bridges > 1:
		return m.several(e, rd, x)
	default:
		d.flow = singleFlow(e, m.PhaseResistance+rd, x)
	}
	d.direct = rd * d.square
	d.copper = max(0, d.power-x*d.mean-d.direct)
	d.slope = d.flow.slope(x)
	return d
}

// several is bridges side by side on the d.c. side whose emfs peak at different
// times. What they share sees their sum, taken as smooth: it lifts the voltage
// of all by the mean current.
func (m *Machine) several(e, rd, x float64) drain {
	n := float64(m.Bridges)
	one, lift := singleFlow(e, m.PhaseResistance, x), 0.0
	for range 60 { // the mean is convex in the lift: Newton's steps rise to it
		step := (n*one.mean*rd - lift) / (1 + n*one.yield*rd)
		lift += step
		one = singleFlow(e, m.PhaseResistance, x+lift)
		if step <= 1e-13*lift {
			break
		}
	}
	f := flow{mean: n * one.mean, power: n * one.power, square: n * one.mean * n * one.mean, peak: n * one.mean,
		yield: n * one.yield / (1 + n*one.yield*rd)}
	direct := lift * f.mean
	y := x + lift
	slope := n * (one.slope(y) - (one.mean+y*one.yield)*rd*(f.mean+x*f.yield))
	return drain{flow: f, x: x, direct: direct, copper: max(0, f.power-x*f.mean-direct), slope: slope}
}

// solve finds the zero of a falling f between lo and hi by false position with
// the weighting of Anderson and Björck (BIT 13, 1973); an end that does not
// bracket is the answer.
func solve(lo, hi float64, f func(float64) float64) float64 {
	a, b := f(lo), f(hi)
	if a <= 0 {
		return lo
	}
	if b >= 0 {
		return hi
	}
	side := 0
	for range 200 {
		mid := (lo*b - hi*a) / (b - a)
		if !(mid > lo && mid < hi) {
			mid = lo + (hi-lo)/2
		}
		y := f(mid)
		switch {
		case math.Abs(y) < 1e-13:
			return mid
		case y > 0:
			if side > 0 {
				b *= weight(y, a)
			}
			lo, a, side = mid, y, 1
		default:
			if side < 0 {
				a *= weight(y, b)
			}
			hi, b, side = mid, y, -1
		}
		if hi-lo <= 1e-12*math.Abs(hi) {
			break
		}
	}
	return lo + (hi-lo)/2
}

// weight is what the value at the end that stays is scaled by.
func weight(now, before float64) float64 {
	if m := 1 - now/before; m > 0 {
		return m
	}
	return 0.5
}
