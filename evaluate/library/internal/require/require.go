// Package require refuses inputs for which a model has no meaning, each with
// the one text that all topics use for it.
//
// [All] and [In] take what the others answer: they are the error of the first
// input that is refused, or nil. NaN and infinities are refused everywhere.
// Values are in coherent SI, and the unit beside each is the SI unit.
package require

import (
	"errors"
	"math"

	"inkwing/evaluate/library/model"
)

// All is the first error that there is.
func All(list ...error) error {
	for _, err := range list {
		if err != nil {
			return err
		}
	}
	return nil
}

// In is the first error that there is, about a field of a record. The record
// has no name where its fields are the inputs themselves.
func In(record string, list ...error) error {
	err := All(list...)
	var e *model.Error
	if record == "" || !errors.As(err, &e) {
		return err
	}
	moved := *e
	moved.Field = Field(record, e.Field)
	return &moved
}

// Field names a field of a record, in the language's way.
func Field(record, field string) string {
	if record == "" || field == "" {
		return record + field
	}
	return record + "." + field
}

// Positive wants a value above zero.
func Positive(field string, v float64, unit string) error {
	if v > 0 && !math.IsInf(v, 0) {
		return nil
	}
	return refused(field, "is {0}, and must be above zero", "check its sign and its unit", v, unit)
}

// NotNegative wants zero or a value above it.
func NotNegative(field string, v float64, unit string) error {
	if v >= 0 && !math.IsInf(v, 0) {
		return nil
	}
	return refused(field, "is {0}, and must not be below zero", "check its sign and its unit", v, unit)
}

// Share wants a share of the whole that is not the whole.
func Share(field string, v float64) error {
	if v >= 0 && v < 1 {
		return nil
	}
	return refused(field, "is {0}, and must lie from 0 % to under 100 %", "give a share of the whole, such as 20 %", 100*v, "%")
}

// Efficiency wants a share of the whole that is not nothing.
func Efficiency(field string, v float64) error {
	if v > 0 && v <= 1 {
		return nil
	}
	return refused(field, "is {0}, and must lie above 0 % and up to 100 %", "give a share of the whole, such as 60 %", 100*v, "%")
}

// Count wants one thing at least.
func Count(field string, n int) error {
	if n >= 1 {
		return nil
	}
	return refused(field, "is {0}, and must be at least 1", "give a whole number from 1", float64(n), "1")
}

// NotFalling refuses a voltage that should fall; the field is the start's.
func NotFalling(field string, from, to float64) error {
	return &model.Error{
		Field: field, Summary: "starts at {0} and ends at {1}, which is no fall",
		Values: []model.Value{{Number: from, Unit: "V"}, {Number: to, Unit: "V"}}, Hint: "let the start lie above the end",
	}
}

func refused(field, summary, hint string, v float64, unit string) error {
	return &model.Error{Field: field, Summary: summary, Values: []model.Value{{Number: v, Unit: unit}}, Hint: hint}
}
