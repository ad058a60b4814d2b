package page

import (
	"html"
	"slices"
	"strings"
	"sync"

	"inkwing/evaluate/explain"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet/formula"
)

// wholeCall is the call of a model that an expression is, with the field that is
// picked from its result; nil where it is something else.
func (l *lineWriter) wholeCall(x syntax.Expr) (call *explain.LineCall, field string) {
	for {
		switch y := x.(type) {
		case *syntax.Paren:
			x = y.X
			continue
		case *syntax.Field:
			if field == "" {
				field = y.Name.Name
				x = y.X
				continue
			}
		case *syntax.Call:
			for i := range l.Calls {
				if l.Calls[i].Span == y.Span && l.Calls[i].Topic != arithmetic {
					return &l.Calls[i], field
				}
			}
		}
		return nil, ""
	}
}

// card is a call of the library in its own words: what it does, what was given to
// it, what came out; its formula, range and source behind a disclosure.
func (l *lineWriter) card(d *syntax.Definition, call *explain.LineCall, field string) {
	name := d.Name.Name
	head := formula.Math(formula.Name(name))
	if len(l.quantities[name]) == 1 && !l.isRecord(name) {
		head = formula.Math(formula.Name(name), formula.Equals(), formula.Value(l.result(name)))
	}
	if len(l.quantities[name]) == 0 && l.Step != nil && l.Step.State == report.Evaluated {
		head += `<span class="text"> = ` + formula.Text(l.Step.Shown) + "</span>"
	}
	head += l.was(name)
	does := says(call.Name, call.Doc.Summary)
	if field != "" {
		does = "<b>" + words(field) + "</b> of: " + does
	}
	l.out.WriteString(`<div class="line card" id="` + l.anchor(name) + `"><p class="head"><span class="name">` + head + `</span><span class="does">` + does + "</span></p>" + note(d.Note))
	l.out.WriteString(l.worked(name, call) + l.given(call) + l.waits() + `<div class="more-of">` + l.others(name, call) + l.modelOf(call) + l.where() + "</div></div>")
}

// says is a function's first sentence with its name in words.
func says(name, summary string) string {
	rest, found := strings.CutPrefix(summary, name)
	if !found {
		return html.EscapeString(summary)
	}
	return `<b>` + words(name) + "</b>" + html.EscapeString(rest)
}

// words is a name as a text has it.
func words(name string) string { return html.EscapeString(strings.ReplaceAll(name, "_", " ")) }

// given is what was given to a call: pairs of a label and a value that flow. Lines
// break between them, at the blank that ends each value.
func (l *lineWriter) given(call *explain.LineCall) string {
	if len(call.Arguments) == 0 {
		return ""
	}
	var out strings.Builder
	out.WriteString(`<dl class="pairs given">`)
	told := l.ids["m-"+call.Name] > 0 // what the labels mean stands at the first call
	for _, a := range call.Arguments {
		title := ""
		if !told && a.Help != "" {
			title = ` title="` + html.EscapeString(a.Help) + `"`
		}
		out.WriteString("<dt" + title + ">" + words(a.Name) + "</dt><dd" + l.reach(a.At) + ">" + l.argument(a) + " </dd>")
	}
	out.WriteString("</dl>")
	return out.String()
}

// argument is a value, a link to the record that was given, or what was typed.
func (l *lineWriter) argument(a explain.LineArgument) string {
	name, _, _ := strings.Cut(a.Text, ".")
	switch {
	case a.Shown != "" && l.anchors[name]:
		return `<a href="` + l.ref(name) + `">` + formula.Text(a.Shown) + "</a>"
	case a.Shown != "":
		return formula.Text(a.Shown)
	case l.anchors[name]:
		return `<a href="` + l.ref(name) + `">` + words(a.Text) + "</a>"
	case len(a.Calls) > 0:
		return l.nested(a)
	}
	return "<code>" + html.EscapeString(a.Text) + "</code>"
}

// nested is calls inside an argument, each with its own pairs.
func (l *lineWriter) nested(a explain.LineArgument) string {
	var out strings.Builder
	for i, c := range a.Calls {
		if i > 0 {
			out.WriteString(`<span class="and">; </span>`)
		}
		out.WriteString(`<span class="nested">` + words(c.Name) + ":")
		for k, arg := range c.Arguments {
			if k > 0 {
				out.WriteString(",")
			}
			out.WriteString(" " + words(arg.Name) + "\u00a0" + l.within(arg))
		}
		out.WriteString("</span>")
	}
	return out.String()
}

