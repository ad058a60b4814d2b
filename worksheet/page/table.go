package page

import (
	"html"
	"regexp"
	"slices"
	"strings"
	"sync"

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
		m.grid(&out, t, label, orElse(label, "table"))
	}
	for _, n := range slices.Concat(t.Notes, t.Details) {
		out.WriteString(`<p class="remark">` + ticks(message.Sentence(n)) + "</p>")
	}
	return out.String()
}

func caption(t report.Table) string {
	switch t.Verb {
	case "budget":
		return "Uncertainty budget of `" + t.Name + "`"
	case "measured":
		return "Measured against worked"
	case "show":
		return strings.ReplaceAll(t.Name, "_", " ")
	}
	return ""
}

// grid is a table's rows, which move by themselves where they are wide. A column of
// notes would make it wider: each note stands below its row.
func (m *maker) grid(out *strings.Builder, t report.Table, caption, label string) {
	columns, noted := t.Columns, false
	if last := len(columns) - 1; last > 0 && columns[last].Head == "Note" {
		columns, noted = columns[:last], true
	}
	side := sidesOf(columns)
	out.WriteString(`<div class="scroll" tabindex="0" role="group" aria-label="` + html.EscapeString(label) + `"><table` + class("n", side.numbers) + ">")
	if caption != "" {
		out.WriteString("<caption>" + ticks(caption) + "</caption>")
	}
	out.WriteString("<thead><tr>")
	for _, c := range columns {
		out.WriteString("<th" + side.of(c) + ` scope="col">` + m.head(c.Head) + "</th>")
	}
	out.WriteString("</tr></thead><tbody>")
	for _, row := range t.Rows {
		note := ""
		if noted && len(row) == len(t.Columns) {
			note = row[len(row)-1]
		}
		out.WriteString("<tr" + class("noted", note != "") + ">")
		for i, c := range columns {
			cell := ""
			if i < len(row) {
				cell = row[i]
			}
			out.WriteString("<td" + side.of(c) + ">" + m.inColumn(cell, c) + "</td>")
		}
		out.WriteString("</tr>")
		if note != "" {
			out.WriteString(`<tr class="remark"><td colspan="` + itoa(len(columns)) + `">` + ticks(note) + "</td></tr>")
		}
	}
	out.WriteString("</tbody></table></div>")
}

// sides say on which side the cells of a table's columns stand: a table of numbers
// says so once, and at each cell what is otherwise.
type sides struct{ numbers bool }

func sidesOf(columns []report.Column) sides {
	numbers := 0
	for _, c := range columns {
		if c.Number {
			numbers++
		}
	}
	return sides{2*numbers > len(columns)}
}

func (s sides) of(c report.Column) string {
	return class("r", c.Number && !s.numbers) + class("l", !c.Number && s.numbers)
}

// short is a name without that of the used worksheet before it.
func (m *maker) short(name string) string {
	if sheet, rest, ok := strings.Cut(name, "."); ok && m.sheets[sheet] {
		return rest
	}
	return name
}

func class(name string, yes bool) string {
	if yes {
		return ` class="` + name + `"`
	}
	return ""
}

// head is a column's heading: a name as it is set in formulas, its unit lighter.
func (m *maker) head(text string) string {
	text = strings.ReplaceAll(text, "`", "")
	name, unit, found := strings.Cut(text, " [")
	set := m.heading(name)
	if !found || unit == "1]" {
		return set
	}
	return set + ` <span class="unit">[` + html.EscapeString(unit) + "</span>"
}

// heading is a name as formulas have it, with the value that a column is for behind it;
// what is no name is words.
func (m *maker) heading(text string) string {
	name, value, isFor := strings.Cut(text, " = ")
	if strings.Contains(name, ".") {
		name = strings.ReplaceAll(name, " ", "_") // a heading has blanks in the names of fields
	}
	label, ok := formula.Label(m.short(name))
	if !ok || !strings.ContainsAny(name, "._") {
		return html.EscapeString(strings.ReplaceAll(text, "_", " "))
	}
	if isFor {
		label += "\u00a0=\u00a0" + formula.Text(value)
	}
	return `<span class="name">` + label + "</span>"
}

func (m *maker) inColumn(cell string, c report.Column) string {
	switch {
	case c.Number && cell == "":
		return "—"
	case c.Number:
		return formula.Text(cell)
	case c.Code:
		if ml, ok := formula.Path(m.short(cell)); ok {
			return formula.Math(ml)
		}
		return breakable("<code>" + html.EscapeString(cell) + "</code>")
	}
	return breakable(ticks(cell))
}

// breakable lets a line of a narrow cell end behind the marks in a long name, and not
// within its words.
func breakable(cell string) string {
	if !strings.Contains(cell, "<code>") {
		return cell
	}
	return strings.ReplaceAll(inNames().ReplaceAllString(cell, "$1<wbr>$2"), "[", "<wbr>[")
}

// inNames finds the marks inside of names, which a letter follows.
var inNames = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`([_.(])(\pL)`) })

// chart is a drawing on a white card, and its numbers as a table.
func (m *maker) chart(c report.Chart) string {
	if c.State != report.Evaluated {
		return `<p class="remark">Chart ` + html.EscapeString(c.Title) + " waits for <code>" + html.EscapeString(c.Waits) + "</code>.</p>"
	}
	var out strings.Builder
	out.WriteString(`<figure class="chart" id="` + m.id("chart-"+c.Slug) + `">` + chart.Inline(c) + chart.Narrow(c))
	out.WriteString(`<details class="numbers"><summary>the numbers</summary>`)
	for _, t := range chart.Numbers(c) {
		m.grid(&out, t, "", "numbers of the chart")
		for _, n := range t.Notes {
			out.WriteString(`<p class="remark">` + html.EscapeString(n) + "</p>")
		}
	}
	out.WriteString("</details></figure>")
	return out.String()
}
