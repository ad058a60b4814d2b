package show

import (
	"math"

	"inkwing/evaluate/program"
	"inkwing/units"
)

// UnitOf is the unit in which the builder sees a quantity or field, the zero
// unit where a fitting one is chosen.
func UnitOf(n program.Node) units.Unit {
	switch x := n.(type) {
	case *program.Ref:
		return x.Def.Written()
	case *program.FieldOf:
		return x.X.Type().(*program.Record).Fields[x.Index].Unit
	}
	return units.Unit{}
}

// FittingUnit is a unit for a whole column, by its greatest number.
func FittingUnit(t program.Type, column []any) units.Unit {
	q, isNumber := t.(program.Quantity)
	if !isNumber {
		return units.Unit{}
	}
	greatest := 0.0
	for _, v := range column {
		if x, ok := v.(float64); ok && math.Abs(x) > math.Abs(greatest) {
			greatest = x
		}
	}
	return units.Fitting(q.Kind, greatest)
}

// WrittenUnit is the unit that the builder gave a quantity or wrote a number in.
func WrittenUnit(n program.Node) units.Unit {
	switch x := program.Nominal(n).(type) {
	case *program.Ref:
		return x.Def.Written()
	case *program.Const:
		return x.Unit
	}
	return units.Unit{}
}

// ReadableUnit is the unit in which a builder wrote something, or a fitting one where
// that makes a number too small or large to be read beside others.
func ReadableUnit(x float64, unit units.Unit, kind units.Kind) units.Unit {
	const least, most = 1e-3, 1e5
	if unit.IsZero() || kind.Point { // 0.25 °C would be read as a temperature
		kind.Point = false
		return units.Fitting(kind, x)
	}
	unit = unit.Difference()
	if size := math.Abs(unit.FromSI(x)); size != 0 && (size < least || size >= most) {
		return units.Fitting(kind, x)
	}
	return unit
}

// EitherUnit is the unit in which the builder wrote one of the sides, so that
// both are shown in it; the zero unit where neither is written out.
func EitherUnit(operands []program.Node) units.Unit {
	for _, n := range operands {
		if k, ok := program.Nominal(n).(*program.Const); ok && !k.Unit.IsZero() {
			return k.Unit
		}
	}
	for _, n := range operands {
		if u := program.LastingUnit(n); !u.IsZero() {
			return u
		}
	}
	return units.Unit{}
}
