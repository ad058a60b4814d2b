package explain

import (
	"context"
	"reflect"
	"slices"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
)

// A defaulted is a value that nobody gave, at its place among a call's arguments.
type defaulted struct {
	name string // "tolerance", "cell.tolerance"
	path []int  // the argument, and the fields in it
	of   *library.Param
}

// defaults are the values that a call took without being told, and that bear on what
// it comes to: those that do not need no watching.
func (e *explainer) defaults(x *program.Call) (list []report.Argument) {
	args := make([]any, len(x.Args))
	var taken []defaulted
	for i, a := range x.Args {
		p := &x.Func.Params[i]
		if a == nil {
			args[i] = p.Default
			taken = append(taken, defaulted{p.Name, []int{i}, p})
			continue
		}
		value, fault := e.w.Machine.Node(a)
		if fault != nil {
			return nil
		}
		args[i] = value
		if fit, ok := a.(*program.Fit); ok && !fit.Rows {
			taken = append(taken, picked(fit.Picks, p.Name, []int{i})...)
		}
	}
	base, err := answer(x, args)
	if err != nil {
		return nil
	}
	for _, d := range taken {
		if d.of.Shown != "" && bears(x, args, d, base) {
			list = append(list, report.Argument{Name: d.name, Text: d.of.Shown})
		}
	}
	return list
}

// picked are the fields of a record that were not in what was given.
func picked(picks []program.Pick, name string, path []int) (list []defaulted) {
	for i, p := range picks {
		at, name := append(slices.Clone(path), i), name+"."+p.Param.Name
		switch {
		case p.Nested != nil:
			list = append(list, picked(p.Nested, name, at)...)
		case p.Index < 0:
			list = append(list, defaulted{name, at, p.Param})
		}
	}
	return list
}

// bears reports whether another value than the default would give another answer.
func bears(x *program.Call, args []any, d defaulted, base any) bool {
	for _, other := range others(d.of) {
		moved, err := answer(x, with(args, d.path, other))
		if err == nil && !alike(x.Func.Result, d.of.Name, moved, base) {
			return true
		}
	}
	return false
}

// alike reports whether two answers are one, but for the field that only hands the
// parameter on.
func alike(shape library.Shape, handedOn string, a, b any) bool {
	x, isRecord := a.(library.Record)
	y, both := b.(library.Record)
	if !isRecord || !both {
		return reflect.DeepEqual(a, b)
	}
	for i, p := range shape.Params {
		if p.Name != handedOn && !reflect.DeepEqual(x[i], y[i]) {
			return false
		}
	}
	return true
}

// answer is what a call comes to, without what it cautions of.
func answer(x *program.Call, args []any) (any, error) {
	if x.Each {
		return nil, errEach
	}
	out, _, err := x.Func.Call(context.Background(), args)
	return out, err
}

// errEach is that a call is worked for each of a list: which one to look at is not
// known.
var errEach = eachError{}

type eachError struct{}

func (eachError) Error() string { return "worked for each of a list" }

// with is the arguments with another value at a place.
func with(args []any, path []int, value any) []any {
	out := slices.Clone(args)
	if len(path) == 1 {
		out[path[0]] = value
		return out
	}
	record, ok := out[path[0]].(library.Record)
	if !ok {
		return out
	}
	out[path[0]] = library.Record(with(record, path[1:], value))
	return out
}

// smallStep is by which share a default is moved to see whether it bears.
const smallStep = 1e-3

// others are values beside the default, within the range of the parameter.
func others(p *library.Param) (list []any) {
	switch v := p.Default.(type) {
	case bool:
		return []any{!v}
	case string:
		for _, other := range p.Shape.Values {
			if other != v {
				list = append(list, other)
			}
		}
	case float64:
		if p.Shape.Kind == library.Integer {
			return nil // a count of one is what nobody would say otherwise
		}
		moved := []float64{v * (1 + smallStep), v * (1 - smallStep)}
		if v == 0 {
			moved = []float64{smallStep, -smallStep}
		}
		for _, x := range moved {
			if p.Check(x) {
				list = append(list, x)
			}
		}
	}
	return list
}
