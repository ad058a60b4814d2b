package worksheet

import (
	"fmt"
	"testing"
)

// TestDecimalCommas wants numbers with decimal commas read where they can be read
// in no other way, and refused everywhere else.
func TestDecimalCommas(t *testing.T) {
	for name, c := range map[string]struct {
		csv, columns, want string // the sums of the columns; the error's beginning
	}{
		"semicolons":           {"t;U\n0,5;2,65\n1;2,6\n-1,5e1;1\n", "", "-13.5 s 6.25 V"},
		"tabs, quoted":         {"t\tU\n\"0,5\"\t 2,65 \n1\t2,6\n", "", "1.5 s 5.25 V"},
		"first row is data":    {"0,5;2,65\n1,5;2,6\n", "", "2 s 5.25 V"},
		"its only comma":       {"0,5;2,65\n1;2,6\n", "", "1.5 s 5.25 V"},
		"own headings":         {"t [s];U [V]\n0,5;2,65\n", "own", "0.5 s 2.65 V"},
		"one column only":      {"t;U\n0.5;2,65\n1.5;2,6\n", "", "2 s 5.25 V"},
		"three decimals":       {"t;U\n1,250;2,650\n1,5;2,6\n", "", "2.75 s 5.25 V"},
		"below one":            {"t;U\n0,250;0,125\n", "", "0.25 s 0.125 V"},
		"four before":          {"t;U\n1250,125;2\n", "", "1250 s 2 V"},
		"thousands or not":     {"t;U\n1,250;2\n12,500;3\n", "", "`1,250` is no number; nor can one more cell of its column be read"},
		"thousands and a zero": {"t;U\n1,250;2\n0,500;3\n", "", "1.75 s 5 V"},
		"points too":           {"t;U\n1,5;2\n1.5;3\n", "", "`1,5` is no number"},
		"two commas":           {"t;U\n1,5;2\n1,000,000;3\n", "", "`1,5` is no number; nor can one more cell of its column be read"},
		"points and commas":    {"t;U\n1,5;2\n1.000,5;3\n", "", "`1,5` is no number; nor can one more cell of its column be read"},
		"a spread":             {"t;U\n1,5;2\n1,5 ± 0,1;3\n", "", "`1,5` is no number; nor can one more cell of its column be read"},
		"quoted, with commas":  {"t,U\n\"1,5\",2\n", "", "`1,5` is no number"},
		"points, as ever":      {"t;U\n0.5;2.65\n1;2.6\n", "", "1.5 s 5.25 V"},
	} {
		columns := " (t [s], U [V])"
		if c.columns == "own" {
			columns = ""
		}
		page := "```working\nuse \"log.csv\" as log" + columns + "\nt [s] = sum(log.t)\nU [V] = sum(log.U)\n```\n"
		r := WorkText(t.Context(), folder{"log.csv": c.csv}, "a.md", []byte(page))
		got := ""
		for _, q := range r.Report.Quantities {
			got += " " + q.Shown
		}
		got = got[min(1, len(got)):]
		if len(r.Report.Errors) > 0 {
			got = r.Report.Errors[0].Summary
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q %s", name, got, c.want, fmt.Sprint(r.Report.Errors))
		}
	}
}
