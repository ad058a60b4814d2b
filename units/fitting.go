package units

import (
	"math"
	"strings"
	"sync"
)

// Fitting is the unit that a number is shown in when the builder gave none: a
// pure function of its kind and size. Its bands are wide, a factor of a
// thousand and more, so that small changes of a design leave the unit alone.
//
// A rotation is in rpm, a rate in hertz, a temperature on its scale in °C and a
// difference in K, a charge in coulombs (mAh only if asked for), an energy in
// joules up to 10 kJ, more than an arm gives in one go, a mass in grams up to
// 1 kg, an angle a pure number. What has no bands is in coherent SI. Zero, and
// what is no finite number, are shown as 1 is.
func Fitting(k Kind, si float64) Unit {
	switch {
	case k.Point:
		return fixed().celsius
	case k.Dim.IsNumber():
		return fixed().one
	case k.Dim == perTime && k.Mark == Rotation:
		return fixed().rpm
	case k.Dim == perTime && k.Mark == Neutral:
		return coherent(k)
	}
	bands := fixed().bands[k.Dim]
	if bands == nil {
		return coherent(k)
	}
	size := math.Abs(si)
	if size == 0 || math.IsNaN(size) || math.IsInf(size, 0) {
		size = 1
	}
	fit := bands[0].unit
	for _, b := range bands {
		if size >= b.from {
			fit = b.unit
		}
	}
	return fit
}

// coherent is the SI unit of a kind that has no unit of its own choice. A
// reciprocal is written K⁻¹ there, since 3 1/K is hard to read.
func coherent(k Kind) Unit {
	if k.Dim.HasMoney() {
		return MustParse(k.Dim.Unit())
	}
	text := k.Dim.SIUnit()
	if strings.HasPrefix(text, "1/") {
		text = flat(text)
	}
	return Unit{Kind: k, text: text, num: 1, den: 1}
}

// flat writes a unit without a solidus.
func flat(text string) string {
	p := parser{text: text}
	if p.whole() != nil {
		return text
	}
	for i := range p.terms {
		if t := &p.terms[i]; t.below {
			t.below, t.power.num = false, -t.power.num
		}
	}
	return write(p.terms)
}

// A band is a unit and the SI value from which it is used.
type band struct {
	from float64
	text string
	unit Unit
}

// fitted holds the parsed units of the bands.
type fitted struct {
	celsius, one, rpm Unit
	bands             map[Dimension][]band
}

var fixed = sync.OnceValue(func() fitted {
	f := fitted{MustParse("°C"), MustParse("1"), MustParse("rpm"), make(map[Dimension][]band)}
	for _, list := range bands() {
		for i := range list {
			list[i].unit = MustParse(list[i].text)
		}
		f.bands[list[0].unit.Kind.Dim] = list
	}
	return f
})

// bands lists the units in which a dimension is shown, smallest first: the
// common practice of the trade, no source. The first is used below its bound
// too.
func bands() [][]band {
	at := func(from float64, text string) band { return band{from: from, text: text} }
	return [][]band{
		{at(0, "µs"), at(1e-3, "ms"), at(0.1, "s"), at(300, "min"), at(3*3600, "h"), at(3*86400, "day")},
		{at(0, "nm"), at(1e-7, "µm"), at(1e-4, "mm"), at(1, "m"), at(1e4, "km")},
		{at(0, "mm²"), at(1e-4, "cm²"), at(0.1, "m²"), at(1e5, "km²")},
		{at(0, "mm³"), at(1e-6, "cm³"), at(1e-3, "L"), at(1, "m³")},
		{at(0, "µg"), at(1e-7, "mg"), at(1e-4, "g"), at(1, "kg")},
		{at(0, "mm/s"), at(0.1, "m/s")},
		{at(0, "µN"), at(1e-4, "mN"), at(0.1, "N"), at(1e4, "kN"), at(1e7, "MN")},
		{at(0, "Pa"), at(1e3, "kPa"), at(1e6, "MPa"), at(1e9, "GPa")},
		{at(0, "nJ"), at(1e-7, "µJ"), at(1e-4, "mJ"), at(0.1, "J"), at(1e4, "Wh"), at(3.6e7, "kWh"), at(3.6e10, "MWh")},
		{at(0, "nW"), at(1e-7, "µW"), at(1e-4, "mW"), at(0.1, "W"), at(1e4, "kW"), at(1e7, "MW")},
		{at(0, "mHz"), at(0.1, "Hz"), at(1e4, "kHz"), at(1e6, "MHz"), at(1e9, "GHz")},
		{at(0, "nV"), at(1e-7, "µV"), at(1e-4, "mV"), at(0.1, "V"), at(1e4, "kV")},
		{at(0, "pA"), at(1e-9, "nA"), at(1e-7, "µA"), at(1e-4, "mA"), at(0.1, "A"), at(1e4, "kA")},
		{at(0, "nC"), at(1e-7, "µC"), at(1e-4, "mC"), at(0.1, "C")},
		{at(0, "pF"), at(1e-9, "nF"), at(1e-6, "µF"), at(1e-3, "mF"), at(0.1, "F"), at(1e4, "kF")},
		{at(0, "µΩ"), at(1e-4, "mΩ"), at(0.1, "Ω"), at(1e3, "kΩ"), at(1e6, "MΩ"), at(1e9, "GΩ")},
		{at(0, "nS"), at(1e-7, "µS"), at(1e-4, "mS"), at(0.1, "S")},
		{at(0, "nH"), at(1e-6, "µH"), at(1e-3, "mH"), at(0.1, "H")},
		{at(0, "nWb"), at(1e-7, "µWb"), at(1e-4, "mWb"), at(0.1, "Wb")},
		{at(0, "nT"), at(1e-7, "µT"), at(1e-4, "mT"), at(0.1, "T")},
		{at(0, "A/m"), at(1e3, "kA/m")},
		{at(0, "A/m²"), at(1e5, "A/mm²")},
		{at(0, "nΩ·m"), at(1e-6, "µΩ·m"), at(1e-3, "mΩ·m"), at(0.1, "Ω·m")},
		{at(0, "µΩ/m"), at(1e-4, "mΩ/m"), at(0.1, "Ω/m")},
		{at(0, "g/m²"), at(0.1, "g/dm²"), at(100, "kg/m²")},
		{at(0, "mg/m"), at(1e-4, "g/m"), at(1, "kg/m")},
		{at(0, "mg/s"), at(1e-4, "g/s"), at(1, "kg/s")},
		{at(0, "cm³/s"), at(1e-4, "L/s"), at(1, "m³/s")},
		{at(0, "g·mm²"), at(1e-7, "g·cm²"), at(1e-3, "kg·cm²"), at(0.1, "kg·m²")},
		{at(0, "J/kg"), at(1e4, "kJ/kg"), at(1e7, "MJ/kg")},
	}
}
