package units

import "math"

// Factors beyond these are refused: converting would overflow, or lose digits.
const (
	maxFactor = 1e200
	minFactor = 1e-200
)

// compose multiplies the terms out.
func (p *parser) compose() (Unit, error) {
	u := Unit{num: 1, den: 1}
	for i := range p.terms {
		t := &p.terms[i]
		power := t.power
		if t.below {
			power.num = -power.num
		}
		raised, ok := t.unit.dim.Pow(int(power.num), int(power.den))
		u.Kind.Dim = u.Kind.Dim.Mul(raised)
		if !ok || !u.Kind.Dim.InRange() {
			return Unit{}, p.fault(0, len(p.text), "the exponents of "+p.text+" are out of range", exponentsGoTo)
		}
		num, den := t.scale(power)
		u.num, u.den = u.num*num, u.den*den
	}
	if f := u.num / u.den; !(f >= minFactor && f <= maxFactor) {
		return Unit{}, p.fault(0, len(p.text), "the factor of "+p.text+" is out of range", "use smaller prefixes or exponents")
	}
	u.num, u.den = reduce(u.num, u.den)
	u.Kind.Mark = mark(u.Kind.Dim, p.terms)
	if t := p.terms; len(t) == 1 && t[0].power == (exponent{1, 1}) && !t[0].below && t[0].unit.shift != 0 {
		u.Kind.Point, u.shift = true, t[0].unit.shift
	}
	u.text = write(p.terms)
	for i := range p.terms {
		u.pay(p.terms[i].unit)
	}
	return u, nil
}

// pay notes the first unit of money of a unit, and how an amount in it is shown.
func (u *Unit) pay(e *entry) {
	if !e.coin || u.coin != "" {
		return
	}
	u.coin = e.symbol
	if _, amount := u.Kind.Dim.Currency(); amount {
		u.places = uint8(math.Round(math.Log10(e.num))) + 1
	}
}

// scale is the term's factor as a ratio, raised to its power.
func (t *term) scale(power exponent) (num, den float64) {
	num, den = t.prefix.ten()
	num, den = num*t.unit.num, den*t.unit.den
	if num == den {
		return 1, 1
	}
	n := int(power.num)
	if n < 0 {
		n, num, den = -n, den, num
	}
	switch {
	case power.den == 1 && n == 1:
	case power.den == 1 && n == 2:
		num, den = num*num, den*den
	case power.den == 1 && n == 3:
		num, den = num*num*num, den*den*den
	default:
		x := float64(n) / float64(power.den)
		num, den = math.Pow(num/den, x), 1
	}
	return num, den
}

// reduce cancels what num and den share, so that a coherent unit scales by
// exactly 1 and a decimal one by a power of ten.
func reduce(num, den float64) (float64, float64) {
	switch {
	case num == den:
		return 1, 1
	case num == 1 || den == 1:
		return num, den
	case num != math.Trunc(num) || den != math.Trunc(den) || max(num, den) > 1<<53:
		if inexact := num > 1e15 || den > 1e15; inexact {
			return num / den, 1
		}
		return num, den
	}
	a, b := uint64(num), uint64(den)
	for b != 0 {
		a, b = b, a%b
	}
	return num / float64(a), den / float64(a)
}

// mark tells rotations from rates: a rotation is one angle per time, a rate is
// made of nothing but times.
func mark(d Dimension, terms []term) Mark {
	if d != perTime {
		return Neutral
	}
	angle, angles, clock := exponent{}, false, true
	for i := range terms {
		t := &terms[i]
		clock = clock && t.unit.clock
		if !t.unit.angle {
			continue
		}
		sign := 1
		if t.below {
			sign = -1
		}
		angles = true
		angle, _ = angle.plus(t.power, sign)
	}
	switch {
	case angles && angle == exponent{1, 1}:
		return Rotation
	case !angles && clock:
		return Rate
	}
	return Neutral
}
