package generator

import (
	"fmt"
	"math"
	"math/cmplx"

	"inkwing/evaluate/library/model"
)

// A joint is how the coils of a phase hang together.
type joint struct {
	series, parallel, bridges int
	factor                    float64
}

// join splits the coils into strings.
func (in GeneratorInput) join(constant float64) (joint, error) {
	if in.Rectifiers == "each" && in.Phases == 1 {
		// Coils that stand alike, or opposite, peak together.
		bridges := in.Coils / gcd(in.Coils, in.Poles)
		return in.strings(in.Coils/bridges, bridges, 1, in.Coils/bridges)
	}
	a, err := arrange(in.Coils, in.Poles/2, in.Phases)
	if err != nil {
		return joint{}, err
	}
	bridges := 1
	if in.Rectifiers == "each" {
		bridges = 3
	}
	perPhase := in.Coils / in.Phases
	j, err := in.strings(perPhase, bridges, a.factor, perPhase)
	if err != nil || j.parallel == 1 || a.factor > 1-1e-9 {
		return j, err
	}
	if !a.splits(in.Coils, in.Poles/2, j.parallel) {
		return j, in.unlike(a, j, constant)
	}
	return j, nil
}

// strings is so many coils in strings of series.
func (in GeneratorInput) strings(coils, bridges int, factor float64, series int) (joint, error) {
	if in.Series != nil {
		series = *in.Series
	}
	if series < 1 || coils%series != 0 {
		return joint{}, &model.Error{Field: "series", Summary: fmt.Sprintf("%d like coils do not split into strings of %d", coils, series),
			Hint: "choose a number that divides them"}
	}
	return joint{series, coils / series, bridges, factor}, nil
}

// splits reports whether each phase can be split into so many like strings: each
// direction must occur in all of them alike. A coil turned over points the way
// of the one opposite, so that directions are counted in half steps.
func (a arrangement) splits(coils, polePairs, parallel int) bool {
	count := map[[2]int]int{}
	for i, sign := range a.sign {
		direction := 2 * i * polePairs
		if sign < 0 {
			direction += coils
		}
		count[[2]int{a.phase[i], direction % (2 * coils)}]++
	}
	for _, n := range count {
		if n%parallel != 0 {
			return false
		}
	}
	return true
}

// unlike is the error of strings in parallel that would drive a current round
// each other, reckoned for those two of a phase that differ most, in the order
// of the coils.
func (in GeneratorInput) unlike(a arrangement, j joint, constant float64) error {
	const rotation = 100 * math.Pi / 3 // 1000 rpm
	sums := make([]complex128, j.parallel)
	n := 0
	for i, sign := range a.sign {
		if a.phase[i] != 0 {
			continue
		}
		x := 2 * math.Pi * float64(i*in.Poles/2%in.Coils) / float64(in.Coils)
		sums[n/j.series] += cmplx.Rect(float64(sign), x)
		n++
	}
	apart := 0.0
	for _, s := range sums {
		for _, other := range sums {
			apart = max(apart, cmplx.Abs(s-other)*constant*rotation)
		}
	}
	return &model.Error{Field: "series", Summary: "the strings are unlike: in parallel they drive {0} round each other at {1}",
		Values: []model.Value{model.In(apart/(2*float64(j.series)*in.Coil.Resistance), "A"), model.In(1000, "rpm")},
		Hint:   "put all coils of a phase in series, or give rectifiers: \"each\""}
}