// within is an argument of a call inside another.
func (l *lineWriter) within(a explain.LineArgument) string {
	if mark := l.reach(a.At); mark != "" {
		return "<span" + mark + ">" + l.argument(a) + "</span>"
	}
	return l.argument(a)
}

// worked are a result's fields worth reading first, but for those that were given.
func (l *lineWriter) worked(name string, call *explain.LineCall) string {
	pairs, _ := l.fieldsOf(name, func(field string, q *report.Quantity) bool { return q.Headline && !isGiven(call, field, q) })
	return pairs
}

// others are the rest of a result's fields, behind a disclosure.
func (l *lineWriter) others(name string, call *explain.LineCall) string {
	if l.Short {
		return ""
	}
	pairs, count := l.fieldsOf(name, func(field string, q *report.Quantity) bool { return !q.Headline && !isGiven(call, field, q) })
	if count == 0 {
		return ""
	}
	return `<details class="rest"><summary>` + counted(count, "more result", "more results") + "</summary>" + pairs + "</details>"
}

func isGiven(call *explain.LineCall, field string, q *report.Quantity) bool {
	return slices.ContainsFunc(call.Arguments, func(a explain.LineArgument) bool { return a.Name == field && a.Shown == q.Shown })
}

// fields are all of a part's.
func (l *lineWriter) fields(name string) string {
	pairs, _ := l.fieldsOf(name, func(string, *report.Quantity) bool { return true })
	return pairs
}

func (l *lineWriter) fieldsOf(name string, wanted func(string, *report.Quantity) bool) (pairs string, count int) {
	var out strings.Builder
	for _, q := range l.quantities[name] {
		field, ok := strings.CutPrefix(q.Name, name+".")
		if !ok || !wanted(field, q) {
			continue
		}
		count++
		out.WriteString("<dt>" + words(strings.ReplaceAll(field, ".", " ")) + "</dt><dd>" + formula.Text(q.Shown) + l.was(q.Name) + " </dd>")
	}
	if count == 0 {
		return "", 0
	}
	return `<dl class="pairs worked">` + out.String() + "</dl>", count
}

// clausesKept are the formulas of the library as they were set, by their texts: a page
// that is laid out again and again reads no doc comment twice.
var clausesKept sync.Map

// clauses are the parts of a formula line of the library, one below another.
func clauses(text string) string {
	if set, ok := clausesKept.Load(text); ok {
		return set.(string)
	}
	set := setClauses(text)
	clausesKept.Store(text, set)
	return set
}

func setClauses(text string) string {
	var out strings.Builder
	for _, c := range formula.Clauses(text) {
		if widest(c) > phone {
			out.WriteString(`<span class="clause" tabindex="0" role="group" aria-label="formula">` + c + "</span>")
			continue
		}
		out.WriteString(`<span class="clause">` + c + "</span>")
	}
	return out.String()
}

// widest is about how many characters the widest formula of a clause takes; the words
// round it break.
func widest(clause string) (width int) {
	for _, part := range strings.Split(clause, "<math>")[1:] {
		ml, _, _ := strings.Cut(part, "</math>")
		width = max(width, formula.Width(ml))
	}
	return width
}

// modelOf is what a function works by, where that holds, and where it comes from. It
// is told once on a page.
func (m *maker) modelOf(c *explain.LineCall) string {
	if m.Short {
		return ""
	}
	if m.ids["m-"+c.Name] > 0 {
		return `<a class="again" href="#` + m.Prefix + "m-" + c.Name + `">formula and source</a>`
	}
	id := m.id("m-" + c.Name)
	part := func(title, text string) string {
		if text == "" || text == clauses("none.") {
			return ""
		}
		return "<dt>" + title + "</dt><dd>" + text + "</dd>"
	}
	return `<details class="model"><summary>formula and source</summary><dl id="` + id + `">` + part("Formula", clauses(c.Doc.Formula)) +
		part("Holds for", html.EscapeString(c.Doc.Validity)) + part("Source", html.EscapeString(c.Doc.Source)) + "</dl></details>"
}
