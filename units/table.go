package units

import (
	"math"
	"sync"
)

// An entry is one unit of the table: si = (number + shift) * num / den.
type entry struct {
	symbol, name string
	aliases      []string
	prefixes     bool
	dim          Dimension
	num, den     float64
	shift        float64
	angle        bool // counts as an angle: rad, °, rev, and rpm, which has one in it
	clock        bool // a time, or a rate per time
	coin         bool // money
	meaning      string
	source       string
}

// Published sources of the factors.
const (
	brochure = "BIPM, SI Brochure, 9th ed. (2019, updated 2022)"
	sp811    = "NIST SP 811 (2008), App. B.8"
	cgs      = "NIST SP 811 (2008), App. B.8; CGS-EMU definition"
)

// The factors from which the others are made, as ratios of whole numbers:
// 1 in = 0.0254 m, 1 lb = 0.453 592 37 kg, g_n = 9.806 65 m/s² (NIST SP 811).
const (
	inch, perInch       = 254, 1e4
	pound, perPound     = 45359237, 1e8
	gravity, perGravity = 980665, 1e5
)

// dim is the dimension kg^a·m^b·s^c·A^d.
func dim(kg, m, s, a int8) Dimension {
	var d Dimension
	for i, n := range [...]int8{kg, m, s, a} {
		if n != 0 {
			d.powers[i] = exponent{n, 1}
		}
	}
	return d
}

func base(i int) Dimension {
	var d Dimension
	d.powers[i] = exponent{1, 1}
	return d
}

// index finds an entry by symbol or alias.
var index = sync.OnceValue(func() map[string]*entry {
	table := entries()
	m := make(map[string]*entry, 2*len(table))
	for i := range table {
		e := &table[i]
		m[e.symbol] = e
		for _, a := range e.aliases {
			m[a] = e
		}
	}
	return m
})

// entries is the table of units.
var entries = sync.OnceValue(func() []entry {
	var all []entry
	for _, part := range [][]entry{siUnits(), timesAndAngles(), mechanical(), electrical(), money()} {
		all = append(all, part...)
	}
	return all
})

// named is a coherent SI unit with prefixes.
func named(symbol, name string, d Dimension, meaning string, aliases ...string) entry {
	return entry{symbol: symbol, name: name, aliases: aliases, prefixes: true, dim: d, num: 1, den: 1, meaning: meaning, source: brochure}
}

func siUnits() []entry {
	gram := named("g", "gram", dim(1, 0, 0, 0), "0.001 kg")
	gram.den = 1000
	second := named("s", "second", dim(0, 0, 1, 0), "base unit of time")
	second.clock = true
	hertz := named("Hz", "hertz", perTime, "1/s, a rate: how often something happens")
	hertz.clock = true
	becquerel := named("Bq", "becquerel", perTime, "1/s")
	becquerel.clock = true
	radian := named("rad", "radian", Dimension{}, "1, an angle")
	radian.angle = true
	return []entry{
		named("m", "metre", dim(0, 1, 0, 0), "base unit of length"),
		gram, second,
		named("A", "ampere", dim(0, 0, 0, 1), "base unit of current"),
		named("K", "kelvin", temperature, "base unit of temperature; a temperature difference", "\u212a"),
		named("mol", "mole", base(amount), "base unit of amount of substance"),
		named("cd", "candela", base(light), "base unit of luminous intensity"),
		radian,
		named("sr", "steradian", Dimension{}, "1, a solid angle"),
		hertz,
		named("N", "newton", dim(1, 1, -2, 0), "kg·m/s²"),
		named("Pa", "pascal", dim(1, -1, -2, 0), "N/m²"),
		named("J", "joule", dim(1, 2, -2, 0), "N·m"),
		named("W", "watt", dim(1, 2, -3, 0), "J/s"),
		named("C", "coulomb", dim(0, 0, 1, 1), "A·s"),
		named("V", "volt", dim(1, 2, -3, -1), "W/A"),
		named("F", "farad", dim(-1, -2, 4, 2), "C/V"),
		named("Ω", "ohm", dim(1, 2, -3, -2), "V/A", "\u2126", "ohm"),
		named("S", "siemens", dim(-1, -2, 3, 2), "A/V"),
		named("Wb", "weber", dim(1, 2, -2, -1), "V·s"),
		named("T", "tesla", dim(1, 0, -2, -1), "Wb/m²"),
		named("H", "henry", dim(1, 2, -2, -2), "Wb/A"),
		named("lm", "lumen", base(light), "cd·sr"),
		named("lx", "lux", base(light).Mul(dim(0, -2, 0, 0)), "lm/m²"),
		becquerel,
		named("Gy", "gray", dim(0, 2, -2, 0), "J/kg"),
		named("Sv", "sievert", dim(0, 2, -2, 0), "J/kg"),
		named("kat", "katal", base(amount).Mul(perTime), "mol/s"),
	}
}

