package handbook

import (
	"context"
	"html"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/units"
	"inkwing/worksheet/page"
)

// languageChapter is the statements and keywords.
func languageChapter(ctx context.Context) *chapter {
	c := newChapter("language", "The language", "What may stand in a working block.")
	for _, w := range syntax.Words() {
		c.add(entry{"word-" + w.Name, w.Name, first(w.Summary), w.Form + " " + strings.Join(w.Also, " ")}, html.EscapeString(w.Name))
		c.paragraph("call", "<code>"+html.EscapeString(w.Form)+"</code>")
		c.paragraph("", html.EscapeString(w.Summary))
		c.example(ctx, "word-"+w.Name, w.Example)
		c.end()
	}
	return c
}

// first is the first sentence of a text, without its stop.
func first(text string) string {
	sentence, _, _ := strings.Cut(text, ". ")
	return strings.TrimSuffix(sentence, ".")
}

// unitChapter is the units as a table, in their groups' order.
func unitChapter() *chapter {
	c := newChapter("units", "Units", "A unit follows its number and one blank; compound ones are written with · and /, powers with ^. Those with a star take the SI prefixes, such as m, k and M.")
	c.body.WriteString(`<div class="scroll" tabindex="0" role="group" aria-label="units"><table class="units"><thead><tr><th scope="col">Unit</th><th scope="col">What it is</th><th scope="col">In SI</th></tr></thead><tbody>`)
	for _, u := range units.All() {
		e := entry{"unit-" + u.Symbol, u.Symbol, joined(u.Name, u.Meaning), strings.Join(u.Aliases, " ") + " unit"}
		c.entries = append(c.entries, e)
		c.body.WriteString(`<tr id="` + html.EscapeString(e.id) + `"><th scope="row">` + unitSymbol(u) + "</th><td>" + html.EscapeString(message.Sentence(e.says)) +
			` <span class="source">` + html.EscapeString(message.Ended(u.Source)) + "</span></td><td>" + html.EscapeString(inSI(u)) + "</td></tr>")
	}
	c.body.WriteString("</tbody></table></div>")
	return c
}

// inSI is a unit in those of the SI; nothing where it is one that is told of itself.
func inSI(u units.Named) string {
	text := u.InSI()
	if left, right, ok := strings.Cut(text, " = "); ok && left == right {
		return ""
	}
	return text
}

// unitSymbol is how a unit is written, and how else it may be.
func unitSymbol(u units.Named) string {
	text := html.EscapeString(u.Symbol)
	if u.Prefixes {
		text += `<span class="star">*</span>`
	}
	if len(u.Aliases) > 0 {
		text += ` <span class="unit">` + html.EscapeString(strings.Join(u.Aliases, ", ")) + "</span>"
	}
	return text
}

func joined(name, meaning string) string {
	if name == "" || name == meaning {
		return meaning
	}
	return name + ": " + meaning
}

// cautionChapter is every caution that a model may raise.
func cautionChapter() *chapter {
	c := newChapter("cautions", "Cautions", "What the models warn of, why, and what to do. The makers' sheets, local rules and licensed practice come first.")
	for _, k := range library.Cautions() {
		c.add(entry{"caution-" + k.ID, words(strings.ReplaceAll(k.ID, "-", " ")), first(model.Sketch(k.Summary)), k.Topic + " caution"}, html.EscapeString(strings.ReplaceAll(k.ID, "-", " ")))
		c.body.WriteString(page.Caution(report.Caution{
			ID: k.ID, Kind: report.OfModel, Level: k.Level, Source: k.Source,
			Summary: message.Sentence(model.Sketch(k.Summary)), Why: sentence(k.Why), Hint: sentence(k.Hint),
		}))
		when := "Raised where the numbers give cause"
		if k.Standing {
			when = "Said once a worksheet"
		}
		c.paragraph("holds", html.EscapeString(when+"."))
		c.paragraph("holds", linked("Raised by", raisers(k)))
		c.end()
	}
	return c
}

// raisers are links to the functions that may raise a caution.
func raisers(k library.Caution) (links []string) {
	for _, name := range library.Raisers(k.ID) {
		if f, ok := library.Lookup(name); ok {
			links = append(links, link(f.Topic+".html#"+f.Name, words(f.Name)))
		}
	}
	return links
}

func sentence(text string) string {
	if text == "" {
		return ""
	}
	return message.Sentence(model.Sketch(text))
}
