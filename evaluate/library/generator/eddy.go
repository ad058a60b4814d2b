package generator

import (
	"math"
	"slices"
)

// eddy is what eddy currents in all the wire lose, by the square of the
// rotation, as a mean over a turn and over the winding. Only the field along the
// axis counts here, in its first two harmonics.
func (in GeneratorInput) eddy() float64 {
	if in.Coil.Section == nil {
		return 0
	}
	square := 0.0
	switch {
	case in.Magnet != nil:
		if d, err := in.ring(); err == nil {
			square = d.swept()
		}
	case in.Block != nil:
		if b, err := in.blocks(); err == nil {
			square = b.swept()
		}
	}
	area := *in.Coil.Section
	length := float64(in.Coils) * in.Coil.Resistance * area / copperResistivity
	pairs := float64(in.Poles) / 2
	return stirred(area, length) * pairs * pairs * square
}

// stirred is what a length of wire of a section loses by the mean square of
// dB/dt across it: π·d⁴·l/(64·ρ), for round wire much thinner than the skin
// depth (C. R. Sullivan, IEEE Trans. Power Electron. 16 (2001) 142, from memory).
func stirred(section, length float64) float64 {
	d4 := 16 * section * section / (math.Pi * math.Pi)
	return math.Pi * d4 * length / (64 * copperResistivity)
}

// sweptPlaces are angles round the middle of a winding, half of it standing for
// the whole, and sweptHeight where the field stands for its mean over the height.
var (
	sweptPlaces = [4]float64{math.Pi / 8, 3 * math.Pi / 8, 5 * math.Pi / 8, 7 * math.Pi / 8}
	sweptHeight = 1 / math.Sqrt(12)
)

// swept is the mean square of dB/dt over the winding by that of p·ω: half the
// sum of the squared peaks, each times its harmonic.
func (d discs) swept() float64 {
	middle := math.Sqrt((d.inner*d.inner + d.outer*d.outer) / 2)
	var from [len(sweptPlaces)]float64
	for i, at := range sweptPlaces {
		from[i] = math.Sqrt(d.coilRing*d.coilRing + middle*middle + 2*d.coilRing*middle*math.Cos(at))
	}
	sum := 0.0
	for _, b := range d.peaks(from, d.height*sweptHeight) {
		sum += (b[0]*b[0] + 9*b[1]*b[1]) / 2 / float64(len(from))
	}
	return sum
}

// peaks are those of the field's first and third harmonic so far from the axis
// and from mid height, to about a thousandth: 2·p·Br·R·∫ J1(kR)·J_np(k·r)·J_np(k·ρ)·F(k)·cosh(kz) dk.
func (d discs) peaks(from [len(sweptPlaces)]float64, height float64) (b [len(sweptPlaces)][2]float64) {
	p := d.poles / 2
	near, far := slices.Min(from[:]), slices.Max(from[:])
	end := max(8/(d.nearest()-height), 4*float64(p)/min(near, d.pitch))
	step := 5 * math.Pi / (d.pitch + far + d.radius)
	whole := 2 * float64(p) * d.remanence * d.radius
	for a := 0.0; a < end; a += step {
		for i, x := range waves.x {
			k := a + step/2*(1+x)
			var here, there [2]float64
			odd(here[:], p, k*d.pitch)
			one := whole * step / 2 * waves.w[i] * math.J1(k*d.radius) * d.axial(k) * math.Cosh(k*height)
			for j, f := range from {
				odd(there[:], p, k*f)
				b[j][0], b[j][1] = b[j][0]+one*here[0]*there[0], b[j][1]+one*here[1]*there[1]
			}
		}
	}
	return b
}

// swept is the mean square of dB/dt as that of discs, on the middle turn.
func (b blocks) swept() float64 {
	const angles = 16
	sum := 0.0
	for _, at := range sweptPlaces {
		y := (b.opening/2 + b.leg/2) * math.Cos(at)
		x := b.half(y, b.leg/2)
		var peak [4]float64
		for i := range angles {
			e := 2 * math.Pi * float64(i) / angles
			f := b.field(b.coilRing+y, x, b.height*sweptHeight, e/float64(b.poles/2))
			s1, c1 := math.Sincos(e)
			s3, c3 := math.Sincos(3 * e)
			for j, wave := range [4]float64{s1, c1, 3 * s3, 3 * c3} {
				peak[j] += 2.0 / angles * f * wave
			}
		}
		for _, x := range peak {
			sum += x * x / 2 / float64(len(sweptPlaces))
		}
	}
	return sum
}
