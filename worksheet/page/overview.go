package page

import (
	"html"
	"strings"

	"inkwing/evaluate/report"
)

// overview is the worksheet in short: a line, the limits with what room they leave,
// and the dangers and the lines that are not worked, each a link to where it stands.
func (b *blockWriter) overview(o *report.Overview) {
	if o == nil {
		return
	}
	b.out.WriteString(`<div class="overview"><p>` + html.EscapeString(o.Summary) + "</p>")
	if len(o.Limits) > 0 {
		b.out.WriteString(b.table(limitTable(o.Limits)))
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
		b.out.WriteString("<ul><li>" + strings.Join(points, "</li><li>") + "</li></ul>")
	}
	b.out.WriteString("</div>")
}

// toCaution leads to where a caution stands: the first of its kind has its bare ID.
func (m *maker) toCaution(id, text string) string {
	return `<a href="#` + html.EscapeString(m.Prefix+"c-"+id) + `">` + ticks(text) + "</a>"
}

// limitTable is a table of limits, each as it is written.
func limitTable(limits []report.Limit) report.Table {
	t := report.Table{Verb: "overview", Columns: []report.Column{{Head: "Limit"}, {Head: "Worked", Number: true}, {Head: "Allowed", Number: true},
		{Head: "Headroom", Number: true}, {Head: "Verdict"}}}
	for _, l := range limits {
		text := "`" + l.Text + "`"
		if l.Of != "" {
			text += " of `" + l.Of + "`"
		}
		verdict := l.Verdict()
		if verdict == "" {
			verdict = "not worked"
		}
		t.Rows = append(t.Rows, []string{text, l.Value, l.Allowed, l.Headroom, verdict})
	}
	return t
}
