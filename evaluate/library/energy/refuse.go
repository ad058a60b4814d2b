package energy

import "inkwing/evaluate/library/model"

func value(number float64, unit string) model.Value { return model.Value{Number: number, Unit: unit} }

// notAbove refuses a value that must be above zero.
func notAbove(field string, got float64, unit string) error {
	return &model.Error{
		Field:  field,
		Says:   "is {0}, and must be above zero",
		Values: []model.Value{value(got, unit)},
		Mend:   "Give a value above zero.",
	}
}

// below refuses a value that must not be below zero.
func below(field string, got float64, unit string) error {
	return &model.Error{
		Field:  field,
		Says:   "is {0}, and must not be below zero",
		Values: []model.Value{value(got, unit)},
		Mend:   "Give zero or a value above it.",
	}
}

// share refuses a share of the whole that is not from 0 to under 100 %.
func share(field string, got float64) error {
	return &model.Error{
		Field:  field,
		Says:   "is {0}, and must lie from 0 % to under 100 %",
		Values: []model.Value{value(100*got, "%")},
		Mend:   "Give a share of the whole, such as 20 %.",
	}
}

// notFalling refuses a fall of voltage that does not fall.
func notFalling(field string, from, to float64) error {
	return &model.Error{
		Field:  field,
		Says:   "starts at {0} and ends at {1}, which is no fall",
		Values: []model.Value{value(from, "V"), value(to, "V")},
		Mend:   "Let the start lie above the end.",
	}
}

// need gives the first of the errors that there is.
func need(list ...error) error {
	for _, err := range list {
		if err != nil {
			return err
		}
	}
	return nil
}

// above and least refuse at need.
func above(field string, got float64, unit string) error {
	if got > 0 {
		return nil
	}
	return notAbove(field, got, unit)
}

func least(field string, got float64, unit string) error {
	if got >= 0 {
		return nil
	}
	return below(field, got, unit)
}
