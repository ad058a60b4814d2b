package chart

import (
	"strings"

	"inkwing/evaluate/report"
)

// Inline is the drawing for the middle of a page: it tells its numbers where the
// pointer is, without any script: of each group in that of the class "at" the page's
// style sheet shows all but the first child on hover alone.
func Inline(c report.Chart) string {
	p := drawn(c, wide)
	p.pointer(c)
	return p.inline(c, "")
}

// Narrow is the drawing for the middle of a page that is no wider than a hand: its legend
// stands above the data.
func Narrow(c report.Chart) string {
	return drawn(c, narrow).inline(c, `display="none" `) // until a style sheet shows it
}

// inline is a drawing with some attributes, without what only a file of its own needs.
func (p *page) inline(c report.Chart, attributes string) string {
	return grouped(string(p.file(c, attributes, "")))
}

// grouped writes texts that follow one another and look alike as a group that says
// once how. A page has many of them; a file beside a worksheet stays as it is.
func grouped(svg string) string {
	var out strings.Builder
	out.Grow(len(svg))
	looks := "" // of the group that is open; empty for none
	for line := range strings.Lines(svg) {
		place, look, rest := textParts(line)
		if look != looks {
			if looks != "" {
				out.WriteString("</g>\n")
			}
			if looks = look; look != "" {
				out.WriteString("<g" + look + ">\n")
			}
		}
		out.WriteString(place)
		out.WriteString(rest)
	}
	return out.String()
}

// textParts takes a line that is a text apart: where it stands, how it looks, and the
// rest. Of any other line all is the rest.
func textParts(line string) (place, look, rest string) {
	if !strings.HasPrefix(line, `<text x="`) {
		return "", "", line
	}
	from, to := strings.Index(line, ` font-size="`), strings.IndexByte(line, '>')
	if from < 0 || to < from {
		return "", "", line
	}
	return line[:from], line[from:to], line[to:]
}
