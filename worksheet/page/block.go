package page

import (
	"bytes"
	"html"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"inkwing/evaluate/explain"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet/formula"
)

// block is a working block of the file, statement by statement, then what
// concerns it as a whole, and the lines as they were typed. What is given is overwritten by
// the next one.
func (m *maker) block(i int) []byte {
	m.out.Reset()
	if i >= len(m.Report.Blocks) || i >= len(m.Lines) {
		return nil
	}
	b := m.writer(&m.Report.Blocks[i], m.Lines[i])
	b.statements()
	for _, note := range b.report.Notes {
		b.out.remark(note)
	}
	m.cautions(b.report.Cautions)
	if first, _, found := strings.Cut(b.report.Closing, ". "); found {
		b.out.put(`<p class="remark">`, html.EscapeString(first), ".</p>")
	}
	if !m.Short {
		b.out.put(`<details class="typed"><summary>as typed</summary><pre tabindex="0"><code>`)
		m.typed(m.Document.Blocks[i].Lines)
		b.out.put("</code></pre></details>")
	}
	return b.out.Bytes()
}

// remark is a sentence by itself.
func (b *buffer) remark(text string) {
	b.put(`<p class="remark">`)
	b.ticks(message.Sentence(text))
	b.put("</p>")
}

// typed are lines as the builder typed them, but for empty ones at the end.
func (m *maker) typed(lines []syntax.Line) {
	from := m.out.Len()
	for _, l := range lines {
		m.out.put(html.EscapeString(l.Text), "\n")
	}
	written := m.out.Bytes()[from:]
	m.out.Truncate(from + len(bytes.TrimRight(written, "\n")))
}

type blockWriter struct {
	*maker
	report *report.Block
	lines  []explain.Line
	// What the report shows of each line.
	tables map[message.Span][]*report.Table
	charts map[message.Span][]*report.Chart
	limits map[message.Span]*report.Limit
}

func (m *maker) writer(of *report.Block, lines []explain.Line) *blockWriter {
	b := &blockWriter{maker: m, report: of, lines: lines, tables: map[message.Span][]*report.Table{},
		charts: map[message.Span][]*report.Chart{}, limits: map[message.Span]*report.Limit{}}
	for i := range of.Tables {
		at := of.Tables[i].Span
		b.tables[at] = append(b.tables[at], &of.Tables[i])
	}
	for i := range of.Charts {
		at := of.Charts[i].Span
		b.charts[at] = append(b.charts[at], &of.Charts[i])
	}
	for i := range of.Limits {
		b.limits[of.Limits[i].Span] = &of.Limits[i]
	}
	return b
}

// statements writes the lines in their order; plain values share rows.
func (b *blockWriter) statements() {
	errors := slices.Clone(b.report.Errors)
	for i := 0; i < len(b.lines) && b.ctx.Err() == nil; i++ {
		for len(errors) > 0 && errors[0].Diagnostic.Span.Start < b.lines[i].Tree.Place().Start {
			b.failure(errors[0])
			errors = errors[1:]
		}
		from := i
		for i < len(b.lines) && b.isPlain(b.lines[i]) {
			i++
		}
		if i > from {
			b.plain(b.lines[from:i])
			i--
			continue
		}
		b.statement(b.lines[i])
		at := b.lines[i].Tree.Place()
		for len(errors) > 0 && errors[0].Diagnostic.Span.Start <= at.End {
			b.failure(errors[0])
			errors = errors[1:]
		}
	}
	for _, e := range errors {
		b.failure(e)
	}
}

// failure is a line that could not be worked, with the builder's text and what
// mends it.
func (b *blockWriter) failure(f report.Failure) {
	id := b.id("e-line")
	b.state.Failed = append(b.state.Failed, Mark{id, f.Line})
	b.out.put(`<div class="failure" id="`, id, `">`, sign(failed), `<div><p><b>Not worked</b> <code>`, html.EscapeString(f.Line), "</code></p><p>")
	b.out.ticks(message.Sentence(f.Diagnostic.Summary))
	if f.Diagnostic.Hint != "" {
		b.out.put(" ")
		b.out.ticks(message.Sentence(f.Diagnostic.Hint))
	}
	b.out.put("</p></div></div>")
}

// isPlain reports whether a line defines a plain value.
func (b *blockWriter) isPlain(l explain.Line) bool {
	d, ok := l.Tree.(*syntax.Definition)
	return ok && l.Step != nil && l.Step.Given && l.Step.Where == "" && l.Step.State == report.Evaluated && len(b.quantities[d.Name.Name]) == 1
}

