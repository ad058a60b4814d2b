package generator

import (
	"context"
	"math"
	"slices"

	"inkwing/evaluate/library/model"
)

// eddy is what eddy currents in all the wire lose, by the square of the
// rotation, as a mean over a turn and over the winding, in the first two harmonics of
// the field. The wire resists more the warmer it is, and loses as much less.
func (in GeneratorInput) eddy(ctx context.Context) float64 {
	if in.Coil.Section == nil {
		return 0
	}
	square := 0.0
	switch {
	case in.Magnet != nil:
		if d, err := in.ring(); err == nil {
			square = model.Once(ctx, stroke[discs]{d}, 8, func() float64 { return d.swept(ctx) })
		}
	case in.Block != nil:
		if b, err := in.blocks(); err == nil {
			square = model.Once(ctx, stroke[blocks]{b}, 8, b.swept)
		}
	}
	area := *in.Coil.Section
	warm := copperResistivity * copperRises(roomKelvin, in.Coil.Temperature)
	length := float64(in.Coils) * in.Coil.Resistance * area / warm
	pairs := float64(in.Poles) / 2
	return stirred(area, length, warm) * pairs * pairs * square
}

// stirred is what a length of wire of a section loses by the mean square of
// dB/dt across it: π·d⁴·l/(64·ρ), for round wire much thinner than the skin
// depth (C. R. Sullivan, IEEE Trans. Power Electron. 16 (2001) 142, from memory).
// A field along the wire loses half as much, π·d⁴·l/(128·ρ).
func stirred(section, length, resistivity float64) float64 {
	d4 := 16 * section * section / (math.Pi * math.Pi)
	return math.Pi * d4 * length / (64 * resistivity)
}

// A place is one in a winding: its angle round the coil, and how far from the
// coil's and from the rotor's axis.
type place struct{ angle, radius, from float64 }

// places stand for a winding: half of the way round, at two radii of its section,
// as much of the wire on either side of each.
func places(inner, outer, ring float64) (list [8]place) {
	for i := range list {
		angle := (2*float64(i%4) + 1) * math.Pi / 8
		r := (inner+outer)/2 + midRule.x[i/4]*(outer-inner)/2
		list[i] = place{angle, r, math.Sqrt(ring*ring + r*r + 2*ring*r*math.Cos(angle))}
	}
	return list
}

// heights are those that stand for a winding's: two of four where the field is
// alike above and below the middle.
func heights(rotor string, height float64) (list []float64) {
	for _, x := range fourRule.x {
		if x > 0 || rotor == "single" || rotor == "keeper" {
			list = append(list, x*height/2)
		}
	}
	return list
}

var fourRule = newGauss(4)

// weights are those of places and heights by the radius and by the rules, whose sum is 1.
func weights(list [8]place, levels []float64, height float64) (of func(i, j int) float64) {
	whole := 0.0
	one := func(i, j int) float64 {
		w := fourRule.w[0]
		if math.Abs(levels[j]) < 0.3*height { // the inner two
			w = fourRule.w[1]
		}
		return w * list[i].radius
	}
	for i := range list {
		for j := range levels {
			whole += one(i, j)
		}
	}
	return func(i, j int) float64 { return one(i, j) / whole }
}

// sweptOrders is how many odd harmonics count.
const sweptOrders = 3

// A swing is the peaks of a field's first odd harmonics: along the rotor's axis,
// along its radius, and round it. The last lags the other two by a quarter.
type swing struct{ axial, radial, round [sweptOrders]float64 }

// swept is the mean square of dB/dt across the wire by that of p·ω, half of that
// along it counted in: half the sum of the squared peaks, each times its harmonic.
func (d discs) swept(ctx context.Context) float64 {
	list, levels := places(d.inner, d.outer, d.coilRing), heights(d.rotor, d.height)
	of, sum := weights(list, levels, d.height), 0.0
	for j, row := range d.peaks(ctx, list, levels) {
		for i, b := range row {
			p := list[i]
			// The radius of the rotor against that of the coil, which the wire crosses.
			s, c := math.Sincos(p.angle - math.Atan2(p.radius*math.Sin(p.angle), d.coilRing+p.radius*math.Cos(p.angle)))
			for h := range b.axial {
				r, f := b.radial[h]*b.radial[h], b.round[h]*b.round[h]
				across, along := r*c*c+f*s*s, r*s*s+f*c*c
				order := float64(2*h + 1)
				sum += of(i, j) * order * order * (b.axial[h]*b.axial[h] + across + along/2) / 2
			}
		}
	}
	return sum
}

// peaks are those of the field at each place of each height, to about a thousandth:
// along the axis 2·p·Br·R·∫ J1(kR)·J_np(k·r)·J_np(k·ρ)·F(k)·cosh(kz) dk; across
// it with J′_np(k·ρ) and np/(k·ρ)·J_np(k·ρ), and sinh(kz).
func (d discs) peaks(ctx context.Context, list [8]place, levels []float64) [][8]swing {
	p := d.poles / 2
	step, end := d.sweep(list, levels)
	whole := 2 * float64(p) * d.remanence * d.radius
	out := make([][8]swing, len(levels))
	for i := 0; float64(i)*step < end; i++ {
		key := strip{band{p, i, step, d.radius, d.pitch, d.coilRing}, d.inner, d.outer}
		for _, w := range *model.Once(ctx, key, 16*8*8*9, func() *[16]ripples { return key.waves(list) }) {
			for j, z := range levels {
				axial, across := d.reach(w.k, z)
				w.add(&out[j], whole*axial, whole*across)
			}
		}
	}
	return out
}

