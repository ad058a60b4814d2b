package generator

import "math"

// A lag is a bridge whose coils have inductance, in units of the emf's peak e
// and a phase's resistance r: q is ω·L/r, rd the resistance behind the bridge
// of three phases by r. One period of the emf is pieces of exponentials between
// the angles at which a diode begins or ceases to conduct.
type lag struct{ q, rd float64 }

// leastLag is the reactance by the resistance below which it does not count: a
// millionth of the current.
const leastLag = 1e-6

// A piece is a branch from where it begins to an angle.
type piece struct {
	branch
	end instant
}

// length is how long it lasts, nought where it is missing.
func (p piece) length() float64 { return p.end.at - p.at0 }

func (p *piece) sums() (charge, work float64) { return p.branch.sums(p.end) }

// single is a full bridge on one emf of peak 1 through 1 and q into x < 1: the
// current of half a turn.
//
// Where it flows without a pause it crosses nought at α, and what dies away
// repeats itself over half a turn: k·(1 + e^(−π/q)) = 2x.
func (l lag) single(x float64) piece {
	b := branch{r: 1, q: l.q, m: 1, delta: math.Pi / 2, g: x}
	if s := x * math.Hypot(1, l.q) * math.Tanh(math.Pi/(2*l.q)); s < 1 {
		if alpha := math.Atan(l.q) - math.Asin(s); math.Sin(alpha) >= x {
			b = b.begin(alpha, 0)
			return piece{b, b.at(alpha + math.Pi)}
		}
	}
	start := math.Asin(x)
	b = b.begin(start, 0)
	return piece{b, b.zero(math.Pi-start, start+math.Pi)}
}

// steady is where a current that falls passes nought when nothing is left to die
// away, or at the latest where it would turn.
func (b *branch) steady() float64 {
	return b.delta + math.Atan2(b.sin, b.cos) + math.Acos(min(1, -b.ymean/math.Hypot(b.sin, b.cos)))
}

// settled is a step of Newton's, in radians, after which the next is nothing.
const settled = 1e-9

// zero is where a current that is falling is nought, between two angles.
func (b *branch) zero(lo, hi float64) instant {
	m := b.at(min(max(lo, b.steady()), hi))
	for range 60 {
		if m.y > 0 {
			lo = m.at
		} else {
			hi = m.at
		}
		next := m.at - m.y/m.slope
		if !(next >= lo && next <= hi) {
			next = (lo + hi) / 2
		}
		step := next - m.at
		m = b.at(next)
		if math.Abs(step) <= settled {
			break
		}
	}
	return m
}

// laggingSingle is singleFlow with a reactance q in the same loop.
func laggingSingle(e, r, q, x float64) flow {
	if x >= e || q <= leastLag*r {
		return singleFlow(e, r, x)
	}
	x = max(0, x/e)
	p := lag{q: q / r}.single(x)
	charge, work := p.sums()
	square := p.square(p.end, charge, work)
	i := e / r / math.Pi
	return flow{mean: i * charge, power: i * e * work, square: i * e / r * square}
}
