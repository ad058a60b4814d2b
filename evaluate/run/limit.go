package run

import (
	"math"
	"slices"

	"inkwing/evaluate/library"
)

// Rounding is what binary arithmetic may take from a bound that is met exactly:
// 3 * 2.7 V is a little more than 8.1 V. Far below what any bench can read.
const Rounding = 1e-12

// Keeps reports whether a worked value keeps to what is allowed.
func Keeps(op string, worked, allowed any) bool {
	a, okA := worked.(float64)
	b, okB := allowed.(float64)
	switch {
	case op == "==":
		return worked == allowed
	case op == "!=":
		return worked != allowed
	case !okA || !okB:
		return false
	}
	slack := Rounding * math.Abs(b)
	switch op {
	case "<":
		return a < b
	case ">":
		return a > b
	case "<=":
		return a <= b+slack
	}
	return a >= b-slack
}

// Holds reports whether a limit holds, its operands as they were worked. The
// rounding is that of what is allowed: the outer ones of two comparisons. One that
// does not arise holds.
func Holds(ops []string, operands library.List) bool {
	if !Arises(operands) {
		return true
	}
	if len(ops) == 2 && !Keeps(Turned(ops[0]), operands[1], operands[0]) {
		return false
	}
	last := len(ops) - 1
	return Keeps(ops[last], operands[last], operands[last+1])
}

// Arises reports whether all that a limit speaks of is reached.
func Arises(operands library.List) bool {
	return !slices.Contains(operands, any(library.Never{}))
}

// Turned is a comparison read from the other side.
func Turned(op string) string {
	switch op {
	case "<":
		return ">"
	case "<=":
		return ">="
	case ">":
		return "<"
	case ">=":
		return "<="
	}
	return op
}