// plain is a row of plain values; one with a note has a row of its own.
func (b *blockWriter) plain(lines []explain.Line) {
	b.out.put(`<ul class="plain">`)
	for _, l := range lines {
		d := l.Tree.(*syntax.Definition)
		name := d.Name.Name
		b.out.put("<li", class("noted", d.Note != ""), ` id="`, b.anchor(name), `" data-name="`, html.EscapeString(name), `"><math>`,
			formula.Name(name), formula.Equals(), formula.Value(b.quantities[name][0].Shown), "</math>", note(d.Note), "</li>")
	}
	b.out.put("</ul>")
}

func note(text string) string {
	if text == "" {
		return ""
	}
	return `<span class="note">` + html.EscapeString(text) + "</span>"
}

// anchor is the id of a quantity's place, and to begins a link that leads there.
func (m *maker) anchor(name string) string { return m.id("q-" + name) }
func (m *maker) to(name string) {
	m.out.put(`<a href="#`, html.EscapeString(m.Prefix), "q-", html.EscapeString(name), `">`)
}

// statement is any other line.
func (b *blockWriter) statement(l explain.Line) {
	switch x := l.Tree.(type) {
	case *syntax.Definition:
		if !isFailed(l) {
			b.definition(x, l)
		}
	case *syntax.Function:
		b.function(x)
	case *syntax.Limit:
		b.limit(x, l)
	case *syntax.Study:
		says := (&lineWriter{b, l}).study(x.What)
		b.out.put(`<p class="remark">`, strings.ToUpper(says[:1]), says[1:], "</p>")
	case *syntax.Use:
		b.out.put(`<p class="remark">Uses `, b.fileLink(x.Path.Value), ".</p>")
	case *syntax.Correlation:
		b.correlation(x, l)
	case *syntax.Overview:
		b.overview(b.report.Overview)
	case *syntax.Draws:
		b.out.put(`<p class="remark">Uncertainty is carried by `, html.EscapeString(x.Count.Text), " random draws.</p>")
	}
	for _, t := range b.tables[l.Tree.Place()] {
		b.table(*t)
	}
	for _, c := range b.charts[l.Tree.Place()] {
		b.chart(*c)
	}
}

func (b *blockWriter) correlation(x *syntax.Correlation, line explain.Line) {
	l := &lineWriter{b, line}
	b.out.put(`<p class="remark">`, l.inLine(x.Of[0]), " and ", l.inLine(x.Of[1]), " are correlated, ",
		formula.Math(formula.Name("r"), formula.Equals(), formula.Value(x.Value.Text)), ". ", note(x.Note), "</p>")
}

func (m *maker) fileLink(path string) string {
	if m.Link != nil {
		if to, ok := m.Link(path); ok {
			return `<a href="` + html.EscapeString(to) + `">` + html.EscapeString(path) + "</a>"
		}
	}
	return html.EscapeString(path)
}

// ticks makes code of what stands in backticks, and keeps numbers with their units.
func ticks(text string) string {
	var out buffer
	out.ticks(text)
	return out.String()
}

// inlineAt is the number of the value in the prose that code is, false for other code.
func (m *maker) inlineAt(code ast.Node, skip int) (i int, ok bool) {
	first, ok := code.FirstChild().(*ast.Text)
	if ok {
		i, ok = m.codes[first.Segment.Start+skip]
	}
	return i, ok
}

// valueIn is what such a value comes to.
func (m *maker) valueIn(code ast.Node, skip int) (shown string, ok bool) {
	i, ok := m.inlineAt(code, skip)
	if !ok {
		return "", false
	}
	return m.inlineShown(i), true
}

func (m *maker) inlineShown(i int) string {
	if i < len(m.Report.Inline) {
		return m.Report.Inline[i].Shown
	}
	return "?"
}

// inline is a value in the prose, which leads to where it is worked.
func (m *maker) inline(i int) string {
	in, shown := m.Document.Inline[i], m.inlineShown(i)
	name, _, _ := strings.Cut(in.Name, ".")
	title := html.EscapeString(strings.ReplaceAll(in.Name, "_", " "))
	if m.anchors[name] {
		return linkedStart + "#" + html.EscapeString(m.Prefix+"q-"+name) + `" title="` + title + `">` + formula.Text(shown) + "</a>"
	}
	return valueStart + title + `">` + formula.Text(shown) + "</span>"
}

// A value in the prose without a link, as far as its title; and with one.
const (
	valueStart  = `<span class="value" title="`
	linkedStart = `<a class="value" href="`
)

// unlinked is a value in the prose without its link, for a text that is one.
func unlinked(html string) string {
	if rest, ok := strings.CutPrefix(html, linkedStart); ok {
		_, rest, _ = strings.Cut(rest, ` title="`)
		return valueStart + strings.TrimSuffix(rest, "</a>") + "</span>"
	}
	return html
}
