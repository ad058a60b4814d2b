package worksheet

import (
	"errors"
	"strings"
	"testing"

	"inkwing/worksheet/chart"
)

const charted = `<!-- table: log -->

| t [s] | U [V] |
| ----: | ----: |
|     0 |  12.5 |
|    10 |  11.9 |

` + "```working\nchart \"Rest\": U [V] against t [s] from log\n```\n"

// workCharts runs a page and gives the chart files that should change, as
// "path old new" with the lengths of the texts told as - or x.
func workCharts(t *testing.T, files folder, text string) (*Result, string) {
	t.Helper()
	r := WorkText(t.Context(), files, "a/notes.md", []byte(text))
	var list []string
	for _, c := range r.Charts {
		list = append(list, c.Path+" "+there(c.Old)+there(c.New))
	}
	return r, strings.Join(list, ", ")
}

func there(text []byte) string {
	if text == nil {
		return "-"
	}
	return "x"
}

func TestCharts(t *testing.T) {
	first, list := workCharts(t, folder{}, charted)
	if list != "a/notes.charts/rest.svg -x" || !first.Changed() {
		t.Fatal(list)
	}
	drawn, page := string(first.Charts[0].New), string(first.Output)
	if !strings.Contains(page, "\n![Rest: U, measured, 11.9–12.5 V; against t 0–10 s.](notes.charts/rest.svg)\n") {
		t.Error(page)
	}
	for _, c := range []struct {
		name  string
		files folder
		text  string
		want  string
	}{
		{"fresh", folder{"a/notes.charts/rest.svg": drawn}, page, ""},
		{"stale", folder{"a/notes.charts/rest.svg": strings.Replace(drawn, "12.", "13.", 1) + "\n"}, page, "a/notes.charts/rest.svg xx"},
		{"left over", folder{"a/notes.charts/rest.svg": drawn, "a/notes.charts/old.svg": drawn}, page, "a/notes.charts/old.svg x-"},
		{"another's", folder{"a/notes.charts/rest.svg": drawn, "a/notes.charts/own.svg": "<svg/>", "a/notes.charts/own.txt": drawn}, page, ""},
		{"another page's", folder{"a/notes.charts/rest.svg": drawn, "a/other.charts/x.svg": drawn, "notes.charts/x.svg": drawn}, page, ""},
		{"no block left", folder{"a/notes.charts/rest.svg": drawn}, page[strings.Index(page, "<!-- worked"):], "a/notes.charts/rest.svg x-"},
		{"refused", folder{"a/notes.charts/rest.svg": drawn}, strings.Replace(page, "<!-- /worked -->", "", 1), ""},
	} {
		r, got := workCharts(t, c.files, c.text)
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
		if changed := len(r.Charts) > 0 || r.TextChanged(); r.Changed() != changed {
			t.Errorf("%s: changed %v", c.name, r.Changed())
		}
	}
}

// locked is a folder in which charts cannot be kept.
type locked struct{ folder }

func (locked) List(string) ([]string, error) { return nil, errors.New("is a file") }

// TestChartsInTheWay wants a file that is not ours to stay, the builder to be
// told, and no picture of it.
func TestChartsInTheWay(t *testing.T) {
	drawn := string(WorkText(t.Context(), folder{}, "a/notes.md", []byte(charted)).Charts[0].New)
	for name, files := range map[string]Files{
		"another's":     folder{"a/notes.charts/rest.svg": "<svg/>"},
		"other letters": folder{"a/notes.charts/Rest.svg": drawn},
		"no folder":     locked{},
	} {
		r := WorkText(t.Context(), files, "a/notes.md", []byte(charted))
		for _, c := range r.Charts {
			if c.New != nil {
				t.Errorf("%s: %s would be written", name, c.Path)
			}
		}
		out := string(r.Output)
		if len(r.Report.Errors) != 1 || strings.Contains(out, "![") || !strings.Contains(out, "Not worked: `chart \"Rest\": U [V] against t [s] from log`: the chart cannot be kept") {
			t.Errorf("%s: %v\n%s", name, r.Report.Errors, out)
		}
	}
}

func TestStripCharts(t *testing.T) {
	drawn := string(WorkText(t.Context(), folder{}, "a/notes.md", []byte(charted)).Charts[0].New)
	if !chart.IsOurs([]byte(drawn)) {
		t.Fatal("a chart without the mark")
	}
	list := StripCharts(folder{"a/notes.charts/rest.svg": drawn, "a/notes.charts/own.svg": "<svg/>"}, "a/notes.md")
	if len(list) != 1 || list[0].Path != "a/notes.charts/rest.svg" || list[0].New != nil || string(list[0].Old) != drawn {
		t.Errorf("%+v", list)
	}
	if list := StripCharts(locked{}, "a/notes.md"); list != nil {
		t.Errorf("%+v", list)
	}
}
