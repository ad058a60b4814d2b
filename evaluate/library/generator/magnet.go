package generator

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// Magnet is what one magnet gives, alone and facing another of its kind.
type Magnet struct {
	Thickness   float64 `unit:"mm" help:"along its magnetisation"`
	Remanence   float64 `unit:"T" help:"at the temperature given"`
	Field       float64 `unit:"T" show:"1" help:"of one magnet, on its axis at the distance"`
	MidGapField float64 `unit:"T" show:"2" help:"half way between two that face each other"`
}

// Warmth is how warm a magnet is, and what that does to it.
type Warmth struct {
	Temperature float64 `unit:"°C" default:"20 °C" range:"[-50,250]" help:"of the magnet"`
	Coefficient float64 `unit:"K^-1" default:"-0.0012 K^-1" range:"(-0.01,0.01)" help:"of the remanence"`
	Limit       float64 `unit:"°C" default:"80 °C" help:"working temperature of the grade"`
}

// Magnetised is what disc, ring and block read beside the size of their face.
type Magnetised struct {
	Thickness float64  `unit:"mm" range:"(0,)" help:"along its magnetisation"`
	Remanence float64  `unit:"T" range:"(0,2)" help:"at 20 °C, from the maker's sheet"`
	Distance  float64  `unit:"mm" default:"0 mm" range:"[0,)" help:"from the face, on the axis"`
	Gap       *float64 `unit:"mm" range:"[0,)" help:"between the faces of two that face each other; twice the distance if left out"`
	Warmth
	Backing *float64 `unit:"mm" range:"(0,)" help:"thickness of an iron plate behind each magnet; none if left out"`
}

// axial is the on-axis field of a magnet per tesla of remanence, thickness and
// distance from its face in metres.
type axial func(thickness, distance float64) float64

// solve works the fields of one magnet shape and its cautions. The width is the
// smaller side of the face: what half its flux leaves through.
func (m Magnetised) solve(width float64, field axial) (Magnet, model.Cautions, error) {
	var c model.Cautions
	if err := require.All(require.Positive("thickness", m.Thickness, "m"), require.Positive("remanence", m.Remanence, "T")); err != nil {
		return Magnet{}, c, err
	}
	br, err := m.remanence(m.Remanence)
	if err != nil {
		return Magnet{}, c, err
	}
	gap := ptr(m.Gap, 2*m.Distance)
	out := Magnet{Thickness: m.Thickness, Remanence: br}
	out.Field, out.MidGapField = br*field(m.Thickness, m.Distance), 2*br*field(m.Thickness, gap/2)
	if m.Backing != nil {
		out.Field = br * field(2*m.Thickness, m.Distance)
		out.MidGapField = br * facingOnIron(field, m.Thickness, gap)
		ironCaution(&c, out.MidGapField, width, *m.Backing)
	}
	heatCaution(&c, m.Temperature, m.Limit)
	strongMagnets(&c)
	return out, c, nil
}

// remanence is that at the temperature, of one at 20 °C.
func (w Warmth) remanence(at20 float64) (float64, error) {
	br := at20 * (1 + w.Coefficient*(w.Temperature-roomKelvin))
	if br > 0 {
		return br, nil
	}
	return 0, &model.Error{Field: "temperature", Summary: "no remanence is left at {0}",
		Values: []model.Value{model.In(w.Temperature-zeroCelsius, "°C")}, Hint: "check the temperature and its coefficient"}
}

// facingOnIron is the mid-gap field of two facing magnets, each on a plate of
// ideal iron. Mirrored in both plates over and over they are an endless row of
// magnets of twice the thickness, one gap apart.
func facingOnIron(field axial, t, gap float64) float64 {
	sum, pitch := 0.0, 2*t+gap
	for j := range 4000 {
		sum += 2 * field(2*t, gap/2+float64(j)*pitch)
	}
	return sum
}

// MagnetDiscInput is what [MagnetDisc] reads.
type MagnetDiscInput struct {
	Diameter float64 `unit:"mm" range:"(0,)"`
	Magnetised
}

// MagnetDiscResult is a disc magnet.
type MagnetDiscResult struct {
	Diameter float64 `unit:"mm"`
	Magnet
	model.Cautions
}

// MagnetDisc is a disc magnet, magnetised through its thickness: its field on
// the axis, and the field half way between two that face each other.
//
// Formula: B = Br/2·((t + z)/√(R² + (t + z)²) − z/√(R² + z²)), R = d/2; Br = Br20·(1 + α·(T − 20 °C)); two facing magnets add, in the middle of their gap B_g = Br·((t + g/2)/√(R² + (t + g/2)²) − (g/2)/√(R² + (g/2)²)); an iron plate behind a magnet mirrors it
//
// Letters: d diameter; t thickness; z distance; g gap; T temperature; α coefficient; Br20 remanence; Br = remanence; B = field; B_g = mid_gap_field.
//
// Validity: outside the magnet, permeability 1 (real magnets 1.05, which makes
// this read a few per cent high with iron); iron without saturation or edges;
// the reversible part of the loss with temperature only. A grade's name fixes
// its energy product: the remanence of one grade differs by 0.02 T to 0.03 T between makers.
//
// Source: closed form of a uniformly magnetised cylinder (surface charge);
// coefficient -0.11 to -0.12 %/K for NdFeB from makers' tables
//
// Example:
//
//	m = magnet_disc(20 mm, 5 mm, 1.28 T, gap: 10 mm)
//	B_mid [mT] = m.mid_gap_field
func MagnetDisc(in MagnetDiscInput) (MagnetDiscResult, error) {
	if err := require.Positive("diameter", in.Diameter, "m"); err != nil {
		return MagnetDiscResult{}, err
	}
	m, cautions, err := in.solve(in.Diameter, func(t, z float64) float64 { return cylinderField(in.Diameter/2, t, z) })
	return MagnetDiscResult{in.Diameter, m, cautions}, err
}

