package generator

import "math"

// blocks is a ring of alternating block magnets, their length along the
// radius, and one coil of any shape over it.
type blocks struct {
	poles                    int
	remanence                float64
	length, width, thick     float64
	pitch, coilRing          float64
	gap, height              float64
	opening, mid, taper, leg float64 // of the coil: along the radius, mean width, widening, build
	round                    bool
	rotor                    string
}

// harmonics are the peaks of the first and third harmonic of the flux through
// one turn, averaged over the winding's build. The flux is even about the crest
// and odd about a quarter period, so four angles of a quarter stand for sixteen
// of the whole.
func (b blocks) harmonics() (peak [2]float64) {
	const angles = 4
	for i := range angles {
		electrical := (float64(i) + 0.5) * math.Pi / 2 / angles
		turn := electrical / float64(b.poles/2)
		mean := midRule.over(0, 1, func(s float64) float64 { return b.flux(turn, s*b.leg) })
		peak[0] += 2.0 / angles * mean * math.Cos(electrical)
		peak[1] += 2.0 / angles * mean * math.Cos(3*electrical)
	}
	return peak
}

// flux through a turn so far out from the opening with the rotor turned by an angle from the crest,
// averaged over the coil's height.
func (b blocks) flux(turn, grow float64) float64 {
	heights := midRule
	switch {
	case b.height == 0:
		heights = gauss{[]float64{0}, []float64{2}}
	case b.rotor == "facing" || b.rotor == "backed": // below mid gap as above it
		heights = gauss{midRule.x[1:], []float64{2}}
	}
	end := b.opening/2 + grow
	return ripple.over(-end, end, func(y float64) float64 {
		half := b.half(y, grow)
		return ripple.over(-half, half, func(x float64) float64 {
			sum := 0.0
			for i, h := range heights.x {
				sum += heights.w[i] / 2 * b.field(b.coilRing+y, x, h*b.height/2, turn)
			}
			return sum
		})
	})
}

// half is half a turn's width at a place along the radius: the opening grown,
// its corners round.
func (b blocks) half(y, grow float64) float64 {
	edge := b.opening / 2
	if b.round {
		r := edge + grow
		return math.Sqrt(max(0, r*r-y*y))
	}
	slope := b.taper / b.opening
	if beyond := math.Abs(y) - edge; beyond > 0 {
		return (b.mid+math.Copysign(b.taper/2, y))/2 + math.Sqrt(max(0, grow*grow-beyond*beyond))
	}
	return (b.mid+slope*y)/2 + grow*math.Hypot(1, slope/2)
}

var midRule = newGauss(2)

// field is that of all magnets, along the axis, at a height above mid gap.
func (b blocks) field(x, y, h, turn float64) float64 {
	sum := 0.0
	b.each(x, y, turn, func(sign, u, v, _, _ float64) { sum += sign * b.column(u, v, h) })
	return b.remanence * sum
}

// ringed is how many poles are all counted. Of more than that as many nearest ones are: the
// others alternate and all but cancel, and so that they do the last few fade out.
const ringed, fading = 24, 5

// nearestError is by how much that may be off, by the largest field over a winding that lies no
// further beside the magnets than they are long.
const nearestError = 1e-6

// fade is what counts of the last few: a sum of alternating terms averaged so often,
// which leaves of what is left out its fifth difference.
var fade = [fading]float64{31.0 / 32, 26.0 / 32, 16.0 / 32, 6.0 / 32, 1.0 / 32}

// each gives the magnets that count at a place: sign or part, where the place lies along and
// across it from its middle, and the cosine and sine of where it stands.
func (b blocks) each(x, y, turn float64, do func(sign, u, v, c, s float64)) {
	from, to := 0, b.poles
	if b.poles > ringed {
		middle := int(math.Round((math.Atan2(y, x) - turn) * float64(b.poles) / (2 * math.Pi)))
		from, to = middle-ringed/2, middle+ringed/2+1
	}
	for i := from; i < to; i++ {
		sign := float64(1 - 2*(i&1))
		if last := min(i-from, to-1-i); b.poles > ringed && last < fading {
			sign *= fade[fading-1-last]
		}
		s, c := math.Sincos(turn + 2*math.Pi*float64(i)/float64(b.poles))
		do(sign, x*c+y*s-b.pitch, y*c-x*s, c, s)
	}
}

