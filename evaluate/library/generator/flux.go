package generator

import (
	"context"
	"math"

	"inkwing/evaluate/library/model"

	"gonum.org/v1/gonum/integrate/quad"
)

// discs is a ring of alternating disc magnets and one round coil over it, all
// in metres and tesla. Without iron on one side, with a keeper, or facing.
type discs struct {
	poles           int
	remanence       float64
	radius, thick   float64 // of a magnet
	pitch, coilRing float64 // radii of the circles of the magnets and of the coils
	gap             float64 // between faces, or from the face to the keeper
	inner, outer    float64 // radii of the winding
	height          float64 // of the coil, in mid gap or on the keeper's side
	rotor           string  // facing, backed, single, keeper
}

// harmonics fills in the peaks of the first odd harmonics of the flux through one
// turn, averaged over the winding's section, over one set of wave numbers; false where that
// takes too many of them.
//
// A disc's field is the Hankel transform of its charge; Graf's addition theorem
// turns the sum over the poles into one product of Bessel functions.
func (d discs) harmonics(ctx context.Context, out []float64) bool {
	p := d.poles / 2
	top := (2*len(out) - 1) * p
	end := 40 / (d.nearest() - d.height/2)
	// Two and a half waves of the fastest product to a panel of 16 points; J_np
	// is next to nothing below np/r, so the sum may be judged only above that.
	step := 5 * math.Pi / (d.pitch + d.coilRing + d.radius + d.outer)
	awake := 1.5 * float64(top) / min(d.pitch, d.coilRing)
	clear(out)
	part := make([]float64, len(out))
	for i, quiet := 0, 0; float64(i)*step < end && quiet < 4; i++ {
		if i*(linkedAnyway+d.poles) > mostLinked {
			return false
		}
		key := loop{band{p, i, step, d.radius, d.pitch, d.coilRing}, d.inner, d.outer, len(out)}
		d.panel(model.Once(ctx, key, 16*8*(1+len(out)), key.waves), part)
		quiet++
		for j := range out {
			out[j] += part[j]
			if float64(i)*step < awake || math.Abs(part[j]) > 1e-10*math.Abs(out[j]) {
				quiet = 0
			}
		}
	}
	for i := range out {
		out[i] *= 4 * float64(p) * math.Pi * d.remanence * d.radius
	}
	return true
}

// A band is a panel of wave numbers over a ring of magnets and one of coils.
type band struct {
	pairs, panel     int
	step             float64
	radius           float64 // of a magnet
	pitch, coilRings float64 // radii of the circles
}

// A loop is a panel to be summed for the flux through a turn, in so many harmonics: all of
// it that does not depend on how far apart the magnets are.
type loop struct {
	band
	inner, outer float64 // radii of the winding
	harmonics    int
}

// A linkage is one wave number, with its part of each harmonic.
type linkage struct {
	k    float64
	each []float64
}

// waves works the panel.
func (l loop) waves() *[16]linkage {
	out := new([16]linkage)
	room := make([]float64, 18*l.harmonics)
	here, there := room[16*l.harmonics:17*l.harmonics], room[17*l.harmonics:]
	d := discs{inner: l.inner, outer: l.outer}
	for i, x := range waves.x {
		k := (float64(l.panel) + (1+x)/2) * l.step
		one := l.step / 2 * waves.w[i] * d.section(k) * math.J1(k*l.radius) / k
		odd(here, l.pairs, k*l.pitch)
		if l.coilRings == l.pitch {
			copy(there, here)
		} else {
			odd(there, l.pairs, k*l.coilRings)
		}
		out[i] = linkage{k, room[i*l.harmonics : (i+1)*l.harmonics : (i+1)*l.harmonics]}
		for j := range here {
			out[i].each[j] = one * here[j] * there[j]
		}
	}
	return out
}

// panel puts the integrals over a panel into sum.
func (d discs) panel(p *[16]linkage, sum []float64) {
	clear(sum)
	for _, w := range p {
		one := d.axial(w.k) * sinhc(w.k*d.height/2)
		for j := range sum {
			sum[j] += one * w.each[j]
		}
	}
}

// nearest is the distance from the nearest faces to the coil's mid height.
func (d discs) nearest() float64 { return d.gap / 2 }

// section is the mean of a·J1(k·a) over the winding's radii.
func (d discs) section(k float64) float64 {
	if k*(d.outer-d.inner) < 1e-3 {
		mid, half := (d.inner+d.outer)/2, (d.outer-d.inner)/2
		return mid*math.J1(k*mid) + k*half*half/6*(math.J0(k*mid)-k*mid*math.J1(k*mid))
	}
	return (moment(k*d.outer) - moment(k*d.inner)) / (k * k * (d.outer - d.inner))
}

// axial is how the field of one wave number reaches the coil's mid height.
func (d discs) axial(k float64) float64 {
	g, t := d.gap, d.thick
	faces := -math.Expm1(-k * t)
	switch d.rotor {
	case "backed":
		// 2·sinh(kt)/sinh(k(t+g/2)), written so that it cannot overflow.
		return 2 * math.Exp(-k*g/2) * math.Expm1(-2*k*t) / math.Expm1(-k*(2*t+g))
	case "single":
		return math.Exp(-k*g/2) * faces
	case "keeper":
		return (math.Exp(-k*g/2) + math.Exp(-k*1.5*g)) * faces
	}
	return 2 * math.Exp(-k*g/2) * faces
}

// sinhc is sinh(x)/x.
func sinhc(x float64) float64 {
	if math.Abs(x) < 1e-4 {
		return 1 + x*x/6
	}
	return math.Sinh(x) / x
}

// A gauss is a Gauss-Legendre rule worked out once.
type gauss struct{ x, w []float64 }

var waves, ripple = newGauss(16), newGauss(8)

func newGauss(n int) gauss {
	g := gauss{make([]float64, n), make([]float64, n)}
	quad.Legendre{}.FixedLocations(g.x, g.w, -1, 1)
	return g
}

// over integrates f from a to b.
func (g gauss) over(a, b float64, f func(float64) float64) float64 {
	sum, mid, half := 0.0, (a+b)/2, (b-a)/2
	for i, x := range g.x {
		sum += g.w[i] * f(mid+half*x)
	}
	return sum * half
}