// sweep is a panel of wave numbers, five waves of the fastest product to 16 points, to
// 1e-7, and behind which number there is next to nothing.
func (d discs) sweep(list [8]place, levels []float64) (step, end float64) {
	near, far := list[0].from, 0.0
	for _, at := range list {
		near, far = min(near, at.from), max(far, at.from)
	}
	end = max(8/(d.nearest()-slices.Max(levels)), 4*float64(d.poles/2)/min(near, d.pitch))
	return 10 * math.Pi / (d.pitch + far + d.radius), end
}

// sweptPanels is how many there are.
func (d discs) sweptPanels() float64 {
	step, end := d.sweep(places(d.inner, d.outer, d.coilRing), heights(d.rotor, d.height))
	return end / step
}

// A strip is a panel of wave numbers to be summed for the field in a winding: all of it that
// does not depend on how far apart the magnets are.
type strip struct {
	band
	inner, outer float64 // radii of the winding
}

// ripples are one wave number's parts of the peaks at each place.
type ripples struct {
	k  float64
	at [8]swing
}

// waves works the panel for the places in the winding.
func (s strip) waves(list [8]place) *[16]ripples {
	out := new([16]ripples)
	for i, x := range waves.x {
		k := (float64(s.panel) + (1+x)/2) * s.step
		out[i].k = k
		s.wave(&out[i], s.step/2*waves.w[i]*math.J1(k*s.radius), list)
	}
	return out
}

// wave is one wave number, by its weight.
func (s strip) wave(w *ripples, part float64, list [8]place) {
	var here, there, under [sweptOrders]float64
	odd(here[:], s.pairs, w.k*s.pitch)
	for i, at := range list {
		oddAndBelow(there[:], under[:], s.pairs, w.k*at.from)
		b := &w.at[i]
		for h := range here {
			one, by := part*here[h], float64((2*h+1)*s.pairs)/(w.k*at.from)
			b.axial[h] = one * there[h]
			b.round[h] = one * there[h] * by
			b.radial[h] = one * (under[h] - by*there[h])
		}
	}
}

// add puts what reaches a height to the peaks there.
func (w *ripples) add(out *[8]swing, axial, across float64) {
	for i := range out {
		b, one := &out[i], &w.at[i]
		for h := range b.axial {
			b.axial[h] += one.axial[h] * axial
			b.round[h] += one.round[h] * across
			b.radial[h] += one.radial[h] * across
		}
	}
}

// reach is how the field of one wave number reaches a height above the coil's
// middle, along the axis and across it. What comes from above has the opposite sign across.
func (d discs) reach(k, z float64) (axial, across float64) {
	switch d.rotor {
	case "single":
		f := d.axial(k) * math.Exp(-k*z)
		return f, f
	case "keeper":
		faces := -math.Expm1(-k * d.thick)
		below, above := faces*math.Exp(-k*(d.gap/2+z)), faces*math.Exp(-k*(1.5*d.gap-z))
		return below + above, below - above
	}
	f := d.axial(k)
	return f * math.Cosh(k*z), f * math.Sinh(k*z)
}

// swept is the mean square of dB/dt as that of discs; of a winding that is not
// round a radius is how far out from the middle of its opening.
func (b blocks) swept() float64 {
	list, levels := places(b.opening/2, b.opening/2+b.leg, b.coilRing), heights(b.rotor, b.height)
	of, sum := weights(list, levels, b.height), 0.0
	for i, p := range list {
		y := p.radius * math.Cos(p.angle)
		x := b.half(y, p.radius-b.opening/2)
		for j, z := range levels {
			sum += of(i, j) * b.stirring(y, x, z, p.angle)
		}
	}
	return sum
}

// stirring is what the field does to the wire at one place, over a period: over half of
// one, since the other half is the same with the poles exchanged.
func (b blocks) stirring(y, x, z, angle float64) (sum float64) {
	const angles = 8
	var peak [3][2 * sweptOrders]float64 // across the wire along the axis and in the coil's plane, and along it
	s, c := math.Sincos(angle)
	for i := range angles {
		e := math.Pi * float64(i) / angles
		f := b.vector(b.coilRing+y, x, z, e/float64(b.poles/2))
		for k, part := range [3]float64{f[2], f[0]*c + f[1]*s, f[1]*c - f[0]*s} {
			for h := range sweptOrders {
				order := float64(2*h + 1)
				sin, cos := math.Sincos(order * e)
				peak[k][2*h] += 2.0 / angles * part * order * sin
				peak[k][2*h+1] += 2.0 / angles * part * order * cos
			}
		}
	}
	for j := range peak[0] {
		sum += (peak[0][j]*peak[0][j] + peak[1][j]*peak[1][j] + peak[2][j]*peak[2][j]/2) / 2
	}
	return sum
}
