package equation

import (
	"fmt"
	"math"
	"slices"

	"inkwing/units"
)

// A Value is a number, or the numbers of a column, in coherent SI.
type Value struct {
	Numbers []float64
	Column  bool
	Dim     units.Dimension
}

// Number is a value that is one number.
func Number(x float64, dim units.Dimension) Value { return Value{Numbers: []float64{x}, Dim: dim} }

func (n number) value(map[string]Value) (Value, bool) { return n.exact, true }

func (l letter) value(of map[string]Value) (Value, bool) {
	if l.name == "π" {
		return Number(math.Pi, units.Dimension{}), true
	}
	v, ok := of[l.name]
	return v, ok
}

func (n negative) value(of map[string]Value) (Value, bool) {
	v, ok := n.x.value(of)
	return v.each(func(x float64) float64 { return -x }), ok
}

func (v Value) each(do func(float64) float64) Value {
	out := v
	out.Numbers = make([]float64, len(v.Numbers))
	for i, x := range v.Numbers {
		out.Numbers[i] = do(x)
	}
	return out
}

func (b binary) value(of map[string]Value) (Value, bool) {
	x, ok1 := b.x.value(of)
	y, ok2 := b.y.value(of)
	if !ok1 || !ok2 {
		return Value{}, false
	}
	dim, ok := dimension(b.op, x, y)
	if !ok {
		return Value{}, false
	}
	return together(x, y, dim, operators[b.op])
}

var operators = map[string]func(x, y float64) float64{
	"+": func(x, y float64) float64 { return x + y },
	"-": func(x, y float64) float64 { return x - y },
	"·": func(x, y float64) float64 { return x * y },
	"×": func(x, y float64) float64 { return x * y },
	"/": func(x, y float64) float64 { return x / y },
	"^": math.Pow,
}

func dimension(op string, x, y Value) (units.Dimension, bool) {
	switch op {
	case "·", "×":
		return x.Dim.Mul(y.Dim), true
	case "/":
		return x.Dim.Div(y.Dim), true
	case "^":
		return raisedTo(x.Dim, y)
	}
	return common(x, y)
}

// common is the dimension of what may be added; a bare zero may be added to anything.
func common(x, y Value) (units.Dimension, bool) {
	switch {
	case y.isZero():
		return x.Dim, true
	case x.isZero():
		return y.Dim, true
	}
	return x.Dim, x.Dim == y.Dim
}

func (v Value) isZero() bool { return !v.Column && v.Dim.IsNumber() && v.Numbers[0] == 0 }

// raisedTo is a dimension's power, which is a fraction of small numbers.
func raisedTo(dim units.Dimension, exponent Value) (units.Dimension, bool) {
	if !exponent.Dim.IsNumber() {
		return dim, false
	}
	if dim.IsNumber() {
		return dim, true
	}
	const most = 6
	for den := 1; den <= most; den++ {
		num := exponent.Numbers[0] * float64(den)
		if whole := math.Round(num); math.Abs(num-whole) < 1e-9 {
			return dim.Pow(int(whole), den)
		}
	}
	return dim, false
}

// together works row by row where there is a column.
func together(x, y Value, dim units.Dimension, do func(x, y float64) float64) (Value, bool) {
	out := Value{Column: x.Column || y.Column, Dim: dim}
	n := max(len(x.Numbers), len(y.Numbers))
	if x.Column && len(x.Numbers) != n || y.Column && len(y.Numbers) != n {
		return out, false
	}
	for i := range n {
		out.Numbers = append(out.Numbers, do(x.at(i), y.at(i)))
	}
	return out, true
}

func (v Value) at(i int) float64 {
	if v.Column {
		return v.Numbers[i]
	}
	return v.Numbers[0]
}

// functions are those of pure numbers and angles.
var functions = map[string]func(float64) float64{
	"sin": math.Sin, "cos": math.Cos, "tan": math.Tan, "asin": math.Asin, "acos": math.Acos, "atan": math.Atan,
	"arcsin": math.Asin, "arccos": math.Acos, "arctan": math.Atan, "sinh": math.Sinh, "cosh": math.Cosh,
	"ln": math.Log, "lg": math.Log10, "logₑ": math.Log, "log₁₀": math.Log10, "exp": math.Exp,
	"floor": math.Floor, "ceil": math.Ceil, "round": math.Round,
}

// overColumns are the functions of several numbers, or of all of a column.
var overColumns = []string{"min", "max"}

func (c call) value(of map[string]Value) (Value, bool) {
	args := make([]Value, len(c.args))
	for i, a := range c.args {
		var ok bool
		if args[i], ok = a.value(of); !ok {
			return Value{}, false
		}
	}
	x := args[0]
	switch {
	case c.name == "√":
		return rooted(x)
	case c.name == "|":
		return x.each(math.Abs), true
	case c.name == "Σ":
		return Number(sum(x.Numbers), x.Dim), x.Column
	case c.name == "Π":
		return Number(product(x.Numbers), x.Dim), x.Column && x.Dim.IsNumber()
	case slices.Contains(overColumns, c.name):
		return extreme(c.name, args)
	}
	return x.each(functions[c.name]), x.Dim.IsNumber() && len(args) == 1
}

func rooted(x Value) (Value, bool) {
	dim, ok := x.Dim.Pow(1, 2)
	out := x.each(math.Sqrt)
	out.Dim = dim
	return out, ok
}

func sum(list []float64) (total float64) {
	for _, x := range list {
		total += x
	}
	return total
}

func product(list []float64) float64 {
	total := 1.0
	for _, x := range list {
		total *= x
	}
	return total
}

// extreme is the least or the greatest of several numbers, row by row, or of one column.
func extreme(name string, args []Value) (Value, bool) {
	do := math.Min
	if name == "max" {
		do = math.Max
	}
	out, ok := args[0], true
	if len(args) == 1 {
		best := out.Numbers[0]
		for _, x := range out.Numbers {
			best = do(best, x)
		}
		return Number(best, out.Dim), out.Column
	}
	for _, a := range args[1:] {
		dim, same := common(out, a)
		if !same {
			return out, false
		}
		if out, ok = together(out, a, dim, do); !ok {
			return out, false
		}
	}
	return out, true
}

// String writes the numbers.
func (v Value) String() string { return fmt.Sprint(v.Numbers, " ", v.Dim.SIUnit()) }