func timesAndAngles() []entry {
	second := dim(0, 0, 1, 0)
	const angles = "definition of the revolution; NIST SP 811 (2008), App. B.8"
	return []entry{
		{symbol: "min", name: "minute", dim: second, num: 60, den: 1, clock: true, meaning: "60 s", source: brochure},
		{symbol: "h", name: "hour", dim: second, num: 3600, den: 1, clock: true, meaning: "60 min", source: brochure},
		{symbol: "day", name: "day", dim: second, num: 86400, den: 1, clock: true, meaning: "24 h", source: brochure},
		{symbol: "°", name: "degree", aliases: []string{"deg"}, num: math.Pi, den: 180, angle: true, meaning: "π/180 rad", source: brochure},
		{symbol: "′", name: "arcminute", num: math.Pi, den: 10800, angle: true, meaning: "1/60 of a degree", source: brochure},
		{symbol: "″", name: "arcsecond", num: math.Pi, den: 648000, angle: true, meaning: "1/60 of an arcminute", source: brochure},
		{symbol: "rev", name: "revolution", num: 2 * math.Pi, den: 1, angle: true, meaning: "2π rad", source: angles},
		{symbol: "turn", name: "turn of a shaft", num: 2 * math.Pi, den: 1, angle: true, meaning: "2π rad, as rev; the turns of a winding are a pure number, without a unit", source: angles},
		{symbol: "rpm", name: "revolutions a minute", dim: perTime, num: 2 * math.Pi, den: 60, angle: true, meaning: "rev/min, a rotation", source: angles},
		{symbol: "%", name: "per cent", num: 1, den: 100, meaning: "0.01", source: brochure},
		{symbol: "ppm", name: "parts per million", num: 1, den: 1e6, meaning: "0.000001", source: brochure},
		{symbol: "°C", name: "degree Celsius", aliases: []string{"degC", "℃"}, dim: temperature, num: 1, den: 1, shift: 273.15,
			meaning: "a temperature on the scale; inside a compound such as W/°C a difference, 1 K", source: brochure},
		{symbol: "°F", name: "degree Fahrenheit", aliases: []string{"degF", "℉"}, dim: temperature, num: 5, den: 9, shift: 459.67,
			meaning: "a temperature on the scale; inside a compound a difference, 5/9 K", source: "NIST SP 811 (2008), App. B.9"},
	}
}

