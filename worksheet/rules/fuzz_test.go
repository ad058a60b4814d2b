package rules

import (
	"testing"
)

// FuzzRules reads anything as rules and as searches, and asks a journal what could
// be read. Nothing panics, every message has a place inside of the text, and a
// rule that was read is judged.
func FuzzRules(f *testing.F) {
	for _, text := range []string{
		`every quantity where name endsWith ".x": value >= 40 s`, `no caution where level == "danger"`, "some limit\n  \"a\"",
		"quantity\n  columns name, value\n  sort -value\n  units mV\n  from \"a\"\n  chart \"c\"",
		`every given: -5 °C < value and not (uncertainty / value > 5 %) # so`, `every limit: abs(worked - allowed) in 3 in`,
		`every table: "t" in columns or len(name) ** 2 != 1e400`, `every given: value in ["a`, "no error where \u2264 \xff",
		`every given: all(columns, {# == 1}) ? 1 : 2`, `every given: [1, 2][0] .. 3 | map(now())`,
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		lines := lineOf(text)
		list, problems := ReadPage("club.md", lines)
		searches, more := ReadSearches("club.md", lines[0])
		for _, d := range append(problems, more...) {
			if d.Span.Start < 0 || d.Span.End < d.Span.Start || d.Span.End > len(text) || d.Summary == "" {
				t.Fatalf("%q: %+v", text, d)
			}
		}
		j := journal()
		for _, r := range list {
			for _, d := range r.Judge(j) {
				if d.Summary == "" || len(d.Notes) != 1 {
					t.Fatalf("%q: %+v", text, d)
				}
			}
		}
		for _, s := range searches {
			finds := s.Pick(j)
			table := s.Table(finds)
			if len(table.Rows) != len(finds) || len(table.Columns) == 0 {
				t.Fatalf("%q: %d rows of %d finds", text, len(table.Rows), len(finds))
			}
			s.Chart(finds)
		}
	})
}
