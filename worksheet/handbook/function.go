package handbook

import (
	"context"
	"html"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/manual"
	"inkwing/evaluate/message"
	"inkwing/units"
	"inkwing/worksheet/formula"
)

// function is one function: what it does, by what formula, what it takes and gives,
// where it holds and whence it comes, and its example.
func (c *chapter) function(ctx context.Context, f *library.Function) {
	var more []string
	for _, p := range f.Params {
		more = append(more, words(p.Name))
	}
	c.add(entry{f.Name, f.Name, gist(f.Name, f.Doc.Summary), strings.Join(more, " ")}, html.EscapeString(words(f.Name)))
	c.body.WriteString(`<p class="call"><code>` + html.EscapeString(f.Signature()) + "</code></p>")
	c.paragraph("", html.EscapeString(message.Sentence(gist(f.Name, f.Doc.Summary))+after(f.Doc.Text)))
	c.formula(f.Doc.Formula)
	c.fields("Takes", f.Params)
	c.result(f.Result)
	c.paragraph("holds", labelled("Holds for", f.Doc.Validity))
	c.paragraph("holds", labelled("Source", f.Doc.Source))
	c.paragraph("holds", related("May raise", "cautions.html", library.CautionsOf(f.Name)))
	c.example(ctx, f.Name, f.Doc.Example)
	c.end()
}

// gist is a first sentence without its subject, which stands in the heading.
func gist(name, summary string) string {
	rest, found := strings.CutPrefix(summary, name+" ")
	if !found {
		return summary
	}
	for _, verb := range []string{"is ", "says "} {
		rest = strings.TrimPrefix(rest, verb)
	}
	return strings.TrimSuffix(rest, ".")
}

// related are the cautions of a function, each a link.
func related(label, file string, list []library.Caution) string {
	var links []string
	for _, k := range list {
		links = append(links, link(file+"#caution-"+k.ID, words(strings.ReplaceAll(k.ID, "-", " "))))
	}
	return linked(label, links)
}

func linked(label string, links []string) string {
	if len(links) == 0 {
		return ""
	}
	return "<b>" + label + "</b> " + strings.Join(links, ", ")
}

func link(to, text string) string {
	return `<a href="` + html.EscapeString(to) + `">` + html.EscapeString(text) + "</a>"
}

func after(text string) string {
	if text == "" {
		return ""
	}
	return " " + text
}

func labelled(label, text string) string {
	if text == "" {
		return ""
	}
	return "<b>" + label + "</b> " + html.EscapeString(text)
}

// formula is the lines of a formula, each set.
func (c *chapter) formula(text string) {
	if text == "" || text == "none." {
		return
	}
	c.body.WriteString(`<div class="formula">`)
	for _, clause := range formula.Clauses(text) {
		c.body.WriteString(`<p tabindex="0" role="group" aria-label="formula">` + clause + "</p>")
	}
	c.body.WriteString("</div>")
}

// fields are inputs or results: name and unit, what it is, and what it may be.
func (c *chapter) fields(title string, list []library.Param) {
	if len(list) == 0 {
		return
	}
	c.body.WriteString("<h3>" + title + `</h3><dl class="fields">`)
	for _, p := range list {
		c.body.WriteString("<dt>" + html.EscapeString(words(p.Name)) + unit(p.Shape) + "</dt><dd>" + html.EscapeString(p.Help))
		if need := manual.Need(p, list); need != "" {
			c.body.WriteString(` <span class="need">` + html.EscapeString(need) + "</span>")
		}
		c.body.WriteString("</dd>")
	}
	c.body.WriteString("</dl>")
}

func unit(s library.Shape) string {
	text := s.UnitText()
	if text == "" || text == "[1]" {
		return ""
	}
	return ` <span class="unit">` + html.EscapeString(text) + "</span>"
}

// result is what a function gives: a record's fields, or one value.
func (c *chapter) result(s library.Shape) {
	switch {
	case s.Kind == library.RecordOf:
		c.fields("Gives", s.Params)
	case s.Kind == library.Quantity && s.Dim != "":
		c.paragraph("holds", labelled("Gives", "a value of the dimension "+s.Dim))
	case s.Kind == library.Quantity:
		c.paragraph("holds", labelled("Gives", "a value "+s.UnitText()))
	default:
		c.paragraph("holds", labelled("Gives", manual.Kind(s)))
	}
}

func (c *chapter) constant(k library.Named) {
	c.add(entry{k.Name, k.Name, k.Help, "constant"}, html.EscapeString(words(k.Name)))
	c.paragraph("call", "<code>"+html.EscapeString(k.Name)+"</code>")
	c.paragraph("", html.EscapeString(message.Sentence(k.Help)))
	value := units.Show(k.Value, units.MustParse(k.Unit), 12)
	c.body.WriteString(`<div class="formula"><p>` + formula.Math(formula.Name(k.Name), formula.Equals(), formula.Value(value)) + "</p></div>")
	c.paragraph("holds", labelled("Source", k.Source))
	c.end()
}
