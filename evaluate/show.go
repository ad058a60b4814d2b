package evaluate

import (
	"math"
	"strings"

	"inkwing/evaluate/program"
	"inkwing/evaluate/study"
	"inkwing/units"
)

// defaultDigits is how many significant digits are shown when nothing is said.
const defaultDigits = 4

// show writes a scalar.
func (w *worker) show(t program.Type, value any, unit units.Unit, digits int) (string, bool) {
	switch v := value.(type) {
	case float64:
		if unit.IsZero() {
			unit = units.Fitting(t.(program.Quantity).Kind, v)
		}
		return units.Show(v, unit, digits), true
	case bool:
		return yesNo(v), true
	case string:
		return v, true
	}
	return "", false
}

func yesNo(v bool) string {
	if v {
		return "yes"
	}
	return "no"
}

// digits is how many a name is shown with: its own, its record's, the sheet's.
func (w *worker) digits(name string) int {
	s := w.program.Main
	for {
		if n, ok := s.DigitsOf[name]; ok {
			return n
		}
		i := strings.LastIndexByte(name, '.')
		if i < 0 {
			break
		}
		name = name[:i]
	}
	if s.Digits > 0 {
		return s.Digits
	}
	return defaultDigits
}

// showSpread writes a scalar, a number with its expanded uncertainty if it has
// one.
func (w *worker) showSpread(t program.Type, value any, s study.Spread, unit units.Unit, digits int) (string, bool) {
	x, isNumber := value.(float64)
	if !isNumber || s.Expanded == 0 && !s.Drawn {
		return w.show(t, value, unit, digits)
	}
	if unit.IsZero() {
		unit = units.FittingSpread(t.(program.Quantity).Kind, x, s.Expanded)
	}
	if s.Drawn {
		return units.ShowInterval(s.Mean, s.Low, s.High, unit), true
	}
	return units.ShowSpread(x, s.Expanded, unit), true
}

// shownUnit is the unit in which the builder sees a quantity or field, the zero
// unit where a fitting one is chosen.
func shownUnit(n program.Node) units.Unit {
	switch x := n.(type) {
	case *program.Ref:
		return x.Def.Written()
	case *program.FieldOf:
		return x.X.Type().(*program.Record).Fields[x.Index].Unit
	}
	return units.Unit{}
}

// fittingAll is a unit for a whole column, by its greatest number.
func fittingAll(t program.Type, column []any) units.Unit {
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

// shownIn is the unit that the builder gave a quantity or wrote a number in.
func shownIn(n program.Node) units.Unit {
	switch x := program.Nominal(n).(type) {
	case *program.Ref:
		return x.Def.Written()
	case *program.Const:
		return x.Unit
	}
	return units.Unit{}
}

// readable is the unit in which a builder wrote something, or a fitting one where
// that makes a number too small or large to be read beside others.
func readable(x float64, unit units.Unit, kind units.Kind) units.Unit {
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

// writtenUnit is the unit in which the builder wrote one of the sides, so that
// both are shown in it; the zero unit where neither is written out.
func writtenUnit(operands []program.Node) units.Unit {
	for _, n := range operands {
		if k, ok := program.Nominal(n).(*program.Const); ok && !k.Unit.IsZero() {
			return k.Unit
		}
	}
	return units.Unit{}
}
