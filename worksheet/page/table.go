package page

import (
	"html"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/worksheet/chart"
	"inkwing/worksheet/formula"
)

// table is what a study found.
func (m *maker) table(t report.Table) {
	switch t.State {
	case report.Evaluated:
		t.Span, t.Values = message.Span{}, nil // the texts are enough
		m.out.put(remembered(m.Memory, "table", tableInput{m.naming, t}, tableOf))
	case report.Waiting:
		m.out.put(`<p class="remark">`, words(t.Verb), " waits for <code>", html.EscapeString(t.Waits), "</code>.</p>")
	}
}

// A tableInput is all that a table is made of.
type tableInput struct {
	naming
	table report.Table
}

func tableOf(in tableInput) string {
	var out buffer
	t := in.table
	if len(t.Columns) > 0 && len(t.Rows) > 0 {
		label := caption(t)
		in.grid(&out, t, label, orElse(label, "table"))
	}
	for _, n := range slices.Concat(t.Notes, t.Details) {
		out.remark(n)
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

// A naming is how the names of quantities are told in tables.
type naming struct {
	sheets []string // names that used worksheets go under
}

// grid is a table's rows, which move by themselves where they are wide. A column of
// notes would make it wider: each note stands below its row.
func (n naming) grid(out *buffer, t report.Table, caption, label string) {
	columns, noted := t.Columns, false
	if last := len(columns) - 1; last > 0 && columns[last].Head == "Note" {
		columns, noted = columns[:last], true
	}
	side := sidesOf(columns)
	n.gridHead(out, columns, side, caption, label)
	for _, row := range t.Rows {
		note := ""
		if noted && len(row) == len(t.Columns) {
			note = row[len(row)-1]
		}
		out.put("<tr", class("noted", note != ""), ">")
		n.cells(out, columns, side, row)
		out.put("</tr>")
		if note != "" {
			out.put(`<tr class="remark"><td colspan="`, itoa(len(columns)), `">`)
			out.ticks(note)
			out.put("</td></tr>")
		}
	}
	out.put("</tbody></table></div>")
}

func (n naming) gridHead(out *buffer, columns []report.Column, side sides, caption, label string) {
	out.put(`<div class="scroll" tabindex="0" role="group" aria-label="`, html.EscapeString(label), `"><table`, class("n", side.numbers), ">")
	if caption != "" {
		out.put("<caption>")
		out.ticks(caption)
		out.put("</caption>")
	}
	out.put("<thead><tr>")
	for _, c := range columns {
		out.put("<th", side.of(c), ` scope="col">`, n.head(c.Head), "</th>")
	}
	out.put("</tr></thead><tbody>")
}

// cells are those of a row; where it is short, the last ones are empty.
func (n naming) cells(out *buffer, columns []report.Column, side sides, row []string) {
	for i, c := range columns {
		cell := ""
		if i < len(row) {
			cell = row[i]
		}
		out.put("<td", side.of(c), ">")
		n.inColumn(out, cell, c)
		out.put("</td>")
	}
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
func (n naming) short(name string) string {
	if sheet, rest, ok := strings.Cut(name, "."); ok && slices.Contains(n.sheets, sheet) {
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
func (n naming) head(text string) string {
	text = strings.ReplaceAll(text, "`", "")
	name, unit, found := strings.Cut(text, " [")
	set := n.title(name)
	if !found || unit == "1]" {
		return set
	}
	return set + ` <span class="unit">[` + html.EscapeString(unit) + "</span>"
}

// title is a name as formulas have it, with the value that a column is for behind it;
// what is no name is words.
func (n naming) title(text string) string {
	name, value, isFor := strings.Cut(text, " = ")
	if strings.Contains(name, ".") {
		name = strings.ReplaceAll(name, " ", "_") // a heading has blanks in the names of fields
	}
	label, ok := formula.Label(n.short(name))
	if !ok || !strings.ContainsAny(name, "._") {
		return html.EscapeString(strings.ReplaceAll(text, "_", " "))
	}
	if isFor {
		label += "\u00a0=\u00a0" + formula.Text(value)
	}
	return `<span class="name">` + label + "</span>"
}

func (n naming) inColumn(out *buffer, cell string, c report.Column) {
	switch {
	case c.Number && cell == "":
		out.put("—")
	case c.Number:
		out.text(cell)
	case c.Code:
		if ml, ok := formula.Path(n.short(cell)); ok {
			out.put("<math>", ml, "</math>")
			return
		}
		out.put(breakable("<code>" + html.EscapeString(cell) + "</code>"))
	default:
		out.put(breakable(ticks(cell)))
	}
}

// breakable lets a line of a narrow cell end behind the marks in a long name, and not
// within its words.
func breakable(cell string) string {
	if !strings.Contains(cell, "<code>") {
		return cell
	}
	var out strings.Builder
	for i := range len(cell) {
		if cell[i] == '[' {
			out.WriteString("<wbr>")
		}
		out.WriteByte(cell[i])
		if strings.IndexByte("_.(", cell[i]) >= 0 {
			if next, _ := utf8.DecodeRuneInString(cell[i+1:]); unicode.IsLetter(next) {
				out.WriteString("<wbr>")
			}
		}
	}
	return out.String()
}

// chart is a drawing on a white card, and its numbers as a table.
func (m *maker) chart(c report.Chart) {
	if c.State != report.Evaluated {
		m.out.put(`<p class="remark">Chart `, html.EscapeString(c.Title), " waits for <code>", html.EscapeString(c.Waits), "</code>.</p>")
		return
	}
	c.Span = message.Span{} // it may have moved
	m.out.put(`<figure class="chart" id="`, m.id("chart-"+c.Slug), `">`, remembered(m.Memory, "chart", chartInput{m.naming, c}, chartOf), "</figure>")
}

// A chartInput is all that a chart is made of.
type chartInput struct {
	naming
	chart report.Chart
}

func chartOf(in chartInput) string {
	var out buffer
	inline, narrow := chart.Inline(in.chart), chart.Narrow(in.chart)
	out.Grow(2 * (len(inline) + len(narrow))) // with the numbers
	out.put(inline, narrow, `<details class="numbers"><summary>the numbers</summary>`)
	for _, t := range chart.Numbers(in.chart) {
		in.grid(&out, t, "", "numbers of the chart")
		for _, n := range t.Notes {
			out.put(`<p class="remark">`, html.EscapeString(n), "</p>")
		}
	}
	out.put("</details>")
	return out.String()
}
