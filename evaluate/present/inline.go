package present

import (
	"maps"
	"slices"
	"strings"

	"inkwing/evaluate/check"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/show"
	"inkwing/evaluate/working"
	"inkwing/units"
)

// inline presents the values in the prose, and what is wrong with them.
func inline(w *working.Evaluation) (shown []report.InlineValue, problems []message.Diagnostic) {
	shown = make([]report.InlineValue, len(w.Source.Main.Inline))
	if len(w.Source.Main.Blocks) == 0 {
		return shown, nil
	}
	known := spelling{names: slices.Sorted(maps.Keys(w.Program.Main.Names))}
	for i, in := range w.Source.Main.Inline {
		text, problem := known.inlineValue(w, in)
		shown[i] = report.InlineValue{Shown: text}
		if problem != nil && !in.IsData {
			problems = append(problems, *problem)
		}
	}
	return shown, problems
}

// A spelling is the names that an inline value may have meant.
type spelling struct {
	names   []string
	speller message.Speller
}

func (s *spelling) inlineValue(w *working.Evaluation, in sheet.Inline) (string, *message.Diagnostic) {
	d, path, ok := w.Named(in.Name)
	if !ok {
		return "?", s.unknownInline(in)
	}
	t, value, places, ok := w.Lookup(d, path)
	if !ok {
		return "?", s.unknownInline(in)
	}
	if t == nil {
		return "?", nil
	}
	unit, problem := inlineUnit(in, t)
	if problem != nil {
		return "?", problem
	}
	if value == nil || w.Fault(d) != nil {
		return "?", nil
	}
	shown, ok := show.Uncertain(t, value, w.UncertaintyOf(d, places), unit, digits(w, in.Name))
	if !ok {
		return "?", &message.Diagnostic{Span: in.At, Summary: "`" + in.Name + "` is " + t.String() + ": one value is wanted here", Hint: "name one of its fields"}
	}
	return shown, nil
}

func (s *spelling) unknownInline(in sheet.Inline) *message.Diagnostic {
	hint := "define it in a working block, or take the bracket out if it is only prose"
	if near := s.speller.Nearest(in.Name, s.names); near != "" {
		hint = "did you mean `" + near + "`?"
	}
	return &message.Diagnostic{Span: in.At, Summary: "no quantity `" + in.Name + "` here", Hint: hint}
}

// inlineUnit holds the bracket against the type.
func inlineUnit(in sheet.Inline, t program.Type) (units.Unit, *message.Diagnostic) {
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
