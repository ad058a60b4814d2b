package page

import (
	"html"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet/formula"
)

// overview is the worksheet in short: a line, the limits with what room they leave,
// and the dangers and the lines that are not worked, each a link to where it stands.
func (b *blockWriter) overview(o *report.Overview) {
	if o == nil {
		return
	}
	b.out.put(`<div class="overview"><p>`, html.EscapeString(o.Summary), "</p>")
	if len(o.Limits) > 0 {
		b.limitTable(o.Limits)
	}
	var points []string
	for _, c := range o.Dangers {
		points = append(points, b.toCaution(c.ID, c.Summary))
	}
	var standing []string
	for _, id := range o.Standing {
		standing = append(standing, b.toCaution(id, strings.ReplaceAll(id, "-", " ")))
	}
	if len(standing) > 0 {
		points = append(points, "Standing hazards: "+strings.Join(standing, ", "))
	}
	for _, f := range o.Unworked {
		points = append(points, "Not worked: <code>"+html.EscapeString(f.Line)+"</code>")
	}
	if len(points) > 0 {
		b.out.put("<ul><li>", strings.Join(points, "</li><li>"), "</li></ul>")
	}
	b.out.put("</div>")
}

// toCaution leads to where a caution stands: the first of its kind has its bare ID.
func (m *maker) toCaution(id, text string) string {
	return `<a href="#` + html.EscapeString(m.Prefix+"c-"+id) + `">` + ticks(text) + "</a>"
}

// limitTable is a table of limits, each set as it is where it stands; one of a used
// worksheet is as it is written there.
func (b *blockWriter) limitTable(limits []report.Limit) {
	bounds := b.bounds()
	b.out.put(`<div class="scroll" tabindex="0" role="group" aria-label="limits"><table class="n"><thead><tr><th class="l" scope="col">Limit</th><th scope="col">Worked</th><th scope="col">Allowed</th><th scope="col">Headroom</th><th class="l" scope="col">Verdict</th></tr></thead><tbody>`)
	for _, l := range limits {
		bound, ok := bounds[l.Span]
		if l.Of != "" || !ok {
			bound = breakable("<code>" + html.EscapeString(l.Text) + "</code>")
		}
		if l.Of != "" {
			bound += " of <code>" + html.EscapeString(l.Of) + "</code>"
		}
		b.out.put(`<tr><td class="l">`, bound, "</td><td>", orElse(formula.Text(l.Value), "—"), "</td><td>", orElse(formula.Text(l.Allowed), "—"), "</td><td>",
			orElse(formula.Text(l.Headroom), "—"), `</td><td class="l">`, orElse(l.Verdict(), "not worked"), "</td></tr>")
	}
	b.out.put("</tbody></table></div>")
}

// bounds are the page's limits as they are set, by their places.
func (m *maker) bounds() map[message.Span]string {
	bounds := map[message.Span]string{}
	for _, lines := range m.Lines {
		for _, line := range lines {
			if x, ok := line.Tree.(*syntax.Limit); ok {
				l := &lineWriter{&blockWriter{maker: m}, line}
				bounds[x.Span] = l.bound(x.Bound)
			}
		}
	}
	return bounds
}