func mechanical() []entry {
	metre, kilogram := dim(0, 1, 0, 0), dim(1, 0, 0, 0)
	newton, pascal, watt, joule := dim(1, 1, -2, 0), dim(1, -1, -2, 0), dim(1, 2, -3, 0), dim(1, 2, -2, 0)
	speed := dim(0, 1, -1, 0)
	return []entry{
		{symbol: "in", name: "inch", aliases: []string{"inch"}, dim: metre, num: inch, den: perInch, meaning: "25.4 mm", source: sp811},
		{symbol: "mil", name: "mil", dim: metre, num: inch, den: perInch * 1000, meaning: "0.001 in", source: sp811},
		{symbol: "ft", name: "foot", dim: metre, num: 12 * inch, den: perInch, meaning: "12 in", source: sp811},
		{symbol: "yd", name: "yard", dim: metre, num: 36 * inch, den: perInch, meaning: "3 ft", source: sp811},
		{symbol: "mile", name: "mile", aliases: []string{"mi"}, dim: metre, num: 63360 * inch, den: perInch, meaning: "5280 ft, the statute mile", source: sp811},
		{symbol: "nmi", name: "nautical mile", dim: metre, num: 1852, den: 1, meaning: "1852 m", source: sp811},
		{symbol: "cmil", name: "circular mil", dim: dim(0, 2, 0, 0), num: math.Pi * inch * inch, den: 4 * perInch * perInch * 1e6,
			meaning: "the area of a circle 1 mil across", source: sp811},
		{symbol: "L", name: "litre", aliases: []string{"l"}, prefixes: true, dim: dim(0, 3, 0, 0), num: 1, den: 1000, meaning: "1 dm³", source: brochure},
		{symbol: "lb", name: "pound", dim: kilogram, num: pound, den: perPound, meaning: "the avoirdupois pound, a mass; lbf is the force", source: sp811},
		{symbol: "oz", name: "ounce", dim: kilogram, num: pound, den: 16 * perPound, meaning: "1/16 lb, a mass; ozf is the force", source: sp811},
		{symbol: "slug", name: "slug", dim: kilogram, num: pound * gravity, den: perPound * 30480, meaning: "lbf·s²/ft", source: sp811},
		{symbol: "lbf", name: "pound-force", dim: newton, num: pound * gravity, den: perPound * perGravity, meaning: "the weight of 1 lb", source: sp811},
		{symbol: "ozf", name: "ounce-force", dim: newton, num: pound * gravity, den: 16 * perPound * perGravity, meaning: "the weight of 1 oz", source: sp811},
		{symbol: "gf", name: "gram-force", prefixes: true, dim: newton, num: gravity, den: 1000 * perGravity, meaning: "the weight of 1 g", source: sp811},
		{symbol: "pdl", name: "poundal", dim: newton, num: pound * 12 * inch, den: perPound * perInch, meaning: "lb·ft/s²", source: sp811},
		{symbol: "mph", name: "miles an hour", dim: speed, num: 63360 * inch, den: 3600 * perInch, meaning: "mile/h", source: sp811},
		{symbol: "kn", name: "knot", aliases: []string{"knot"}, dim: speed, num: 1852, den: 3600, meaning: "nmi/h", source: sp811},
		{symbol: "bar", name: "bar", prefixes: true, dim: pascal, num: 1e5, den: 1, meaning: "100 kPa", source: brochure},
		{symbol: "atm", name: "standard atmosphere", dim: pascal, num: 101325, den: 1, meaning: "101 325 Pa", source: sp811},
		{symbol: "psi", name: "pound-force a square inch", dim: pascal, num: pound * gravity, den: perPound * perGravity * 0.0254 * 0.0254,
			meaning: "lbf/in²", source: sp811},
		{symbol: "inHg", name: "inch of mercury", dim: pascal, num: 3386388640341, den: 1e9,
			meaning: "conventional: mercury of 13 595.1 kg/m³ under standard gravity", source: sp811},
		{symbol: "cal", name: "calorie", prefixes: true, dim: joule, num: 4184, den: 1000, meaning: "the thermochemical calorie, 4.184 J", source: sp811},
		{symbol: "eV", name: "electronvolt", prefixes: true, dim: joule, num: 1.602176634e-19, den: 1, meaning: "1.602 176 634e-19 J", source: brochure},
		{symbol: "hpmech", name: "mechanical horsepower", dim: watt, num: 550 * pound * gravity * 0.3048, den: perPound * perGravity,
			meaning: "550 ft·lbf/s, 745.7 W", source: sp811},
		{symbol: "hpmetric", name: "metric horsepower", dim: watt, num: 75 * gravity, den: perGravity, meaning: "75 kgf·m/s, 735.5 W", source: sp811},
		{symbol: "hpelectric", name: "electric horsepower", dim: watt, num: 746, den: 1, meaning: "746 W", source: sp811},
	}
}

func electrical() []entry {
	oersted := entry{symbol: "Oe", name: "oersted", prefixes: true, dim: dim(0, -1, 0, 1), num: 1000, den: 4 * math.Pi, meaning: "1000/(4π) A/m", source: cgs}
	return []entry{
		{symbol: "Wh", name: "watt-hour", prefixes: true, dim: dim(1, 2, -2, 0), num: 3600, den: 1, meaning: "an energy, 3600 J", source: sp811},
		{symbol: "Ah", name: "ampere-hour", prefixes: true, dim: dim(0, 0, 1, 1), num: 3600, den: 1, meaning: "a charge, 3600 C; an energy only times a voltage", source: sp811},
		{symbol: "G", name: "gauss", prefixes: true, dim: dim(1, 0, -2, -1), num: 1, den: 1e4, meaning: "0.1 mT", source: cgs},
		{symbol: "Mx", name: "maxwell", prefixes: true, dim: dim(1, 2, -2, -1), num: 1, den: 1e8, meaning: "G·cm²", source: cgs},
		{symbol: "Gb", name: "gilbert", dim: dim(0, 0, 0, 1), num: 10, den: 4 * math.Pi, meaning: "10/(4π) A", source: cgs},
		oersted,
		{symbol: "MGOe", name: "megagauss-oersted", dim: dim(1, -1, -2, 0), num: 1e5, den: 4 * math.Pi,
			meaning: "energy product of a magnet, 7.958 kJ/m³", source: cgs},
	}
}

// All lists what Parse knows, in the order of the table.
func All() []Named {
	var list []Named
	for _, e := range entries() {
		if !e.hidden() {
			list = append(list, e.named())
		}
	}
	return list
}

// named tells of the entry, for help.
func (e *entry) named() Named {
	return Named{Symbol: e.symbol, Name: e.name, Meaning: e.meaning, Source: e.source,
		Aliases: e.aliases, Prefixes: e.prefixes, Unit: MustParse(e.symbol)}
}

// hidden reports whether the entry is a currency's code without a name: a hundred of
// them would bury the list, and be near to every slip of the pen.
func (e *entry) hidden() bool { return e.coin && e.name == e.symbol }