// vector is the field along the coil's radius, across it and along the axis.
func (b blocks) vector(x, y, h, turn float64) (f [3]float64) {
	b.each(x, y, turn, func(sign, u, v, c, s float64) {
		along, around := b.across(u, v, h)
		f[0], f[1] = f[0]+sign*(along*c-around*s), f[1]+sign*(along*s+around*c)
		f[2] += sign * b.column(u, v, h)
	})
	for i := range f {
		f[i] *= b.remanence
	}
	return f
}

// across is what a column gives along its length and its width. What stands above
// the coil has the opposite sign.
func (b blocks) across(u, v, h float64) (along, around float64) {
	near, far := b.gap/2+h, b.gap/2-h
	add := func(sign, t, z float64) {
		l, w := b.length/2, b.width/2
		along += sign * (side(u, v, z, l, w) - side(u, v, z+t, l, w))
		around += sign * (side(v, u, z, w, l) - side(v, u, z+t, w, l))
	}
	switch b.rotor {
	case "single":
		add(1, b.thick, near)
	case "keeper":
		add(1, b.thick, near)
		add(-1, b.thick, b.gap+far)
	case "backed":
		pitch := 2*b.thick + b.gap
		for j := range 6 {
			add(1, 2*b.thick, near+float64(j)*pitch)
			add(-1, 2*b.thick, far+float64(j)*pitch)
		}
	default:
		add(1, b.thick, near)
		add(-1, b.thick, far)
	}
	return along, around
}

// side is the field along u of a charged face of unit remanence, half as long and
// half as wide as it is told.
func side(u, v, z, l, w float64) float64 {
	edge := func(u float64) float64 { // e to asinh((v+w)/s) − asinh((v−w)/s)
		square := u*u + z*z
		return risen(v+w, square) / risen(v-w, square)
	}
	return math.Log(edge(u-l)/edge(u+l)) / (4 * math.Pi)
}

// risen is a + √(a² + square), without what cancels below nought.
func risen(a, square float64) float64 {
	root := math.Sqrt(a*a + square)
	if a < 0 {
		return square / (root - a)
	}
	return a + root
}

// column is a magnet with its partners and mirror images on one axis.
func (b blocks) column(u, v, h float64) float64 {
	near, far := b.gap/2+h, b.gap/2-h
	one := func(t, z float64) float64 { return b.face(u, v, z) - b.face(u, v, z+t) }
	switch b.rotor {
	case "single":
		return one(b.thick, near)
	case "keeper":
		return one(b.thick, near) + one(b.thick, b.gap+far)
	case "backed":
		sum, pitch := 0.0, 2*b.thick+b.gap
		for j := range 6 {
			sum += one(2*b.thick, near+float64(j)*pitch) + one(2*b.thick, far+float64(j)*pitch)
		}
		return sum
	}
	return one(b.thick, near) + one(b.thick, far)
}

// face is the axial field of a charged face of unit remanence: the solid angle under which
// it is seen, the sum of the angles atan(x·y/(z·r)) of its corners with their signs. It is the
// angle of their product as complex numbers, and lies between nought and a full turn.
func (b blocks) face(u, v, z float64) float64 {
	corner := func(x, y float64) complex128 { return complex(z*math.Sqrt(x*x+y*y+z*z), x*y) }
	conj := func(c complex128) complex128 { return complex(real(c), -imag(c)) }
	l, w := b.length/2, b.width/2
	a, c := corner(u+l, v+w)*conj(corner(u-l, v+w)), conj(corner(u+l, v-w))*corner(u-l, v-w)
	product := a * c
	angle := math.Atan2(imag(product), real(product))
	if angle < -1e-9 {
		angle += 2 * math.Pi
	}
	return angle / (4 * math.Pi)
}
