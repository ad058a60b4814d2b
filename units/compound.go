package units

import "sync"

// A factor is a symbol to a power.
type factor struct {
	symbol string
	power  exponent
}

// ofOneName are the units with a name of their own in which a compound is written:
// V² rather than kg²·m⁴/(s⁶·A²).
var ofOneName = sync.OnceValue(func() []derived {
	var list []derived
	for _, symbol := range []string{"V", "N", "J", "W", "Ω", "F", "C", "Pa", "H", "Wb", "T"} {
		list = append(list, derived{symbol, MustParse(symbol).Kind.Dim})
	}
	return list
})

type derived struct {
	symbol string
	dim    Dimension
}

// compound writes a dimension without a usual unit: in base units, or in one
// named unit and base units where that is shorter.
func (d Dimension) compound() string {
	best := d.factors()
	cost := effort(best)
	for _, u := range ofOneName() {
		for _, p := range []exponent{{1, 1}, {-1, 1}, {2, 1}, {-2, 1}, {1, 2}, {-1, 2}} {
			part, _ := u.dim.Pow(int(p.num), int(p.den))
			rest := d.Div(part)
			if !rest.InRange() {
				continue
			}
			list := append([]factor{{u.symbol, p}}, rest.factors()...)
			if e := effort(list); e < cost {
				best, cost = list, e
			}
		}
	}
	return inFactors(best)
}

// factors are the base units of a dimension with their powers.
func (d Dimension) factors() []factor {
	var list []factor
	for i, p := range d.powers {
		if p.num != 0 {
			list = append(list, factor{baseSymbols[i], p})
		}
	}
	for _, s := range d.money {
		switch {
		case s.currency == 0:
		case s.power == exponent{1, 1}:
			list = append([]factor{{s.minor(), s.power}}, list...)
		default:
			list = append([]factor{{"(" + s.minor() + ")", s.power}}, list...)
		}
	}
	return list
}

// effort is how hard a product is to read: each symbol counts two, one more with
// a power.
func effort(list []factor) int {
	n := 2 * len(list)
	for _, f := range list {
		if f.power != (exponent{1, 1}) && f.power != (exponent{-1, 1}) {
			n++
		}
	}
	return n
}

func inFactors(list []factor) string {
	var above, below []string
	for _, f := range list {
		if f.power.num > 0 {
			above = append(above, f.symbol+f.power.String())
		} else {
			below = append(below, f.symbol+exponent{-f.power.num, f.power.den}.String())
		}
	}
	return solidus(above, below)
}