// cylinderField is the on-axis field of a cylinder per tesla of remanence.
func cylinderField(r, t, z float64) float64 {
	return (poleShare(r, z) - poleShare(r, t+z)) / 2
}

// poleShare is 1 − z/√(r² + z²), kept exact far from the pole.
func poleShare(r, z float64) float64 {
	h := math.Hypot(r, z)
	return r * r / (h * (h + z))
}

// MagnetRingInput is what [MagnetRing] reads.
type MagnetRingInput struct {
	OuterDiameter float64 `unit:"mm" range:"(0,)"`
	InnerDiameter float64 `unit:"mm" range:"[0,)"`
	Magnetised
}

// MagnetRingResult is a ring magnet.
type MagnetRingResult struct {
	OuterDiameter float64 `unit:"mm"`
	InnerDiameter float64 `unit:"mm"`
	Magnet
	model.Cautions
}

// MagnetRing is a ring magnet, magnetised through its thickness: a disc less
// the disc of its bore. On the axis, close to the face, its field points back.
//
// Formula: the disc of the outer diameter less that of the bore, B = Br/2·((t + z)/√(R² + (t + z)²) − z/√(R² + z²) − (t + z)/√(r² + (t + z)²) + z/√(r² + z²)), R = D/2, r = d/2; Br = Br20·(1 + α·(T − 20 °C))
//
// Letters: D outer_diameter; d inner_diameter; t thickness; z distance; T temperature; α coefficient; Br20 remanence; Br = remanence; B = field.
//
// Validity: as for the disc; the axis runs through the bore, so this is not
// the field over the ring itself.
//
// Source: difference of two uniformly magnetised cylinders
//
// Example:
//
//	m = magnet_ring(30 mm, 10 mm, 6 mm, 1.3 T, distance: 8 mm)
//	B [mT] = m.field
func MagnetRing(in MagnetRingInput) (MagnetRingResult, error) {
	if err := require.Positive("outer_diameter", in.OuterDiameter, "m"); err != nil {
		return MagnetRingResult{}, err
	}
	if !(in.InnerDiameter >= 0 && in.InnerDiameter < in.OuterDiameter) {
		return MagnetRingResult{}, &model.Error{Field: "inner_diameter", Summary: "the bore is not inside the ring",
			Hint: "make it smaller than outer_diameter"}
	}
	m, cautions, err := in.solve((in.OuterDiameter-in.InnerDiameter)/2, func(t, z float64) float64 {
		if in.InnerDiameter == 0 {
			return cylinderField(in.OuterDiameter/2, t, z)
		}
		return cylinderField(in.OuterDiameter/2, t, z) - cylinderField(in.InnerDiameter/2, t, z)
	})
	return MagnetRingResult{in.OuterDiameter, in.InnerDiameter, m, cautions}, err
}

// MagnetBlockInput is what [MagnetBlock] reads.
type MagnetBlockInput struct {
	Length float64 `unit:"mm" range:"(0,)" help:"of the face"`
	Width  float64 `unit:"mm" range:"(0,)" help:"of the face"`
	Magnetised
}

// MagnetBlockResult is a block magnet.
type MagnetBlockResult struct {
	Length float64 `unit:"mm"`
	Width  float64 `unit:"mm"`
	Magnet
	model.Cautions
}

// MagnetBlock is a block magnet, magnetised through its thickness.
//
// Formula: B = Br/π·(atan(L·W/(2·z·√(4·z² + L² + W²))) − atan(L·W/(2·(t + z)·√(4·(t + z)² + L² + W²)))); at the face, where z is nothing, B = Br/π·(π/2 − atan(L·W/(2·t·√(4·t² + L² + W²)))); Br = Br20·(1 + α·(T − 20 °C)); two facing magnets add, in the middle of their gap B_g = 2·Br/π·(atan(L·W/(g·√(g² + L² + W²))) − atan(L·W/((2·t + g)·√((2·t + g)² + L² + W²)))); an iron plate behind a magnet mirrors it
//
// Letters: L length; W width; t thickness; z distance; g gap; T temperature; α coefficient; Br20 remanence; Br = remanence; B = field; B_g = mid_gap_field.
//
// Validity: as for the disc.
//
// Source: closed form of a uniformly magnetised block (surface charge)
//
// Example:
//
//	m = magnet_block(46 mm, 30 mm, 10 mm, 1.3 T, gap: 13 mm)
//	B_mid [mT] = m.mid_gap_field
func MagnetBlock(in MagnetBlockInput) (MagnetBlockResult, error) {
	if err := require.All(require.Positive("length", in.Length, "m"), require.Positive("width", in.Width, "m")); err != nil {
		return MagnetBlockResult{}, err
	}
	m, cautions, err := in.solve(math.Min(in.Length, in.Width), func(t, z float64) float64 { return blockField(in.Length, in.Width, t, z) })
	return MagnetBlockResult{in.Length, in.Width, m, cautions}, err
}

// blockField is the on-axis field of a block per tesla of remanence.
func blockField(l, w, t, z float64) float64 {
	pole := func(z float64) float64 {
		return math.Atan2(l*w, 2*z*math.Sqrt(4*z*z+l*l+w*w))
	}
	return (pole(z) - pole(t+z)) / math.Pi
}
