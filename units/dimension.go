package units

import (
	"strconv"
	"strings"
	"sync"
)

// The seven bases of the SI, in the order in which SIUnit writes them.
const (
	mass = iota
	length
	duration
	current
	warmth
	amount
	light
	bases
)

var baseSymbols = [bases]string{"kg", "m", "s", "A", "K", "mol", "cd"}

// MaxPower bounds the numerator and the denominator of an exponent.
const MaxPower = 100

// An exponent is a fraction in lowest terms, den > 0; no power is the zero value.
type exponent struct{ num, den int8 }

// outOfRange stands for every dimension with an exponent past MaxPower.
var outOfRange = Dimension{powers: [bases]exponent{{1, -1}}}

// Dimension is a product of powers of the seven SI bases and of currencies, with
// rational exponents. It is comparable; the zero value is a pure number.
//
// A product whose exponents pass MaxPower is out of range and stays so in all
// that follows from it; see [Dimension.InRange].
type Dimension struct {
	powers [bases]exponent
	money  [mostCurrencies]share // in the order of the currencies, without gaps
}

// Of the dimensions that need special care.
var (
	temperature = Dimension{powers: [bases]exponent{warmth: {1, 1}}}
	perTime     = Dimension{powers: [bases]exponent{duration: {-1, 1}}}
)

// Mul is the dimension of a product.
func (d Dimension) Mul(e Dimension) Dimension { return d.combine(e, 1) }

// Div is the dimension of a quotient.
func (d Dimension) Div(e Dimension) Dimension { return d.combine(e, -1) }

func (d Dimension) combine(e Dimension, sign int) Dimension {
	if !d.InRange() || !e.InRange() {
		return outOfRange
	}
	for i, p := range e.powers {
		if p.num == 0 {
			continue
		}
		sum, ok := d.powers[i].plus(p, sign)
		if !ok {
			return outOfRange
		}
		d.powers[i] = sum
	}
	if e.money == ([mostCurrencies]share{}) {
		return d
	}
	sum, ok := withMoney(d.money, e.money, sign)
	if !ok {
		return outOfRange
	}
	d.money = sum
	return d
}

func (p exponent) plus(q exponent, sign int) (exponent, bool) {
	if p.num == 0 {
		return exponent{int8(sign * int(q.num)), q.den}, true
	}
	return fraction(int(p.num)*int(q.den)+sign*int(q.num)*int(p.den), int(p.den)*int(q.den))
}

// Pow raises to num/den; ok is false past the range that exponents can hold,
// and for den 0.
func (d Dimension) Pow(num, den int) (power Dimension, ok bool) {
	p, ok := fraction(num, den)
	if !ok || !d.InRange() {
		return outOfRange, false
	}
	for i, q := range d.powers {
		if q.num == 0 {
			continue
		}
		if d.powers[i], ok = fraction(int(q.num)*int(p.num), int(q.den)*max(int(p.den), 1)); !ok {
			return outOfRange, false
		}
	}
	for i, s := range d.money {
		if s.currency == 0 {
			break
		}
		if d.money[i].power, ok = fraction(int(s.power.num)*int(p.num), int(s.power.den)*max(int(p.den), 1)); !ok {
			return outOfRange, false
		}
		if p.num == 0 {
			d.money[i] = share{}
		}
	}
	return d, true
}

// fraction is num/den in lowest terms, if it is in range.
func fraction(num, den int) (exponent, bool) {
	if num == 0 || den == 0 {
		return exponent{}, den != 0
	}
	if den == 1 && -MaxPower <= num && num <= MaxPower {
		return exponent{int8(num), 1}, true
	}
	a, b := num, den
	for b != 0 {
		a, b = b, a%b
	}
	num, den = num/a, den/a
	if den < 0 {
		num, den = -num, -den
	}
	// den is still negative for the smallest int, which has no opposite.
	if num < -MaxPower || num > MaxPower || den < 1 || den > MaxPower {
		return exponent{}, false
	}
	return exponent{int8(num), int8(den)}, true
}

// IsNumber reports whether d is the dimension of a pure number.
func (d Dimension) IsNumber() bool { return d == Dimension{} }

// InRange reports whether all exponents could be held.
func (d Dimension) InRange() bool { return d != outOfRange }

// Name is the usual name of a quantity of this dimension, such as "voltage",
// or "" if it has none. Where several share a dimension the commoner is given:
// energy rather than torque, pressure rather than energy density.
func (d Dimension) Name() string {
	if _, ok := d.Currency(); ok {
		return "amount of money"
	}
	return usual()[d].name
}

