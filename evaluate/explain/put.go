package explain

import (
	"strings"
	"unicode"

	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/show"
)

// put is the library's formula with the values of a call in the place of its letters;
// empty where none has a value. What a letter is says the function's doc comment.
func (e *explainer) put(x *program.Call, c report.Call) string {
	values := e.argumentTexts(x, c)
	letters := map[string]string{}
	for name, path := range x.Func.Doc.LetterPaths() {
		if text := values[path]; text != "" {
			letters[name] = text
		}
	}
	return putIn(x.Func.Doc.Formula, letters)
}

// argumentTexts are those of a call's arguments, of the fields that it reads of records, and
// of what was left to a default.
func (e *explainer) argumentTexts(x *program.Call, c report.Call) map[string]string {
	values := map[string]string{}
	for i, a := range x.Args {
		p := x.Func.Params[i]
		switch {
		case a == nil:
			values[p.Name] = p.Shown
		case written(a):
			if k, ok := program.Nominal(a).(*program.Const); ok {
				values[p.Name], _ = show.Value(k.Type(), k.Value, k.Unit, e.digits())
			}
		}
	}
	for _, a := range append(append([]report.Argument{}, c.Arguments...), c.Fields...) {
		if a.Shown != "" {
			values[a.Name] = a.Shown
		}
	}
	for _, a := range c.Defaults {
		values[a.Name] = a.Text
	}
	return values
}

// putIn puts values in the place of whole letters: C1 is one, and no C before a 1.
func putIn(formula string, letters map[string]string) string {
	var out strings.Builder
	found := false
	text := []rune(formula)
	for i := 0; i < len(text); {
		end := i
		for end < len(text) && ofLetter(text[end]) {
			end++
		}
		value, is := letters[string(text[i:end])]
		switch {
		case end == i:
			out.WriteRune(text[i])
			end++
		case is && !isNamed(text, end):
			found = true
			out.WriteString(bracketed(value, text, i, end))
		default:
			out.WriteString(string(text[i:end]))
		}
		i = end
	}
	if !found {
		return ""
	}
	return out.String()
}

// ofLetter reports whether a rune is part of what stands for a quantity.
func ofLetter(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsDigit(r) || r == '_' || '₀' <= r && r <= '₉'
}

// isNamed reports whether what ends there is the left side of an equation, which is
// what the formula is for, or stands as a function of something: C(V).
func isNamed(text []rune, end int) bool {
	rest := string(text[end:])
	return strings.HasPrefix(strings.TrimLeft(rest, " "), "=") || strings.HasPrefix(rest, "(")
}

// bracketed is a value in brackets where its unit would be read with what stands beside
// it: below a line, or under a power.
func bracketed(value string, text []rune, start, end int) string {
	below := start > 0 && (text[start-1] == '/' || text[start-1] == '√')
	raised := end < len(text) && strings.ContainsRune("^²³⁴⁵½", text[end])
	if strings.Contains(value, " ") && (below || raised) || raised && strings.HasPrefix(value, "-") {
		return "(" + value + ")"
	}
	return value
}

// mark notes the fields whose values stand in the formula.
func mark(fields []report.Argument, put map[string]string) {
	shown := map[string]bool{}
	for _, path := range put {
		shown[path] = true
	}
	for i := range fields {
		fields[i].Put = shown[fields[i].Name]
	}
}
