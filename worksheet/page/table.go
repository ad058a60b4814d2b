package page

import (
	"html"
	"strings"
	"unicode"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/worksheet/chart"
	"inkwing/worksheet/formula"
)

// table is what a study found.
func (m *maker) table(t report.Table) string {
	if t.State != report.Evaluated {
		if t.State == report.Waiting {
			return `<p class="remark">` + words(t.Verb) + " waits for <code>" + html.EscapeString(t.Waits) + "</code>.</p>"
		}
		return ""
	}
	var out strings.Builder
	if len(t.Columns) > 0 && len(t.Rows) > 0 {
		label := caption(t)
		out.WriteString(`<div class="scroll" tabindex="0" role="region" aria-label="` + html.EscapeString(label) + `"><table><caption>` + ticks(label) + "</caption>")
		rows(&out, t)
		out.WriteString("</table></div>")
	}
	for _, n := range t.Notes {
		out.WriteString(`<p class="remark">` + ticks(message.Sentence(n)) + "</p>")
	}
	return out.String()
}

func caption(t report.Table) string {
	switch {
	case t.Verb == "budget":
		return "Uncertainty budget of `" + t.Name + "`"
	case t.Verb == "measured":
		return "Measured against worked"
	case t.Name == "":
		return "What `" + t.Verb + "` finds"
	}
	return strings.ReplaceAll(t.Name, "_", " ")
}

func rows(out *strings.Builder, t report.Table) {
	out.WriteString("<thead><tr>")
	for _, c := range t.Columns {
		out.WriteString("<th" + right(c.Number) + ` scope="col">` + head(c.Head) + "</th>")
	}
	out.WriteString("</tr></thead><tbody>")
	for _, row := range t.Rows {
		out.WriteString("<tr>")
		for i, c := range t.Columns {
			cell := ""
			if i < len(row) {
				cell = row[i]
			}
			out.WriteString("<td" + right(c.Number) + ">" + inColumn(cell, c) + "</td>")
		}
		out.WriteString("</tr>")
	}
	out.WriteString("</tbody>")
}

func right(number bool) string {
	if number {
		return ` class="r"`
	}
	return ""
}

// head is a column's heading: the unit stands below, so that columns stay narrow.
func head(text string) string {
	text = strings.ReplaceAll(text, "`", "")
	name, unit, found := strings.Cut(text, " [")
	name = html.EscapeString(strings.NewReplacer("_", " ").Replace(name))
	if !found {
		return name
	}
	if unit == "1]" {
		return name
	}
	return name + ` <span class="unit">[` + html.EscapeString(unit) + "</span>"
}

func inColumn(cell string, c report.Column) string {
	switch {
	case c.Number && cell == "":
		return "—"
	case c.Number:
		return formula.Text(cell)
	case c.Code && isPath(cell):
		return formula.Math(false, formula.Path(cell))
	case c.Code:
		return "<code>" + html.EscapeString(cell) + "</code>"
	}
	return ticks(cell)
}

// isPath reports whether a cell is a name with its fields and nothing else.
func isPath(cell string) bool {
	for _, r := range cell {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '_' && r != '.' {
			return false
		}
	}
	return cell != ""
}

// chart is a drawing on a white card, and its numbers as a table.
func (m *maker) chart(c report.Chart) string {
	if c.State != report.Evaluated {
		return `<p class="remark">Chart ` + html.EscapeString(c.Title) + " waits for <code>" + html.EscapeString(c.Waits) + "</code>.</p>"
	}
	var out strings.Builder
	out.WriteString(`<figure class="chart" id="` + m.id("chart-"+c.Slug) + `">` + chart.Inline(c))
	out.WriteString(`<details class="numbers"><summary>the numbers</summary>`)
	for _, t := range chart.Numbers(c) {
		out.WriteString(`<div class="scroll" tabindex="0" role="region" aria-label="numbers of the chart"><table>`)
		rows(&out, t)
		out.WriteString("</table></div>")
		for _, n := range t.Notes {
			out.WriteString(`<p class="remark">` + html.EscapeString(n) + "</p>")
		}
	}
	out.WriteString("</details></figure>")
	return out.String()
}
