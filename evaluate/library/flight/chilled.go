package flight

import (
	"errors"

	"inkwing/evaluate/library/internal/twobranch"
	"inkwing/evaluate/library/model"
)

// chilled is the pack as cold as it is today, by what sheets commonly say.
func (in FieldCardInput) chilled() (FlightStore, error) {
	s, kelvin := in.Store, in.PackTemperature
	if kelvin == nil {
		kelvin = in.Temperature
	}
	if kelvin == nil {
		return s, nil
	}
	more, less, err := twobranch.SheetFrost.At(*kelvin)
	if err != nil {
		if in.PackTemperature != nil {
			return s, renamed(err, "pack_temperature")
		}
		return s, err
	}
	s.Resistance *= more
	s.Capacitance *= less
	s.Fields = s.Chilled(more, less)
	return s, nil
}

// renamed is an error about another input.
func renamed(err error, field string) error {
	var e *model.Error
	if !errors.As(err, &e) {
		return err
	}
	moved := *e
	moved.Field = field
	return &moved
}