// SIUnit is the coherent SI unit: "V", "m/s", "m/s²", "1" for a pure number,
// "?" out of range.
func (d Dimension) SIUnit() string {
	if !d.InRange() {
		return "?"
	}
	if known, ok := usual()[d]; ok {
		return known.unit
	}
	return d.compound()
}

// solidus writes a quotient of products with at most one solidus.
func solidus(above, below []string) string {
	text := strings.Join(above, "·")
	if text == "" {
		text = "1"
	}
	switch len(below) {
	case 0:
		return text
	case 1:
		return text + "/" + below[0]
	}
	return text + "/(" + strings.Join(below, "·") + ")"
}

var superscript = strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴",
	"5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹")

// String writes the exponent behind a symbol: "", "²", "⁻¹", "^(1/2)".
func (p exponent) String() string {
	switch {
	case p == exponent{1, 1}:
		return ""
	case p == exponent{2, 1}:
		return "²"
	case p == exponent{3, 1}:
		return "³"
	case p.den == 1:
		return superscript.Replace(strconv.Itoa(int(p.num)))
	}
	return "^(" + strconv.Itoa(int(p.num)) + "/" + strconv.Itoa(int(p.den)) + ")"
}

// A usualQuantity is how a dimension is commonly named and written.
type usualQuantity struct{ unit, name string }

// usual finds the usual quantity of a dimension.
var usual = sync.OnceValue(func() map[Dimension]usualQuantity {
	m := make(map[Dimension]usualQuantity, len(usualQuantities))
	for _, q := range usualQuantities {
		m[MustParse(q.unit).Kind.Dim] = q
	}
	return m
})

// usualQuantities are the names of quantities as ISO 80000 and the trade have
// them, each dimension once, with the coherent unit in which it is written.
var usualQuantities = []usualQuantity{
	{"1", "pure number"},
	{"m", "length"}, {"m²", "area"}, {"m³", "volume"}, {"m⁴", "second moment of area"}, {"1/m", "number per length"},
	{"kg", "mass"}, {"s", "time"}, {"A", "current"}, {"K", "temperature"}, {"mol", "amount of substance"},
	{"cd", "luminous intensity"}, {"lx", "illuminance"},
	{"1/s", "frequency"}, {"1/s²", "angular acceleration"},
	{"m/s", "speed"}, {"m/s²", "acceleration"},
	{"N", "force"}, {"Pa", "pressure"}, {"J", "energy"}, {"W", "power"}, {"C", "charge"}, {"V", "voltage"},
	{"F", "capacitance"}, {"Ω", "resistance"}, {"S", "conductance"}, {"Wb", "magnetic flux"},
	{"T", "magnetic flux density"}, {"H", "inductance"},
	{"kg/m³", "density"}, {"kg/m²", "mass per area"}, {"kg/m", "mass per length"}, {"kg·m²", "moment of inertia"},
	{"N·s", "momentum"}, {"N/m", "stiffness"}, {"Pa·s", "viscosity"}, {"m²/s", "kinematic viscosity"},
	{"m³/s", "volume flow"}, {"kg/s", "mass flow"},
	{"J/kg", "specific energy"}, {"W/kg", "specific power"}, {"J/K", "heat capacity"}, {"J/(kg·K)", "specific heat capacity"},
	{"J·s", "angular momentum"}, {"J/mol", "molar energy"}, {"J/(mol·K)", "molar heat capacity"}, {"kg/mol", "molar mass"},
	{"K/W", "thermal resistance"}, {"W/K", "thermal conductance"}, {"W/(m·K)", "thermal conductivity"},
	{"W/(m²·K)", "heat transfer coefficient"}, {"W/m²", "power per area"}, {"1/K", "temperature coefficient"},
	{"K/s", "rate of temperature change"}, {"K/m", "temperature gradient"},
	{"V/m", "electric field strength"}, {"A/m", "magnetic field strength"}, {"A/m²", "current density"},
	{"V/s", "rate of voltage change"}, {"A/s", "rate of current change"}, {"1/(V·s)", "speed constant"},
	{"V/K", "voltage temperature coefficient"}, {"Ω·m", "resistivity"}, {"S/m", "conductivity"}, {"Ω/m", "resistance per length"},
	{"F/m", "permittivity"}, {"H/m", "permeability"}, {"C/m²", "charge per area"}, {"C/m³", "charge density"},
	{"C/kg", "specific charge"},
}
