package rules

import (
	"strings"
	"testing"

	"inkwing/evaluate/report"
	"inkwing/units"
)

// found runs a search over two journals, and gives its table as text.
func found(t *testing.T, text string) (*Search, []Find) {
	t.Helper()
	list, problems := ReadSearches("page.md", lineOf(text)[0])
	if len(problems) > 0 || len(list) != 1 {
		t.Fatalf("%s: %+v", text, problems)
	}
	list[0].ShowLines()
	finds := list[0].Pick(journal())
	other := journal()
	other.name = "journals/b.md"
	other.report.Quantities = []report.Quantity{
		{Name: "V_full", Path: "a.md", Span: on(2), Value: 9.75, Kind: units.MustParse("V").Kind, Unit: units.MustParse("mV"), Shown: "9750 mV"},
	}
	return list[0], append(finds, list[0].Pick(other)...)
}

func asText(table report.Table) string {
	var lines []string
	var heads []string
	for _, c := range table.Columns {
		heads = append(heads, strings.Trim(c.Head, "`"))
	}
	lines = append(lines, strings.Join(heads, " | "))
	for _, row := range table.Rows {
		lines = append(lines, strings.Join(row, " | "))
	}
	return strings.Join(lines, "\n")
}

func TestTable(t *testing.T) {
	for _, c := range []struct{ search, want string }{
		{`quantity where name == "V_full"`, "journal | name | value [V] | interval [V] | line\n" +
			"journals/a.md | V_full | 12.50 | 12.40 to 12.60 | 1\njournals/b.md | V_full | 9.75 | — | 2"},
		{"quantity where name == \"V_full\"\n  units mV\n  columns value, uncertainty\n  sort value",
			"value [mV] | uncertainty [mV]\n9750 | 0\n12500 | 100"},
		{"quantity where name == \"V_full\"\n  sort -journal\n  columns journal", "journal\njournals/b.md\njournals/a.md"},
		// Of several kinds, each value has its unit.
		{"quantity where name in [\"warm\", \"n\", \"ready\"]\n  columns name, value, interval",
			"name | value | interval\nn | 5 | —\nwarm | 20.0 °C | 19.0 to 21.0 °C\nready | yes | —"},
		{"quantity where failed\n  columns name, value", "name | value\nup.control_margin | —"},
		{"caution where level == \"danger\" and journal endsWith \"a.md\"\n  columns id, level", "id | level\nspinning-rotor | danger"},
		{"table\n  columns columns, rows\n  sort journal", "columns | rows\nn, t | 1\nn, t | 1"},
	} {
		s, finds := found(t, c.search)
		if got := asText(s.Table(finds)); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.search, got, c.want)
		}
	}
}

func TestEmptyTable(t *testing.T) {
	s, finds := found(t, `quantity where name == "nowhere"`)
	if table := s.Table(finds); len(table.Rows) != 0 || len(table.Notes) != 1 || table.Notes[0] != "no quantity of that kind was found" {
		t.Errorf("%+v", table)
	}
}

func TestSearchMistakes(t *testing.T) {
	for _, c := range []struct{ search, at, says, hint string }{
		{"quantities", "quantities", "nothing that can be looked for", ""},
		{"quantity with x", "with", "stands `where`", ""},
		{"quantity\n  columns nme", "nme", "no column of a quantity", "did you mean `name`?"},
		{"limit\n  columns interval", "interval", "no column of a limit", ""},
		{"quantity\n  sort velue", "velue", "no column", "did you mean `value`?"},
		{"quantity\n  units Volt", "Volt", "no unit", ""},
		{"quantity\n  from journals", "journals", "stands in quotes", ""},
		{"quantity\n  chart Times", "Times", "stands in quotes", ""},
		{"caution\n  columns id\n  chart \"Times\"", `"Times"`, "no column of this search is a number", ""},
	} {
		_, problems := ReadSearches("page.md", lineOf(c.search)[0])
		if len(problems) != 1 {
			t.Errorf("%s: %d problems", c.search, len(problems))
			continue
		}
		d := problems[0]
		if at := c.search[d.Span.Start:d.Span.End]; at != c.at || !strings.Contains(d.Summary, c.says) || !strings.Contains(d.Hint, c.hint) {
			t.Errorf("%s\n at %q: %s | %s", c.search, at, d.Summary, d.Hint)
		}
	}
}

func TestChart(t *testing.T) {
	s, finds := found(t, "quantity where name in [\"V_full\", \"n\"]\n  from \"journals\", \"x.md\"\n  chart \"Full\"")
	if len(s.From) != 2 || s.From[1].Path != "x.md" {
		t.Errorf("from %v", s.From)
	}
	c, why := s.Chart(finds)
	if why != "" || len(c.Panels) != 2 || c.Panels[0].Unit != "V" || c.Panels[1].Unit != "" || strings.Join(c.Labels, " ") != "a b" {
		t.Fatalf("%s %+v", why, c)
	}
	one := c.Panels[0].Series[0]
	if one.Name != "V_full" || one.X[1] != 2 || one.Y[0] != 12.5 || one.Y[1] != 9.75 || one.U[0] != 0.1 || one.U[1] != 0 {
		t.Errorf("%+v", one)
	}
	if want := "Full: V_full from 9.75 V to 12.5 V; n 5; in 2 journals."; c.Alt != want {
		t.Errorf("%s, want %s", c.Alt, want)
	}
	for want, paths := range map[string][]string{
		"lapwing|wren": {"samples/lapwing/journal.md", "samples/wren/journal.md"},
		"a":            {"x/a.md"}, "a|b/a": {"x/a.md", "x/b/a.md"},
	} {
		if got := strings.Join(shortened(paths), "|"); got != want {
			t.Errorf("%v: %s, want %s", paths, got, want)
		}
	}
}
