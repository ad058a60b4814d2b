package worksheet

import (
	"strings"
	"testing"

	"inkwing/evaluate/message"
)

// TestFileHints holds what is said of files and spans that are nearly right, where a
// builder would else get nothing or a wrong number.
func TestFileHints(t *testing.T) {
	block := func(text string) string { return "```working\n" + text + "\n```\n" }
	for name, test := range map[string]struct {
		page string
		says string // part of a message
		hint string // part of its hint
	}{
		"tildes": {"~~~working\na = 1\n", "this working block is not closed", "add a line of ~~~ behind"},
		"ticks":  {"```working\na = 1\n", "this working block is not closed", "add a line of ``` behind"},
		"more":   {"````working\na = 1\n```\n", "this working block is not closed", "add a line of ```` behind"},
		"a blank line in a table": {"<!-- table: cells -->\n\n| cell | mass [g] |\n| --- | --- |\n| B50 | 12 |\n\n| B60 | 13 |\n\n" +
			block(`m = cells["B50"].mass`), "a blank line parts this row from its table", "take the blank line out"},
		"no bracket":                       {block("E = 3 J") + "\nIt is `E = ?`.\n", "without a unit in its bracket this is prose", "write `E [J] = …`"},
		"no blank":                         {block("E = 3 J") + "\nIt is `E[Wh]=?`.\n", "without a blank before its bracket this is prose", "write `E [Wh] = …`"},
		"a formula":                        {block("E = 3 J") + "\nIt is `E/2 [J] = …`.\n", "only a quantity by its name is kept up to date", "a quantity that a block defines so"},
		"units in a row":                   {block(`use "units.csv"`), "its second row holds the units of the columns", "`t [s],U [V]`"},
		"data without head":                {block(`use "bare.csv"`), "the first row of `bare.csv` holds numbers", "`use \"bare.csv\" (t [s], U [V])`"},
		"a thousand or one, beside others": {block(`use "beside.csv"`), "`1.000` may be 1000 or 1,000", "without points"},
		"a thousand or one":                {block(`use "thousand.csv"`), "`1.000` may be 1000 or 1,000", "without points"},
		"UTF-16":                           {block(`use "wide.csv"`), "`wide.csv` is UTF-16: save it as UTF-8", ""},
		"a text file":                      {block(`use "log.txt"`), "a table of data in .csv, and this in .txt", ""},
	} {
		files := folder{"units.csv": "t,U\ns,V\n0,10\n1,9.9\n", "bare.csv": "0,10\n1,9.9\n", "beside.csv": "t [s];U [V]\n999;2,52\n1.000;2,51\n", "thousand.csv": "t [s];U [V]\n1.000;2,52\n2.000;2,51\n",
			"wide.csv": "\xff\xfet\x00", "log.txt": "t,U\n"}
		r := WorkText(t.Context(), files, "a.md", []byte(test.page))
		all := append(append([]string{}, said(r.Refused)...), said(r.Notes)...)
		if r.Report != nil {
			all = append(all, said(r.Report.Errors)...)
		}
		found := false
		for _, text := range all {
			found = found || strings.Contains(text, test.says) && strings.Contains(text, test.hint)
		}
		if !found {
			t.Errorf("%s: said %q", name, all)
		}
	}
}

// TestNoHints leaves alone what only looks like those: a formula in prose, a table
// with points only, headings behind the path, a prose line with bars below a table.
func TestNoHints(t *testing.T) {
	for name, page := range map[string]string{
		"a formula in prose": "```working\nE = 3 J\n```\n\nBy `E = 1/2 * C * V^2`, and `x = ?` of nobody.\n",
		"points":             "```working\nuse \"points.csv\"\nm = max(points.t)\n```\n",
		"named columns":      "```working\nuse \"bare.csv\" (t [s], U [V])\nm = max(bare.t)\n```\n",
		"bars below":         "<!-- table: cells -->\n\n| cell | mass [g] |\n| --- | --- |\n| B50 | 12 |\n\n| so to say | it | is |\n\n```working\nm = cells[\"B50\"].mass\n```\n",
		"keys like units":    "```working\nuse \"keys.csv\"\nm = keys[\"V\"].mass\n```\n",
	} {
		files := folder{"points.csv": "t [s];U [V]\n1.000;2.520\n2.000;2.510\n", "bare.csv": "0,10\n1,9.9\n", "keys.csv": "part,mass [g]\nV,3\nA,4\n"}
		r := WorkText(t.Context(), files, "a.md", []byte(page))
		if len(r.Refused)+len(r.Notes)+len(r.Report.Errors) > 0 {
			t.Errorf("%s: %q %q", name, said(r.Notes), said(r.Report.Errors))
		}
	}
}

func said(list []message.Diagnostic) (texts []string) {
	for _, d := range list {
		texts = append(texts, d.Summary+" | "+d.Hint)
	}
	return texts
}
