package evaluate

import (
	"strings"

	"inkwing/evaluate/check"
	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/units"
)

// inline works the values in the prose.
func (w *worker) inline() {
	w.out.Inline = make([]report.InlineValue, len(w.sheet.Inline))
	if len(w.sheet.Blocks) == 0 {
		return
	}
	for i, in := range w.sheet.Inline {
		shown, problem := w.inlineValue(in)
		w.out.Inline[i] = report.InlineValue{Shown: shown}
		if problem != nil {
			w.out.Errors = append(w.out.Errors, *problem)
		}
	}
}

func (w *worker) inlineValue(in Inline) (string, *message.Diagnostic) {
	d, path, ok := w.named(in.Name)
	if !ok {
		return "?", w.unknownInline(in)
	}
	t, value, places, ok := w.lookup(d, path)
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
	if value == nil || w.fault(d) != nil {
		return "?", nil
	}
	shown, ok := w.showSpread(t, value, w.spread(d, places), unit, w.digits(in.Name))
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
func inlineUnit(in Inline, t program.Type) (units.Unit, *message.Diagnostic) {
	text := strings.TrimSpace(in.Unit.Text)
	q, isNumber := t.(program.Quantity)
	if !isNumber {
		if text == "text" {
			return units.Unit{}, nil
		}
		hint := "write `" + in.Name + " [text] = …`"
		if _, isTable := t.(*program.Table); isTable {
			hint = "one value is wanted here: define a quantity that takes it from the table"
		}
		return units.Unit{}, &message.Diagnostic{Span: in.Unit.Span, Summary: "`" + in.Name + "` is " + t.String(), Hint: hint}
	}
	u, err := units.Parse(text)
	if err != nil {
		summary, hint := check.UnitError(err)
		return u, &message.Diagnostic{Span: in.Unit.Span, Summary: summary, Hint: hint}
	}
	if u.Kind.Dim != q.Dim || q.Point != u.Kind.Point && u.String() != "K" {
		return u, &message.Diagnostic{Span: in.Unit.Span, Summary: "`" + in.Name + "` is " + q.String() + ", not " + u.Kind.String(), Hint: "show it in a unit of its own kind"}
	}
	return u, nil
}

// named finds the definition that a name with dots begins with, and the fields
// behind it.
func (w *worker) named(name string) (d *program.Def, fields []string, ok bool) {
	parts := strings.Split(name, ".")
	d, fields = w.program.Main.Names[parts[0]], parts[1:]
	if used := w.program.Main.Uses[parts[0]]; d == nil && used != nil && len(fields) > 0 {
		d, fields = used.Names[fields[0]], fields[1:]
	}
	return d, fields, d != nil
}

// lookup follows fields into what a definition came to. The type is nil where
// it could not be checked, the value nil where it could not be worked; path is
// the places of the fields.
func (w *worker) lookup(d *program.Def, fields []string) (t program.Type, value any, path []int, ok bool) {
	t, value = d.Type, w.machine.Value(d)
	for _, field := range fields {
		if t == nil {
			return nil, nil, nil, true
		}
		record, ok := t.(*program.Record)
		if !ok {
			return nil, nil, nil, false
		}
		i := record.Index(field)
		if i < 0 {
			return nil, nil, nil, false
		}
		t, path = record.Fields[i].Type, append(path, i)
		if value != nil {
			value = value.(library.Record)[i]
		}
	}
	if _, unknown := value.(program.Unknown); unknown {
		value = nil
	}
	return t, value, path, true
}
