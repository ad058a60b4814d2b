package generator

import (
	"math"

	"inkwing/evaluate/library/internal/require"
)

// Annealed copper of 100 % IACS at 20 °C (IEC 60028; NBS Circular 31, 1914).
const (
	copperResistivity = 1 / 58e6 // Ω·m at 20 °C
	copperSlope       = 0.00393  // per kelvin, from 20 °C
	copperDensity     = 8890     // kg/m³
	copperHeat        = 385      // J/(kg·K), near room temperature (CRC Handbook of Chemistry and Physics, from memory)
)

// A Winding is round copper wire: what the functions that wind with it read.
type Winding struct {
	Diameter        float64  `unit:"mm" range:"(0,)" help:"bare copper"`
	OverallDiameter *float64 `unit:"mm" range:"(0,)" help:"over the enamel"`
}

// RoundWire is copper wire by its size, with what a length of it weighs and resists.
type RoundWire struct {
	Diameter            float64 `unit:"mm" help:"bare copper"`
	OverallDiameter     float64 `unit:"mm" show:"1" help:"over the enamel"`
	Section             float64 `unit:"mm^2" help:"bare copper"`
	ResistancePerLength float64 `unit:"mΩ/m" show:"2" help:"at the temperature given"`
	MassPerLength       float64 `unit:"g/m" help:"copper alone"`
}

// WireInput is what [Wire] reads.
type WireInput struct {
	Diameter    float64  `unit:"mm" range:"(0,)" help:"bare copper"`
	Temperature float64  `unit:"°C" default:"20 °C" range:"[-50,200]" help:"of the copper"`
	Insulation  *float64 `unit:"mm" range:"[0,)" help:"enamel, both sides together; heavy enamel if left out"`
}

// WireResult is a wire.
type WireResult struct{ RoundWire }

// Wire is round copper wire of a bare diameter.
//
// Without insulation given it carries heavy enamel, whose thickness, both
// sides together, is near 0.094 mm·√(d/mm).
//
// Formula: A = π·d²/4; R_l = ρ·(1 + 0.00393 K^-1·(T − 20 °C))/A, ρ = 1 Ω·mm²/m/58; m_l = 8890 kg/m³·A
//
// Letters: d diameter; T temperature; A = section; R_l = resistance_per_length; m_l = mass_per_length.
//
// Validity: annealed solid copper, about -50 °C to 150 °C, direct current or
// low frequency; stranded wire has about 2 % more.
//
// Source: IEC 60028 and NBS Circular 31 (1914) for copper; the enamel is a fit
// from memory to the largest overall diameters of IEC 60317, within 10 %.
//
// Example:
//
//	w = wire(0.5 mm)
//	R [Ω] = 11.28 m * w.resistance_per_length
func Wire(in WireInput) (WireResult, error) {
	if err := require.Positive("diameter", in.Diameter, "m"); err != nil {
		return WireResult{}, err
	}
	d := in.Diameter
	area := math.Pi / 4 * d * d
	return WireResult{RoundWire{
		Diameter:            d,
		OverallDiameter:     d + ptr(in.Insulation, heavyEnamel(d)),
		Section:             area,
		ResistancePerLength: copperResistance(area, in.Temperature),
		MassPerLength:       copperDensity * area,
	}}, nil
}

// heavyEnamel is what heavy enamel adds to a bare diameter, in metres.
func heavyEnamel(d float64) float64 { return 0.094e-3 * math.Sqrt(d/1e-3) }

// copperResistance is that of a metre of copper at a temperature in kelvin.
func copperResistance(section, kelvin float64) float64 {
	return copperResistivity * (1 + copperSlope*(kelvin-roomKelvin)) / section
}

// AwgInput is what [Awg] reads.
type AwgInput struct {
	Gauge       int      `range:"[-3,50]" help:"0, -1, -2, -3 for 1/0, 2/0, 3/0, 4/0"`
	Temperature float64  `unit:"°C" default:"20 °C" range:"[-50,200]" help:"of the copper"`
	Insulation  *float64 `unit:"mm" range:"[0,)" help:"enamel, both sides together; heavy enamel if left out"`
}

// Awg is round copper wire of an American wire gauge number.
//
// Formula: d = 0.127 mm·92^((36 − n)/39), unrounded; then as for wire A = π·d²/4; R_l = ρ·(1 + 0.00393 K^-1·(T − 20 °C))/A, ρ = 1 Ω·mm²/m/58; m_l = 8890 kg/m³·A
//
// Letters: n gauge; T temperature; d = diameter; A = section; R_l = resistance_per_length; m_l = mass_per_length.
//
// Validity: 4/0 (n = -3) to 50. Tables that round the diameter to a tenth of a
// mil differ by up to 0.2 %.
//
// Source: ASTM B258; NBS Handbook 100 (1966)
//
// Example:
//
//	w = awg(21, temperature: 40 °C)
//	R [Ω] = 87 * 60 mm * w.resistance_per_length
func Awg(in AwgInput) (WireResult, error) {
	d := 0.127e-3 * math.Pow(92, float64(36-in.Gauge)/39)
	return Wire(WireInput{Diameter: d, Temperature: in.Temperature, Insulation: in.Insulation})
}
