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

// unitChapter is the units, in their groups' order.
func unitChapter() *chapter {
	c := newChapter("units", "Units", "A unit follows its number and one blank; compound ones are written with · and /, powers with ^.")
	for _, u := range units.All() {
		c.add(entry{"unit-" + u.Symbol, u.Symbol, joined(u.Name, u.Meaning), strings.Join(u.Aliases, " ") + " unit"}, html.EscapeString(u.Symbol))
		c.paragraph("", html.EscapeString(message.Sentence(joined(u.Name, u.Meaning))))
		c.paragraph("", html.EscapeString(u.InSI()))
		var more []string
		if len(u.Aliases) > 0 {
			more = append(more, "also written "+strings.Join(u.Aliases, ", "))
		}
		if u.Prefixes {
			more = append(more, "takes the SI prefixes, such as m, k and M")
		}
		if len(more) > 0 {
			c.paragraph("holds", html.EscapeString(message.Sentence(strings.Join(more, "; "))))
		}
		c.paragraph("holds", labelled("Source", u.Source))
		c.end()
	}
	return c
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
