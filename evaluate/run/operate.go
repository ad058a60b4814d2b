package run

import (
	"fmt"
	"math"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/units"
)

// operate works an operator, element by element where an argument is a list.
func (m *Machine) operate(x *program.Op) (any, *Fault) {
	if isArithmetic(x) {
		v, f := m.number(x)
		if f != nil {
			return nil, f
		}
		return v, nil
	}
	switch x.Name {
	case "and", "or":
		if _, list := x.Type().(program.List); !list {
			return m.shortcut(x)
		}
	}
	args := make([]any, len(x.Args))
	for i, a := range x.Args {
		v, f := m.value(a)
		if f != nil {
			return nil, f
		}
		args[i] = v
	}
	if _, list := x.Type().(program.List); list && x.Name != "same" {
		return m.each(x, args)
	}
	return apply(x, args)
}

// isArithmetic reports whether an operator makes a single number.
func isArithmetic(x *program.Op) bool {
	_, isNumber := x.Type().(program.Quantity)
	return isNumber && x.Name != "same"
}

// number works a single number without boxing what stands between: several
// times faster than value on long expressions.
func (m *Machine) number(n program.Node) (float64, *Fault) {
	x, ok := n.(*program.Op)
	if !ok || !isArithmetic(x) {
		v, f := m.value(n)
		if f != nil {
			return 0, f
		}
		return v.(float64), nil
	}
	if f := m.spend(1, n); f != nil {
		return 0, f
	}
	a, f := m.number(x.Args[0])
	if f != nil {
		return 0, f
	}
	if x.Name == "neg" {
		return -a, nil
	}
	b, f := m.number(x.Args[1])
	if f != nil {
		return 0, f
	}
	return arithmetic(x, a, b)
}

// shortcut works the right side of and, or only if it matters.
func (m *Machine) shortcut(x *program.Op) (any, *Fault) {
	left, f := m.value(x.Args[0])
	if f != nil || left.(bool) == (x.Name == "or") {
		return left, f
	}
	return m.value(x.Args[1])
}

// each works an operator element by element.
func (m *Machine) each(x *program.Op, args []any) (any, *Fault) {
	n := -1
	for _, a := range args {
		list, ok := a.(library.List)
		if ok && n >= 0 && len(list) != n {
			return nil, Fail(x.At, fmt.Sprintf("one list has %d values, the other %d", n, len(list)), "lists are taken element by element and must be of one length")
		}
		if ok {
			n = len(list)
		}
	}
	if f := m.spend(n, x); f != nil {
		return nil, f
	}
	out := make(library.List, n)
	one := make([]any, len(args))
	for i := range out {
		for k, a := range args {
			one[k] = a
			if list, ok := a.(library.List); ok {
				one[k] = list[i]
			}
		}
		v, f := apply(x, one)
		if f != nil {
			return nil, f
		}
		out[i] = v
	}
	return out, nil
}

// apply works an operator on single values.
func apply(x *program.Op, args []any) (any, *Fault) {
	switch x.Name {
	case "same":
		return args[0], nil
	case "not":
		return !args[0].(bool), nil
	case "and":
		return args[0].(bool) && args[1].(bool), nil
	case "or":
		return args[0].(bool) || args[1].(bool), nil
	case "==":
		return args[0] == args[1], nil
	case "!=":
		return args[0] != args[1], nil
	}
	a := args[0].(float64)
	if x.Name == "neg" {
		return -a, nil
	}
	b := args[1].(float64)
	switch x.Name {
	case "<":
		return a < b, nil
	case "<=":
		return a <= b, nil
	case ">":
		return a > b, nil
	case ">=":
		return a >= b, nil
	}
	v, f := arithmetic(x, a, b)
	if f != nil {
		return nil, f
	}
	return v, nil
}

// arithmetic refuses every result that is no number, at the operation.
func arithmetic(x *program.Op, a, b float64) (float64, *Fault) {
	var v float64
	switch x.Name {
	case "+":
		v = a + b
	case "-":
		v = a - b
	case "*":
		v = a * b
	case "/":
		if b == 0 {
			return 0, Fail(x.Args[1].Place(), "this is zero, and the line divides by it", "see that it cannot be zero, or ask first: `if … then … else …`")
		}
		v = a / b
	case "^":
		v = math.Pow(a, b)
	}
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, noNumber(x, a, b)
	}
	return v, nil
}

func noNumber(x *program.Op, a, b float64) *Fault {
	if x.Name == "^" && a < 0 {
		return Fail(x.Place(), "a negative number has no such power", "only whole exponents take one")
	}
	if x.Name == "^" && a == 0 {
		return Fail(x.Place(), "zero has no negative power", "see that it cannot be zero")
	}
	return Fail(x.Place(), "this is too large to work with: "+units.Number(a, 4)+" "+x.Name+" "+units.Number(b, 4)+" in SI units", "look at the units and exponents")
}
