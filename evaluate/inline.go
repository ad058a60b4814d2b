package evaluate

import (
	"strings"

	"inkwing/evaluate/check"
	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/units"
)

// inline works the values in the prose.
func (w *worker) inline() {
	w.out.Inline = make([]Result, len(w.sheet.Inline))
	if len(w.sheet.Blocks) == 0 {
		return
	}
	for i, in := range w.sheet.Inline {
		shown, problem := w.inlineValue(in)
		w.out.Inline[i] = Result{shown}
		if problem != nil {
			w.out.Errors = append(w.out.Errors, *problem)
		}
	}
}

func (w *worker) inlineValue(in Inline) (string, *message.Diagnostic) {
	t, value, ok := w.lookup(in.Name)
	if !ok {
		return "?", w.unknownInline(in)
	}
	if t == nil {
		return "?", nil
	}
	unit, problem := inlineUnit(in, t)
	if problem != nil {
		return "?", problem
	}
	if value == nil {
		return "?", nil
	}
	shown, ok := w.show(t, value, unit, w.digits(in.Name))
	if !ok {
		return "?", &message.Diagnostic{Span: in.At, Summary: "`" + in.Name + "` is " + t.String() + ": one value is wanted here", Hint: "name one of its fields"}
	}
	return shown, nil
}

func (w *worker) unknownInline(in Inline) *message.Diagnostic {
	var names []string
	for name := range w.program.Main.Names {
		names = append(names, name)
	}
	hint := "define it in a working block, or take the bracket out if it is only prose"
	if near := message.Nearest(in.Name, names); near != "" {
		hint = "did you mean `" + near + "`?"
	}
	return &message.Diagnostic{Span: in.At, Summary: "no quantity `" + in.Name + "` here", Hint: hint}
}

// inlineUnit holds the bracket against the type.
func inlineUnit(in Inline, t check.Type) (units.Unit, *message.Diagnostic) {
	text := strings.TrimSpace(in.Unit.Text)
	q, isNumber := t.(check.Quantity)
	if !isNumber {
		if text == "text" {
			return units.Unit{}, nil
		}
		return units.Unit{}, &message.Diagnostic{Span: in.Unit.Span, Summary: "`" + in.Name + "` is " + t.String(), Hint: "write `" + in.Name + " [text] = …`"}
	}
	u, err := units.Parse(text)
	if err != nil {
		summary, hint := check.UnitSays(err)
		return u, &message.Diagnostic{Span: in.Unit.Span, Summary: summary, Hint: hint}
	}
	if u.Kind.Dim != q.Dim || q.Point != u.Kind.Point && u.String() != "K" {
		return u, &message.Diagnostic{Span: in.Unit.Span, Summary: "`" + in.Name + "` is " + q.String() + ", not " + u.Kind.String(), Hint: "show it in a unit of its own kind"}
	}
	return u, nil
}

// lookup finds a quantity or field by its name with dots. The type is nil where
// it could not be checked, the value nil where it could not be worked.
func (w *worker) lookup(name string) (check.Type, any, bool) {
	parts := strings.Split(name, ".")
	d := w.program.Main.Names[parts[0]]
	rest := parts[1:]
	if used := w.program.Main.Uses[parts[0]]; d == nil && used != nil && len(rest) > 0 {
		d, rest = used.Names[rest[0]], rest[1:]
	}
	if d == nil {
		return nil, nil, false
	}
	t, value := d.Type, w.machine.Value(d)
	for _, field := range rest {
		if t == nil {
			return nil, nil, true
		}
		record, ok := t.(*check.Record)
		if !ok {
			return nil, nil, false
		}
		i := record.Index(field)
		if i < 0 {
			return nil, nil, false
		}
		t = record.Fields[i].Type
		if value != nil {
			value = value.(library.Record)[i]
		}
	}
	if _, unknown := value.(check.Unknown); unknown {
		value = nil
	}
	return t, value, true
}
