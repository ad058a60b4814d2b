// Package region says what a worked region holds: what could not be worked, the table
// of quantities, the table of limits, the tables of what-ifs, charts, and a callout
// for each level of cautions.
//
// [Lines] lays a block's report out; [Same] compares two layouts in meaning, so
// that what a formatter re-padded or re-wrapped counts as fresh. Its limit: a
// callout's paragraph is one line, however long, since only that survives every
// way in which formatters wrap prose.
package region

import (
	"strings"

	"inkwing/evaluate/report"
)

// The marker lines.
const (
	Open  = "<!-- worked: rewritten by every run -->"
	Close = "<!-- /worked -->"
)

// Lines lays out what a block came to, without markers, the container's prefix,
// and blank lines around it; nil if there is nothing to say. Nested is for a
// block in a list or quote, where hosts draw no callout: its points become
// paragraphs with a bold word.
func Lines(b report.Block, nested bool) []string {
	parts := unworked(b).lines(nested)
	if b.Overview != nil {
		parts = overview(parts, b.Overview, nested)
	}
	if len(b.Rows) > 0 {
		parts = append(parts, quantities(b.Rows))
	}
	parts = append(parts, bounds(b)...)
	for _, t := range b.Tables {
		parts = append(parts, found(t)...)
	}
	for _, c := range b.Charts {
		parts = append(parts, []string{chart(c)})
	}
	for _, c := range callouts(b) {
		parts = apart(parts, c, c.lines(nested))
	}
	if b.Closing != "" {
		parts = append(parts, []string{sentence(b.Closing)})
	}
	return join(parts)
}

// join puts a blank line between parts.
func join(parts [][]string) (lines []string) {
	for i, part := range parts {
		if i > 0 {
			lines = append(lines, "")
		}
		lines = append(lines, part...)
	}
	return lines
}

// The headings of the tables of quantities and limits, by which they are known
// again.
const (
	quantityHead = "Quantity"
	valueHead    = "Value"
	limitHead    = "Limit"
	workedHead   = "Worked"
	keptHead     = "Kept by"
)

// quantities is the table of what was worked.
func quantities(rows []report.Quantity) []string {
	t := table{columns: []column{{quantityHead, false}, {valueHead, true}}}
	noted := false
	for _, q := range rows {
		note := remark(q.State, q.Waits, q.Note)
		noted = noted || note != ""
		t.rows = append(t.rows, []string{code(q.Name, inCell), shown(q.Shown), note})
	}
	return t.noted(noted).lines()
}

// noted adds the note column, or takes the notes off: a column only if there is
// something in it.
func (t table) noted(yes bool) *table {
	if yes {
		t.columns = append(t.columns, column{"Note", false})
		return &t
	}
	for i, row := range t.rows {
		t.rows[i] = row[:len(t.columns)]
	}
	return &t
}

// shown is a worked value; what there is none of is a dash.
func shown(value string) string {
	if value == "" {
		return "—"
	}
	return free(value, inCell)
}

// remark is a row's note: why it has no value, then the builder's own.
func remark(state report.State, waits, note string) string {
	var parts []string
	switch {
	case state == report.Failed:
		parts = append(parts, "not worked")
	case state == report.Waiting && waits != "":
		parts = append(parts, "waits for "+code(waits, inCell))
	case state == report.Waiting:
		parts = append(parts, "waits")
	}
	if note != "" {
		parts = append(parts, free(note, inCell))
	}
	return strings.Join(parts, "; ")
}
