package generator

import "math"

// A branch is a current y through a resistance r and a reactance q that a
// cosine drives against a steady voltage: q·dy/dθ + r·y = m·cos(θ − δ) − g.
type branch struct {
	r, q, m, delta, g float64
	at0, y0           float64 // where it begins, and with what

	c0, s0, ymean float64 // cosine and sine of θ − δ there, and −g/r
	cos, sin      float64 // of the steady swing
	k             float64 // of what dies away
}

// begin is the branch that begins at an angle with a current.
func (b branch) begin(at, y float64) branch {
	s, c := math.Sincos(at - b.delta)
	return b.swung().from(at, y, s, c)
}

// swung is a branch with its steady swing.
func (b branch) swung() branch {
	z := b.m / (b.r*b.r + b.q*b.q)
	b.cos, b.sin, b.ymean = z*b.r, z*b.q, -b.g/b.r
	return b
}

// from is a swung branch that begins at an angle with a current; sin and cos are of
// θ − δ there.
func (b branch) from(at, y, sin, cos float64) branch {
	b.at0, b.y0, b.s0, b.c0 = at, y, sin, cos
	b.k = y - b.cos*b.c0 - b.sin*b.s0 - b.ymean
	return b
}

// An instant is a branch at an angle.
type instant struct {
	at, y, slope float64
	cos, sin     float64 // of θ − δ
	left         float64 // of what dies away, by what it was
}

func (b *branch) at(angle float64) instant {
	s, c := math.Sincos(angle - b.delta)
	return b.there(angle, s, c)
}

// there is at with sine and cosine of θ − δ.
func (b *branch) there(angle, s, c float64) instant {
	left := math.Exp(-b.r / b.q * (angle - b.at0))
	y := b.cos*c + b.sin*s + b.ymean + b.k*left
	return instant{angle, y, (b.m*c - b.g - b.r*y) / b.q, c, s, left}
}

// slope0 is the slope where it begins.
func (b *branch) slope0() float64 { return (b.m*b.c0 - b.g - b.r*b.y0) / b.q }

// charge is the integral of y, and work that of y times what drives it, up to an
// instant.
func (b *branch) sums(m instant) (charge, work float64) {
	angle := m.at - b.at0
	drive := b.m * (m.sin - b.s0)
	charge = (drive - b.g*angle - b.q*(m.y-b.y0)) / b.r
	a := b.r / b.q
	fading := (m.left*(m.sin-a*m.cos) - (b.s0 - a*b.c0)) / (1 + a*a)
	turn := (angle + m.sin*m.cos - b.s0*b.c0) / 2
	work = b.m*(b.cos*turn+b.sin*(m.sin-b.s0)*(m.sin+b.s0)/2+b.k*fading) + b.ymean*drive
	return charge, work
}

// square is the integral of y² up to an instant, by the energies.
func (b *branch) square(m instant, charge, work float64) float64 {
	return (work - b.g*charge - b.q/2*(m.y-b.y0)*(m.y+b.y0)) / b.r
}
