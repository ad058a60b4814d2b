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
	l.out.put(`<div class="line card" id="`, l.anchor(name), `"><p class="head"><span class="name">`)
	l.cardHead(name)
	l.out.put(`</span><span class="does">`)
	if field != "" {
		l.out.put("<b>", words(field), "</b> of: ")
	}
	l.out.put(says(call.Name, call.Doc.Summary), "</span></p>", note(d.Note))
	l.worked(name, call)
	l.given(call)
	l.waits()
	l.out.put(`<div class="more-of">`)
	l.others(name, call)
	l.modelOf(call)
	l.where()
	l.out.put("</div></div>")
}

// cardHead is what a card is of, with its value where that is one.
func (l *lineWriter) cardHead(name string) {
	count := len(l.quantities[name])
	if count == 1 && !l.isRecord(name) {
		l.out.put(formula.Math(formula.Name(name), formula.Equals(), formula.Value(l.result(name))))
	} else {
		l.out.put(formula.Math(formula.Name(name)))
	}
	if count == 0 && l.Step != nil && l.Step.State == report.Evaluated {
		l.out.put(`<span class="text"> = `)
		l.out.text(l.Step.Shown)
		l.out.put("</span>")
	}
	l.was(name)
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
func (l *lineWriter) given(call *explain.LineCall) {
	if len(call.Arguments) == 0 {
		return
	}
	l.out.put(`<dl class="pairs given">`)
	told := l.ids["m-"+call.Name] > 0 // what the labels mean stands at the first call
	for _, a := range call.Arguments {
		l.out.put("<dt")
		if !told && a.Help != "" {
			l.out.put(` title="`, html.EscapeString(a.Help), `"`)
		}
		l.out.put(">")
		l.out.words(a.Name)
		l.out.put("</dt><dd")
		l.reach(a.At)
		l.out.put(">")
		l.argument(a)
		l.out.put(" </dd>")
	}
	l.out.put("</dl>")
}

// argument is a value, a link to the record that was given, or what was typed.
func (l *lineWriter) argument(a explain.LineArgument) {
	name, _, _ := strings.Cut(a.Text, ".")
	switch {
	case a.Shown != "" && l.anchors[name]:
		l.to(name)
		l.out.text(a.Shown)
		l.out.put("</a>")
	case a.Shown != "":
		l.out.text(a.Shown)
	case l.anchors[name]:
		l.to(name)
		l.out.words(a.Text)
		l.out.put("</a>")
	case len(a.Calls) > 0:
		l.nested(a)
	default:
		l.out.put("<code>", html.EscapeString(a.Text), "</code>")
	}
}

// nested is calls inside an argument, each with its own pairs.
func (l *lineWriter) nested(a explain.LineArgument) {
	for i, c := range a.Calls {
		if i > 0 {
			l.out.put(`<span class="and">; </span>`)
		}
		l.out.put(`<span class="nested">`, words(c.Name), ":")
		for k, arg := range c.Arguments {
			if k > 0 {
				l.out.put(",")
			}
			l.out.put(" ", words(arg.Name), "\u00a0")
			l.within(arg)
		}
		l.out.put("</span>")
	}
}

// within is an argument of a call inside another.
func (l *lineWriter) within(a explain.LineArgument) {
	if _, ok := l.reached(a.At); !ok {
		l.argument(a)
		return
	}
	l.out.put("<span")
	l.reach(a.At)
	l.out.put(">")
	l.argument(a)
	l.out.put("</span>")
}

// worked are a result's fields worth reading first, but for those that were given.
func (l *lineWriter) worked(name string, call *explain.LineCall) {
	l.fieldsOf(name, func(field string, q *report.Quantity) bool { return q.Headline && !isGiven(call, field, q) })
}

// others are the rest of a result's fields, behind a disclosure.
func (l *lineWriter) others(name string, call *explain.LineCall) {
	if l.Short {
		return
	}
	isOther := func(field string, q *report.Quantity) bool { return !q.Headline && !isGiven(call, field, q) }
	count := l.countFields(name, isOther)
	if count == 0 {
		return
	}
	l.out.put(`<details class="rest"><summary>`, counted(count, "more result", "more results"), "</summary>")
	l.fieldsOf(name, isOther)
	l.out.put("</details>")
}

func isGiven(call *explain.LineCall, field string, q *report.Quantity) bool {
	return slices.ContainsFunc(call.Arguments, func(a explain.LineArgument) bool { return a.Name == field && a.Shown == q.Shown })
}

// fields are all of a part's.
func (l *lineWriter) fields(name string) {
	l.fieldsOf(name, func(string, *report.Quantity) bool { return true })
}

// fieldOf is the name of a record's field; false for what is none of it.
func fieldOf(name string, q *report.Quantity) (string, bool) {
	rest, ok := strings.CutPrefix(q.Name, name)
	if !ok {
		return "", false
	}
	return strings.CutPrefix(rest, ".")
}

func (l *lineWriter) countFields(name string, wanted func(string, *report.Quantity) bool) (count int) {
	for _, q := range l.quantities[name] {
		if field, ok := fieldOf(name, q); ok && wanted(field, q) {
			count++
		}
	}
	return count
}

// fieldsOf are the fields of a record that are wanted, with what they came to.
func (l *lineWriter) fieldsOf(name string, wanted func(string, *report.Quantity) bool) {
	began := false
	for _, q := range l.quantities[name] {
		field, ok := fieldOf(name, q)
		if !ok || !wanted(field, q) {
			continue
		}
		if !began {
			l.out.put(`<dl class="pairs worked">`)
			began = true
		}
		l.out.put("<dt>")
		l.out.words(strings.ReplaceAll(field, ".", " "))
		l.out.put("</dt><dd>")
		l.out.text(q.Shown)
		l.was(q.Name)
		l.out.put(" </dd>")
	}
	if began {
		l.out.put("</dl>")
	}
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
func (m *maker) modelOf(c *explain.LineCall) {
	if m.Short {
		return
	}
	if m.ids["m-"+c.Name] > 0 {
		m.out.put(`<a class="again" href="#`, m.Prefix, "m-", c.Name, `">formula and source</a>`)
		return
	}
	m.out.put(`<details class="model"><summary>formula and source</summary><dl id="`, m.id("m-"+c.Name), `">`)
	m.modelPart("Formula", clauses(c.Doc.Formula))
	m.modelPart("Holds for", html.EscapeString(c.Doc.Validity))
	m.modelPart("Source", html.EscapeString(c.Doc.Source))
	m.out.put("</dl></details>")
}

func (m *maker) modelPart(title, text string) {
	if text != "" && text != clauses("none.") {
		m.out.put("<dt>", title, "</dt><dd>", text, "</dd>")
	}
}
