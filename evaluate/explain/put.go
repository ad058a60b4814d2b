package explain

import (
	"slices"
	"strings"

	"inkwing/evaluate/explain/internal/equation"
	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/show"
)

// closeEnough is by which part of its greatest summand an equation may miss what the
// call came to: models that iterate end within a billionth.
const closeEnough = 1e-6

// put is the library's formula with the values of a call in the place of its letters:
// those equations of it that hold for this call, and no other, since a formula may name
// several cases. What a letter is says the function's doc comment.
func (e *explainer) put(d *program.Def, x *program.Call, c report.Call) string {
	b := e.bind(d, x, e.argumentTexts(x, c))
	if b == nil {
		return ""
	}
	return b.put()
}

// put is empty where no equation says anything of what the call came to, but only what
// letters on the way to it are.
func (b *bound) put() string {
	var parts []string
	tells := false
	for i := range b.clauses {
		if c := &b.clauses[i]; c.Holds(b.values, closeEnough) {
			parts = append(parts, c.Fill(b.texts))
			tells = tells || tellsOf(b.letters, c)
		}
	}
	if !tells {
		return ""
	}
	return strings.Join(parts, "; ")
}

// tellsOf reports whether an equation says something of what a function comes to, and not
// only what a letter on the way is.
func tellsOf(letters []library.Letter, c *equation.Clause) bool {
	is := map[string]int{}
	for _, l := range letters {
		is[l.Name] = 1
		if l.Result {
			is[l.Name] = 2
		}
	}
	if defines := c.Defines(); defines != "" && is[defines] == 0 {
		return false
	}
	return slices.ContainsFunc(c.Letters(), func(name string) bool { return is[name] == 2 })
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

// mark notes the fields whose values stand in the formula.
func mark(fields []report.Argument, letters []library.Letter) {
	shown := map[string]bool{}
	for _, l := range letters {
		shown[l.Path] = shown[l.Path] || !l.Result
	}
	for i := range fields {
		fields[i].Put = shown[fields[i].Name]
	}
}
