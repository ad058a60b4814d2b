// Package glide is the physics of the aircraft: the air it flies in, the
// airframe, gliding and turning, its motor and propeller, its balance.
//
// Everything goes in and out in coherent SI; the unit in a field's tag is the
// one a worksheet shows. The functions are plain arithmetic and keep nothing,
// so they may run side by side.
package glide

import (
	"math"

	"inkwing/evaluate/library/model"
)

// gravity is standard gravity, m/s² (SI Brochure; exact by convention).
const gravity = 9.80665

// dot puts a field's name behind the record it stands in.
func dot(record, field string) string {
	if record == "" {
		return field
	}
	return record + "." + field
}

// A bound is a value together with what it must be to have a meaning.
type bound struct {
	field string
	value float64
	unit  string
	zero  bool // zero is allowed
}

// check reports the first value that is negative, zero where it may not be, or
// no number.
func check(record string, bounds ...bound) error {
	for _, b := range bounds {
		if b.value > 0 && !math.IsInf(b.value, 0) || b.zero && b.value == 0 {
			continue
		}
		says := "{0} must be more than zero"
		if b.zero {
			says = "{0} must not be negative"
		}
		return &model.Error{Field: dot(record, b.field), Says: says,
			Values: []model.Value{{Number: b.value, Unit: b.unit}},
			Mend:   "check its sign and its unit"}
	}
	return nil
}
