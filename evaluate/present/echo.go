package present

import (
	"slices"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/working"
)

// echoes are the numbers and words that were handed to a definition's call, by their
// names: a field of its answer that only gives one back is no result.
type echoes map[string][]any

// echoesOf collects them, from records as deep as they go.
func echoesOf(w *working.Evaluation, d *program.Def) echoes {
	e := echoes{}
	if call := called(d.Node()); call != nil {
		for i, arg := range call.Args {
			if arg != nil {
				e.argument(w, call.Func.Params[i].Name, arg)
			}
		}
	}
	return e
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

// argument adds what a parameter was given, where that is known without evaluating
// anything again.
func (e echoes) argument(w *working.Evaluation, name string, n program.Node) {
	switch x := program.Nominal(n).(type) {
	case *program.Const:
		e[name] = append(e[name], x.Value)
	case *program.Ref:
		e.value(name, x.Def.Type, w.Machine.Value(x.Def))
	case *program.Fit:
		e.argument(w, name, x.X)
	case *program.FieldOf:
		e.argument(w, name, x.X)
	case *program.Call:
		for i, arg := range x.Args {
			if arg != nil {
				e.argument(w, x.Func.Params[i].Name, arg)
			}
		}
	}
}

func (e echoes) value(name string, t program.Type, value any) {
	record, isRecord := t.(*program.Record)
	values, evaluated := value.(library.Record)
	switch {
	case isRecord && evaluated:
		for i, f := range record.Fields {
			e.value(f.Name, f.Type, values[i])
		}
	case !isRecord && isScalar(value):
		e[name] = append(e[name], value)
	}
}

func isScalar(value any) bool {
	switch value.(type) {
	case float64, bool, string:
		return true
	}
	return false
}

// has reports whether a field's value is one that was given under its name.
func (e echoes) has(name string, value any) bool {
	return isScalar(value) && slices.Contains(e[name], value)
}
