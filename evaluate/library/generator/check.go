package generator

import "inkwing/evaluate/library/model"

const (
	zeroCelsius = 273.15
	roomKelvin  = zeroCelsius + 20
	mu0         = 1.25663706127e-6 // H/m, CODATA 2022
)

// A given names an input in the language's terms, for a message about it.
type given struct {
	field string
	value float64
}

// positive is the error of the first input that is not above zero, NaN included.
func positive(list ...given) error {
	for _, g := range list {
		if !(g.value > 0) {
			return &model.Error{Field: g.field, Says: "must be above zero", Mend: "give it a positive value"}
		}
	}
	return nil
}

// notNegative is the error of the first input below zero, NaN included.
func notNegative(list ...given) error {
	for _, g := range list {
		if !(g.value >= 0) {
			return &model.Error{Field: g.field, Says: "must not be below zero", Mend: "give it a value of zero or more"}
		}
	}
	return nil
}

// ptr is the value of an optional input, or what stands for it.
func ptr(p *float64, otherwise float64) float64 {
	if p == nil {
		return otherwise
	}
	return *p
}
