package main

import (
	"strings"

	"inkwing/cmd/inkwing/layout"
	"inkwing/evaluate/library"
	"inkwing/evaluate/manual"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// page is a description as text.
func (t *tool) page(e *explanation) string {
	if e.list {
		return t.list(e)
	}
	var parts []string
	for _, f := range e.Functions {
		parts = append(parts, t.functionPage(f))
	}
	for _, c := range e.Constants {
		parts = append(parts, t.head(c.Name, c.Help)+t.section("Value", units.Show(c.Value, units.MustParse(c.Unit), 12))+t.section("Source", c.Source))
	}
	for _, u := range e.Units {
		parts = append(parts, t.unitPage(u))
	}
	for _, c := range e.Cautions {
		parts = append(parts, t.cautionPage(c))
	}
	for _, w := range e.Words {
		parts = append(parts, t.wordPage(w))
	}
	return strings.Join(parts, "\n")
}

func (t *tool) wordPage(w syntax.Word) string {
	return t.head(w.Form, w.Summary) + t.example(w.Example)
}

// example is a working block.
func (t *tool) example(text string) string {
	if text == "" {
		return ""
	}
	return "\n" + t.out.bold("Example") + "\n" + layout.Indent("```working\n"+strings.Trim(text, "\n")+"\n```", "  ")
}

func (t *tool) head(name, says string) string {
	return t.out.wrap(t.out.bold(name), "") + t.out.wrap(says, "  ")
}

// section is a heading with a text; nothing without a text.
func (t *tool) section(title, text string) string {
	if text == "" {
		return ""
	}
	return "\n" + t.out.bold(title) + "\n" + t.out.wrap(text, "  ")
}

func (t *tool) functionPage(f *library.Function) string {
	page := t.head(f.Signature(), f.Doc.Summary)
	if f.Doc.Text != "" {
		page += "\n" + t.out.wrap(f.Doc.Text, "  ")
	}
	page += "\n" + t.out.bold("Takes") + "\n" + t.fieldTable(f.Params)
	page += "\n" + t.out.bold("Gives") + "\n" + t.gives(f.Result)
	page += t.section("Formula", f.Doc.Formula) + t.section("Holds for", f.Doc.Validity) + t.section("Source", f.Doc.Source)
	page += t.section("May raise", strings.Join(ids(library.CautionsOf(f.Name)), ", "))
	return page + t.example(f.Doc.Example)
}

func (t *tool) fieldTable(fields []library.Param) string {
	var rows [][2]string
	for _, p := range fields {
		says := p.Help
		if n := manual.Need(p, fields); n != "" {
			says = strings.TrimSpace(says + " (" + n + ")")
		}
		rows = append(rows, [2]string{p.WithUnit(), says})
	}
	return t.out.names(rows)
}

func (t *tool) gives(s library.Shape) string {
	switch {
	case s.Kind == library.RecordOf:
		return t.fieldTable(s.Params)
	case s.Kind == library.Quantity && s.Dim != "":
		return "  a value of the dimension " + s.Dim + "\n"
	case s.Kind == library.Quantity:
		return "  a value " + s.UnitText() + "\n"
	}
	return "  " + manual.Kind(s) + "\n"
}

func (t *tool) unitPage(u units.Named) string {
	says := u.Meaning
	if u.Name != "" {
		says = u.Name + ": " + says
	}
	page := t.head(u.Symbol, says) + t.section("In SI", u.InSI())
	page += t.section("Also written", strings.Join(u.Aliases, ", "))
	if u.Prefixes {
		page += t.section("Prefixes", "takes the SI prefixes, such as m, k and M")
	}
	return page + t.section("Source", u.Source)
}

// list is names with their first sentence, by topic.
func (t *tool) list(e *explanation) string {
	var out strings.Builder
	for _, topic := range manual.Topics() {
		var rows [][2]string
		for _, f := range e.Functions {
			if f.Topic == topic {
				rows = append(rows, [2]string{f.Name, gist(f)})
			}
		}
		t.group(&out, topic+": "+manual.About(topic), rows)
	}
	var rows [][2]string
	for _, c := range e.Constants {
		rows = append(rows, [2]string{c.Name, c.Help})
	}
	t.group(&out, "constants", rows)
	rows = nil
	for _, u := range e.Units {
		rows = append(rows, [2]string{u.Symbol, u.Name + ": " + u.Meaning})
	}
	t.group(&out, "units", rows)
	for _, topic := range manual.Topics() {
		t.group(&out, topic, cautionRows(e.Cautions, topic))
	}
	rows = nil
	for _, w := range e.Words {
		first, _, _ := strings.Cut(w.Summary, ". ")
		rows = append(rows, [2]string{w.Name, strings.TrimSuffix(first, ".") + ": " + w.Form})
	}
	t.group(&out, "statements and words", rows)
	if len(e.Constants) > 0 {
		out.WriteString("\n" + t.out.wrap("\"inkwing explain statements\" lists the words of the language, \"inkwing explain units\" the units, \"inkwing explain cautions\" the cautions.", ""))
	}
	return out.String()
}

// gist is a function's first sentence without its subject.
func gist(f *library.Function) string {
	return strings.TrimPrefix(strings.TrimPrefix(f.Doc.Summary, f.Name+" "), "is ")
}

func (t *tool) group(out *strings.Builder, title string, rows [][2]string) {
	if len(rows) == 0 {
		return
	}
	if out.Len() > 0 {
		out.WriteByte('\n')
	}
	out.WriteString(t.out.wrap(t.out.bold(title), "") + t.out.names(rows))
}
