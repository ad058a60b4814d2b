package region

import "inkwing/evaluate/report"

// found is the table that a statement came to: its name, the table, and its
// notes as sentences, each a part of its own.
func found(t report.Table) (parts [][]string) {
	switch {
	case t.State == report.Failed:
		return nil
	case t.State == report.Waiting:
		return [][]string{{subject(t) + " " + remark(t.State, t.Waits, "") + "."}}
	case t.Name != "":
		parts = append(parts, []string{subject(t) + ":"})
	}
	if len(t.Columns) > 0 && len(t.Rows) > 0 {
		parts = append(parts, laid(t))
	}
	for _, note := range t.Notes {
		parts = append(parts, []string{sentence(note)})
	}
	return parts
}

// subject names a table.
func subject(t report.Table) string {
	switch {
	case t.Verb == "budget":
		return "Uncertainty budget of " + code(t.Name, inParagraph)
	case t.Name == "":
		return "What " + code(t.Verb, inParagraph) + " finds"
	}
	return "Table " + code(t.Name, inParagraph)
}

// laid is a table without its details.
func laid(t report.Table) []string {
	out := table{rows: make([][]string, len(t.Rows))}
	for i, c := range t.Columns {
		if c.Detail {
			continue
		}
		out.columns = append(out.columns, column{free(c.Head, inCell), c.Number})
		for k, row := range t.Rows {
			cell := ""
			if i < len(row) {
				cell = inColumn(row[i], c)
			}
			out.rows[k] = append(out.rows[k], cell)
		}
	}
	return out.lines()
}

// inColumn writes a cell: names as code, and a dash for a number there is none of.
func inColumn(text string, c report.Column) string {
	switch {
	case c.Code:
		return code(text, inCell)
	case c.Number:
		return shown(text)
	}
	return free(text, inCell)
}
