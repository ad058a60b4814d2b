package generator

import "math"

// largest is that of a curve between two angles: the best of nine places, and from
// there two parabolas, each through places nearer to its crest.
func largest(from, to float64, of func(angle float64) float64) float64 {
	const parts = 8
	step := (to - from) / parts
	at, best := from, of(from)
	for i := 1; i <= parts; i++ {
		if y := of(from + step*float64(i)); y > best {
			at, best = from+step*float64(i), y
		}
	}
	for range 2 {
		if at-step < from || at+step > to {
			at = min(max(at, from+step), to-step)
			best = max(best, of(at))
		}
		before, here, after := of(at-step), of(at), of(at+step)
		if bend := before - 2*here + after; bend < 0 {
			at = min(max(at+step*(before-after)/(2*bend), from), to)
		}
		best = max(best, before, after, of(at))
		step /= 16
	}
	return best
}

// power is what drives a branch times its current.
func (p *piece) power(angle float64) float64 {
	m := p.branch.at(angle)
	return p.m * m.cos * m.y
}

// peakPower is the largest power of the emfs within a piece, peakCurrent the
// largest current; both are nought where it is missing.
func (p *piece) peakPower() float64 {
	if p.r == 0 {
		return 0
	}
	return largest(p.at0, p.end.at, p.power)
}

func (p *piece) peakCurrent() float64 {
	if p.r == 0 {
		return 0
	}
	return largest(p.at0, p.end.at, func(a float64) float64 { return p.branch.at(a).y })
}

// peakPower and peakCurrent are those of a sixth of a turn.
func (t *sixthTurn) peakPower() float64 {
	three := 0.0
	if t.lone.r > 0 {
		three = largest(t.lone.at0, t.lone.end.at, func(a float64) float64 { return 1.5*t.lone.power(a) + t.apart.power(a)/2 })
	}
	return max(three, t.early.peakPower(), t.late.peakPower())
}

func (t *sixthTurn) peakCurrent() float64 {
	return max(t.early.peakCurrent(), t.lone.peakCurrent(), t.late.peakCurrent())
}

// beaten is a bridge that tells what it comes to within a turn of the emf, as its means do
// not show: the largest power of the emfs, and current on the d.c. side.
type beaten interface {
	peakPower() float64
	peakCurrent() float64
}

// stiff is a single phase without reactance, at its crest.
type stiff struct{ current float64 }

func (s stiff) peakPower() float64   { return s.current }
func (s stiff) peakCurrent() float64 { return s.current }

// singleBeat is the bridge of one emf of peak e through r and a reactance q into x, in
// units of e and r.
func singleBeat(e, r, q, x float64) beaten {
	switch {
	case x >= e:
		return stiff{}
	case q <= leastLag*r:
		return stiff{1 - x/e}
	}
	p := lag{q: q / r}.single(max(0, x/e))
	return &p
}

// threeBeat is that of a star of three phases, looked for near the last.
func threeBeat(e, r, rd, q, x float64, near *track) beaten {
	if x >= math.Sqrt(3)*e {
		return stiff{}
	}
	t := lag{q: max(leastLag, q/r), rd: rd / r}.three(max(0, x/e), near)
	return &t
}
