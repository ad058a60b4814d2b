// Package eseries is the preferred values of IEC 60063, in which resistors and capacitors
// are made. [Around] is its one verb.
package eseries

import (
	"math"
	"slices"
)

// A decade is the values of one, from 100 to under 1000.
type decade []float64

// series are those of IEC 60063, from memory. Up to E24 they are older than their
// rule, which rounds 10^(k/n); in E192 920 stands where the rule has 919.
var series = func() map[string]decade {
	e24 := decade{100, 110, 120, 130, 150, 160, 180, 200, 220, 240, 270, 300, 330, 360, 390, 430, 470, 510, 560, 620, 680, 750, 820, 910}
	e192 := ruled(192)
	e192[slices.Index(e192, 919)] = 920
	return map[string]decade{"E3": e24.every(8), "E6": e24.every(4), "E12": e24.every(2), "E24": e24, "E48": ruled(48), "E96": ruled(96), "E192": e192}
}()

func ruled(n int) decade {
	list := make(decade, n)
	for k := range list {
		list[k] = math.Round(100 * math.Pow(10, float64(k)/float64(n)))
	}
	return list
}

func (e decade) every(n int) (list decade) {
	for k := 0; k < len(e); k += n {
		list = append(list, e[k])
	}
	return list
}

// same is by how much a value may miss one of a series and still be it.
const same = 1e-9

// Around are the values of a series at or below and at or above one above zero, in any
// decade; false if there is no such series.
func Around(name string, v float64) (down, up float64, ok bool) {
	e, ok := series[name]
	exponent := math.Floor(math.Log10(v)) - 2
	for _, k := range []float64{-1, 0, 1} {
		for _, digits := range e {
			at := scaled(digits, int(exponent+k))
			if at <= v*(1+same) {
				down = at
			}
			if at >= v*(1-same) && up == 0 {
				up = at
			}
		}
	}
	return down, up, ok
}

// scaled is digits by a power of ten, rounded once where that is exact.
func scaled(digits float64, exponent int) float64 {
	if exponent < 0 && exponent >= -22 {
		return digits / math.Pow10(-exponent)
	}
	return digits * math.Pow10(exponent)
}
