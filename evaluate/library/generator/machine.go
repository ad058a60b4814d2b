package generator

import "math"

// A drain is what flows at one voltage and one rotation, with what it loses.
type drain struct {
	flow
	x      float64 // V, into which it flows: the store and the diodes
	r      float64 // Ω, of a phase, its diodes' resistance included
	copper float64 // W, in the coils
	diodes float64 // W
	direct float64 // W, in the resistance behind the bridge
}

// at is the flow into x, the store's rested voltage and two diodes, at a
// rotation, with rd behind the bridge (leads and store), looked for near the last.
func (m *Machine) at(x, rotation, rd float64, near *track) drain {
	d := drain{x: x, r: m.PhaseResistance}
	e := m.PhaseConstant * rotation
	if e <= 0 {
		return d
	}
	q := m.reactance(rotation)
	switch {
	case m.star():
		d.flow = laggingThree(e, m.PhaseResistance, rd, q, x, near)
	case m.Bridges > 1:
		d.flow = laggingSeveral(m.Bridges, e, m.PhaseResistance, rd, q, x)
	default:
		d.flow = laggingSingle(e, m.PhaseResistance+rd, q, x)
	}
	d.direct = rd * d.square
	d.copper = max(0, d.power-x*d.mean-d.direct)
	return d
}

// cost is what a look takes, by that of a machine with one bridge and no inductance.
func (m *Machine) cost() int {
	const bridges = 6 // that take as long as one alone
	cost := 1 + m.Bridges/bridges
	if m.PhaseInductance > 0 {
		cost++
	}
	return cost
}

// reactance is that of a phase at a rotation.
func (m *Machine) reactance(rotation float64) float64 {
	return float64(m.Poles) / 2 * rotation * m.PhaseInductance
}

// peakPower is the largest power of the emfs within a turn of them, where a flow
// is their mean, looked for near the last.
func (m *Machine) peakPower(d drain, rotation, rd float64, near *track) float64 {
	e, q := m.PhaseConstant*rotation, m.reactance(rotation)
	switch {
	case m.star():
		return threeBeat(e, d.r, rd, q, d.x, near).peakPower() * e * e / d.r
	case m.Bridges > 1:
		mean := severalFlow(m.Bridges, e, d.r, rd, d.x)
		if mean.power == 0 {
			return 0
		}
		return d.power * severalPeakPower(m.Bridges, e, d.r, rd, d.x) / mean.power
	}
	return singleBeat(e, d.r+rd, q, d.x).peakPower() * e * e / (d.r + rd)
}

// peakCurrent is the largest current within a turn of the emf, as peakPower is.
func (m *Machine) peakCurrent(d drain, rotation, rd float64) float64 {
	e, q := m.PhaseConstant*rotation, m.reactance(rotation)
	switch {
	case m.star():
		return threeBeat(e, d.r, rd, q, d.x, new(track)).peakCurrent() * e / d.r
	case m.Bridges > 1:
		return d.peak
	}
	return singleBeat(e, d.r+rd, q, d.x).peakCurrent() * e / (d.r + rd)
}

// solve finds the zero of a falling f between lo and hi by false position with
// the weighting of Anderson and Björck (BIT 13, 1973); an end that does not
// bracket is the answer.
func solve(lo, hi float64, f func(float64) float64) float64 { return solveTo(1e-13, lo, hi, f) }

// solveTo is solve to where f is next to nothing.
func solveTo(nothing, lo, hi float64, f func(float64) float64) float64 {
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
		case math.Abs(y) < nothing:
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
