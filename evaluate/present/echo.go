package present

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/working"
)

// An echo is a number or word that was handed to a definition's call, or stands in a
// record that was, by its name: a field of its answer that only gives one back is no result.
type echo struct {
	w     *working.Evaluation
	name  string
	value any
}

// echoes reports whether what the call of a definition was given holds a value under a name.
func echoes(w *working.Evaluation, d *program.Def, name string, value any) bool {
	if call := called(d.Node()); call != nil && isScalar(value) {
		return echo{w, name, value}.in(call)
	}
	return false
}

// called is the call that a node is.
func called(n program.Node) *program.Call {
	switch x := n.(type) {
	case *program.Call:
		return x
	case *program.UncertainCall:
		return x.X
	}
	return nil
}

func (e echo) in(call *program.Call) bool {
	for i, arg := range call.Args {
		if arg != nil && e.given(call.Func.Params[i].Name, arg) {
			return true
		}
	}
	return false
}

// given reports whether a parameter was given it, where that is known without evaluating
// anything again.
func (e echo) given(name string, n program.Node) bool {
	switch x := program.Nominal(n).(type) {
	case *program.Const:
		return name == e.name && x.Value == e.value
	case *program.Ref:
		return e.held(name, x.Def.Type, e.w.Machine.Value(x.Def))
	case *program.Fit:
		return e.given(name, x.X)
	case *program.FieldOf:
		return e.given(name, x.X)
	case *program.Call:
		return e.in(x)
	}
	return false
}

// held reports whether a value under a name is it, or a record that holds it.
func (e echo) held(name string, t program.Type, value any) bool {
	record, isRecord := t.(*program.Record)
	if !isRecord {
		return name == e.name && isScalar(value) && value == e.value
	}
	values, evaluated := value.(library.Record)
	if !evaluated {
		return false
	}
	for i, f := range record.Fields {
		if e.held(f.Name, f.Type, values[i]) {
			return true
		}
	}
	return false
}

func isScalar(value any) bool {
	switch value.(type) {
	case float64, bool, string:
		return true
	}
	return false
}
