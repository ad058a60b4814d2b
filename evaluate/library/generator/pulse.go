package generator

import "math"

// A beat is what a bridge comes to within a turn of the emf, as its means do not
// show: the largest current on the d.c. side and the largest power of the emfs.
type beat struct{ current, power float64 }

// largest is that of a curve between two angles: the best of nine places, and from
// there three parabolas, each through places nearer to its crest.
func largest(from, to float64, of func(angle float64) float64) float64 {
	const parts = 8
	step := (to - from) / parts
	at, best := from, of(from)
	for i := 1; i <= parts; i++ {
		if y := of(from + step*float64(i)); y > best {
			at, best = from+step*float64(i), y
		}
	}
	for range 3 {
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

// beat is that of a piece, whose work the emfs give share times.
func (p *piece) beat() beat {
	if p.r == 0 {
		return beat{}
	}
	return beat{largest(p.at0, p.end.at, func(a float64) float64 { return p.branch.at(a).y }),
		largest(p.at0, p.end.at, p.power)}
}

func (b beat) or(other beat) beat {
	return beat{max(b.current, other.current), max(b.power, other.power)}
}

// beat is that of a sixth of a turn.
func (t *sixthTurn) beat() beat {
	b := t.early.beat().or(t.late.beat())
	if t.lone.r > 0 {
		three := t.lone.beat()
		three.power = largest(t.lone.at0, t.lone.end.at, func(a float64) float64 { return 1.5*t.lone.power(a) + t.apart.power(a)/2 })
		b = b.or(three)
	}
	return b
}

// singleBeat is that of one emf of peak e through r and a reactance q into x.
func singleBeat(e, r, q, x float64) beat {
	switch {
	case x >= e:
		return beat{}
	case q <= leastLag*r:
		return beat{(e - x) / r, e * (e - x) / r}
	}
	p := lag{q: q / r}.single(max(0, x/e))
	b := p.beat()
	return beat{b.current * e / r, b.power * e * e / r}
}

// threeBeat is that of a star of three phases.
func threeBeat(e, r, rd, q, x float64) beat {
	if x >= math.Sqrt(3)*e {
		return beat{}
	}
	t := lag{q: max(leastLag, q/r), rd: rd / r}.three(max(0, x/e), new(track))
	b := t.beat()
	return beat{b.current * e / r, b.power * e * e / r}
}
