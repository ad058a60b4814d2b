package evaluate

import (
	"fmt"
	"strings"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
)

// result holds one line of -- results against the report.
func (c *conformanceCase) result(r *report.Report, line string) string {
	line = strings.TrimSpace(line)
	if line == "" || strings.HasPrefix(line, "#") {
		return ""
	}
	if rest, ok := strings.CutPrefix(line, "limit "); ok {
		return c.limit(r, rest)
	}
	if rest, ok := strings.CutPrefix(line, "table "); ok {
		return c.tableResult(r, rest)
	}
	if rest, ok := strings.CutPrefix(line, "block "); ok {
		return blockResult(r, rest)
	}
	if rest, ok := strings.CutPrefix(line, "note of "); ok {
		name, note, _ := strings.Cut(rest, " : ")
		if q := kit.Quantity(r, name); q == nil || q.Note != note {
			return fmt.Sprintf("is %+v", q)
		}
		return ""
	}
	if name, other, ok := strings.Cut(line, " waits for "); ok {
		q := kit.Quantity(r, name)
		if q == nil || q.State != report.Waiting || q.Waits != other {
			return fmt.Sprintf("is %+v", q)
		}
		return ""
	}
	name, shown, _ := strings.Cut(line, " = ")
	q := kit.Quantity(r, name)
	if q == nil {
		return "no such quantity"
	}
	if q.Shown != strings.TrimSpace(shown) {
		return "is " + q.Shown
	}
	return ""
}

// limit holds "N holds", "N does not hold", either with " : worked, allowed,
// headroom", or "N at : text" against the N-th limit.
func (c *conformanceCase) limit(r *report.Report, rest string) string {
	var n int
	if _, err := fmt.Sscanf(rest, "%d", &n); err != nil || n < 1 || n > len(r.Limits) {
		return "no such limit"
	}
	l := r.Limits[n-1]
	said, numbers, _ := strings.Cut(rest, " : ")
	if strings.HasSuffix(said, " at") {
		return differs(c.textAt(l.Span), numbers)
	}
	if l.State != report.Evaluated || l.Holds == strings.Contains(said, "not hold") {
		return fmt.Sprintf("is %+v", l)
	}
	if numbers != "" && numbers != l.Value+", "+l.Allowed+", "+l.Headroom {
		return "is " + l.Value + ", " + l.Allowed + ", " + l.Headroom
	}
	return ""
}

// tableResult holds "N head : a | b", "N row K : a | b", "N rows : K",
// "N says : sentence", "N at : text" or "N waits for name" against the N-th table.
func (c *conformanceCase) tableResult(r *report.Report, rest string) string {
	var tables []report.Table
	for _, b := range r.Blocks {
		tables = append(tables, b.Tables...)
	}
	words, want, _ := strings.Cut(rest, " : ")
	var n, k int
	if _, err := fmt.Sscanf(words, "%d", &n); err != nil || n < 1 || n > len(tables) {
		return "no such table"
	}
	t, got := tables[n-1], ""
	switch _, what, _ := strings.Cut(words, " "); {
	case what == "head":
		for _, c := range t.Columns {
			got += " | " + c.Head
		}
	case what == "rows":
		got = " | " + fmt.Sprint(len(t.Rows))
	case what == "says":
		got = " | " + strings.Join(t.Notes, " ")
	case what == "at":
		got = " | " + c.textAt(t.Span)
	case strings.HasPrefix(what, "waits for "):
		got, want = " | "+t.Waits, strings.TrimPrefix(what, "waits for ")
	default:
		if _, err := fmt.Sscanf(what, "row %d", &k); err != nil || k < 1 || k > len(t.Rows) {
			return "no such row"
		}
		got = " | " + strings.Join(t.Rows[k-1], " | ")
	}
	if got = strings.TrimRight(strings.TrimPrefix(got, " | "), " |"); got != want {
		return "is " + got
	}
	return ""
}

// blockResult holds "N shows : name, name", "N tables : verb, verb" or
// "N notes : sentence" against what the region of the N-th block has.
func blockResult(r *report.Report, rest string) string {
	words, want, _ := strings.Cut(rest, " : ")
	var n int
	var what string
	if _, err := fmt.Sscanf(words, "%d %s", &n, &what); err != nil || n < 1 || n > len(r.Blocks) {
		return "no such block"
	}
	var got []string
	switch b := r.Blocks[n-1]; what {
	case "shows":
		for _, q := range b.Rows {
			got = append(got, q.Name)
		}
	case "tables":
		for _, t := range b.Tables {
			got = append(got, t.Verb)
		}
	case "notes":
		return differs(strings.Join(b.Notes, " "), want)
	default:
		return "a block shows, tables or notes something"
	}
	return differs(strings.Join(got, ", "), want)
}

func differs(got, want string) string {
	if got != want {
		return "is " + got
	}
	return ""
}
