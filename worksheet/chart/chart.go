// Package chart draws a report's chart as an SVG file.
//
// [Draw] is its verb: the same chart gives the same bytes. One panel a
// dimension stands over another on a shared axis, with the legend beside the
// data; a series differs from the next by colour, by dashes and by the shape of
// its points, so that a black and white print can be read. The file holds no
// script, no style sheet and no reference to anything outside it, and its
// colours are attributes, which the strictest hosts draw too.
//
// [IsOurs] knows the files that Draw made. Their limit: a file that a drawing
// program saved again has lost the mark, and counts as somebody else's.
package chart

import (
	"bytes"
	"encoding/xml"
	"strings"
	"unicode"
	"unicode/utf8"

	"inkwing/evaluate/report"
)

// mark is a line of every chart: what does not hold it is not ours.
const mark = "<metadata>inkwing chart: rewritten by every run</metadata>"

// markLine is the line on which it stands, from 0.
const markLine = 3

// IsOurs reports whether a file's text was made by [Draw], as it stands or with
// other line ends.
func IsOurs(text []byte) bool {
	lines := bytes.SplitN(text, []byte("\n"), markLine+2)
	return len(lines) > markLine+1 && bytes.HasPrefix(lines[0], []byte("<svg ")) &&
		string(bytes.TrimSuffix(lines[markLine], []byte("\r"))) == mark
}

// Draw is the SVG file of a worked chart. Numbers that are not finite, or beyond
// 1e300, are left out.
func Draw(c report.Chart) []byte {
	return drawn(c, wide).file(c, `xmlns="http://www.w3.org/2000/svg" `, mark+"\n")
}

// drawn is a chart in some form.
func drawn(c report.Chart, f form) *page {
	p := layOut(c, f)
	for i := range p.panels {
		p.panels[i].draw(p)
	}
	p.frame()
	return p
}

// file puts the elements between the head, with some attributes more and what tells whose
// it is, and the end of a file.
func (p *page) file(c report.Chart, attributes, whose string) []byte {
	elements := p.svg.elements()
	w, h := decimal(p.width), decimal(p.height)
	var out bytes.Buffer
	out.Grow(len(elements) + len(c.Title) + len(c.Alt) + 600)
	for _, part := range []string{
		"<svg ", attributes, `role="img" width="`, w, `" height="`, h, `" viewBox="0 0 `, w, " ", h, `" font-family="` + family + `">` + "\n<title>", escape(c.Title),
		"</title>\n<desc>", escape(c.Alt), "</desc>\n", whose,
		`<rect x="0.5" y="0.5" width="`, decimal(p.width - 1), `" height="`, decimal(p.height - 1), `" fill="#ffffff" stroke="#cccccc"/>` + "\n",
	} {
		out.WriteString(part)
	}
	out.Write(elements)
	out.WriteString("</svg>\n")
	return out.Bytes()
}

// escape is a text fit for an element: one line, without what cannot be seen.
func escape(text string) string {
	text = clean(text)
	if isPlain(text) {
		return text
	}
	return escaped(text)
}

func escaped(text string) string {
	var out strings.Builder
	xml.EscapeText(&out, []byte(text))
	return out.String()
}

// isPlain reports whether a text stands in an element as it is.
func isPlain(text string) bool {
	return utf8.ValidString(text) && !strings.ContainsAny(text, "\"'&<>\ufffe\uffff")
}

func clean(text string) string {
	if isClean(text) {
		return text
	}
	return cleaned(text)
}

func cleaned(text string) string {
	text = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Cf, r):
			return -1
		}
		return r
	}, text)
	return strings.Join(strings.Fields(text), " ")
}

// isClean reports whether a text is one line already, of what can be seen, with single
// blanks between its words.
func isClean(text string) bool {
	before := ' '
	for _, r := range text {
		if r == ' ' && before == ' ' || r == utf8.RuneError || r < ' ' || r >= 0x7f && (unicode.IsSpace(r) || unicode.IsControl(r) || unicode.Is(unicode.Cf, r)) {
			return false
		}
		before = r
	}
	return text == "" || before != ' '
}

// Begins reports whether a text may be the beginning of a chart that was not
// written to its end: too short to bear the mark, or cut off within it.
func Begins(text []byte) bool {
	start := []byte("<svg ")
	if len(text) <= len(start) {
		return bytes.HasPrefix(start, text)
	}
	lines := bytes.SplitN(text, []byte("\n"), markLine+2)
	return bytes.HasPrefix(text, start) && len(lines) <= markLine+1 && (len(lines) <= markLine || bytes.HasPrefix([]byte(mark), lines[markLine]))
}
