package present_test

import (
	"slices"
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

// lines are what a report shows beside quantities: limits, tables row by row, notes,
// cautions, errors.
func lines(r *report.Report) string {
	var out []string
	for _, l := range r.Limits {
		out = append(out, "limit "+l.Value+" | "+l.Allowed)
	}
	for _, b := range r.Blocks {
		for _, table := range b.Tables {
			for _, row := range table.Rows {
				out = append(out, strings.Join(row, " | "))
			}
			out = append(out, table.Notes...)
		}
		out = append(out, b.Notes...)
	}
	for _, c := range r.Cautions {
		out = append(out, "caution "+strings.Join(c.Names, ", "))
	}
	for _, e := range r.Errors {
		out = append(out, "error "+e.Summary)
	}
	return strings.Join(out, "\n") + "\n"
}

// TestTexts holds what is written beside quantities to what is worked by hand. The
// parts of a budget are as in JCGM 100:2008, table H.1; Student's factor for 95.45 %
// and ν = 3 is 3.31 there, in table G.2.
func TestTexts(t *testing.T) {
	const held = "U = 100 mV ± 3 mV\nW = 1 * U\n"
	for text, want := range map[string][]string{
		// As many digits as it takes to see why it does not hold.
		"a = 1.00001 V\nlimit a <= 1 V": {"limit 1.00001 V | 1 V"},
		"a = 0.99999 V\nlimit a <= 1 V": {"limit 1 V | 1 V"},

		// The difference is a part of the size of what was worked.
		"x = -10 m\nmeasured x = -9 m ± 0.5 m":   {"x | -10 m | (-9.00 ± 0.50) m | (1.00 ± 0.50) m | +10 % | 4 | disagree"},
		"x = 10 m\nmeasured x = 10.35 m ± 0.2 m": {"| 3.5 | disagree"},
		"x = 10 m\nmeasured x = 10.25 m ± 0.2 m": {"| 2.5 | doubtful"},
		// Each trial by its own difference: √(3² + 4²)/2 mV, then without a spread.
		held + "measured W = [105 mV ± 4 mV, 103 mV]": {"trial 1 | (0.1000 ± 0.0030) V | (0.1050 ± 0.0040) V | (5.0 ± 5.0) mV | +5 % | 2 |", "trial 2 | (0.1000 ± 0.0030) V | 0.103 V | (3.0 ± 3.0) mV | +3 % | 2 |"},
		// 1 against an interval of 2 · 1.96 · 1, which holds 95 %.
		"x = 3 ± 1\ny = 2 * x\nmeasured y = 7\ndraws 20_000": {"| +17 % | 1 | agree"},

		// u(Q) = √(2.5² + 2²) C, of which V has 6.25/10.25.
		"C = 50 F ± 2 %\nV = 4_000 mV ± 100 mV\nQ = C * V\nbudget Q": {
			"V | 4000 mV | 50 mV | 0.05 C per mV | 2.5 C | 61 %", "C | 50.0 F | 0.50 F | 4 C per F | 2.0 C | 39 %", "Together u = 3.2 C: (200.0 ± 6.4) C at 95.45 %"},
		"U = observed([1 V, 2 V, 2 V, 3 V])\nP = 2 * U\nbudget P": {"Together u = 0.82 V with ν = 3: (4.0 ± 2.7) V"},
		// Welch-Satterthwaite: (1 + 1)²/(1/3 + 1/2) = 4.8, which is cut off (JCGM 100, G.6.4).
		"a = observed([1 V, 2 V, 3 V, 4 V])\nb = observed([2 V, 4 V, 6 V]) * 0.559017\nP = a + b\nbudget P": {"with ν = 4: "},

		// Each row with its own interval; what does not depend is said.
		"a = 1 m ± 10 mm\nn = 1\nb = n * a\nc = 2 * a\nvary n in 1 to 3 by 1: b, c": {"3 | 3.000 ± 0.030 | 2.000 ± 0.020", "`c` does not depend on `n`."},
		"a = 1 m ± 10 mm\nn = 1\nb = n * a\nvary n in 1 to 600 by 1: b":             {"Intervals are left out: with this many uncertain inputs a table of up to 500 rows has them."},
	} {
		got := lines(kit.Clean(t, evaluate.Work(t.Context(), kit.Block("notes.md", text), nil), text))
		for _, part := range want {
			if !strings.Contains(got, part) {
				t.Errorf("%s\nshows\n%s\nwithout %q", text, got, part)
			}
		}
	}
}

// TestCautionsOfUsed leaves what a used worksheet cautions of to its own page.
func TestCautionsOfUsed(t *testing.T) {
	const hot = "cell = capacitor(capacitance: 50 F, rated_voltage: 2.7 V, resistance: 16 mΩ)\nV_cell = worst_cell_voltage(pack(cell, series: 4), 12 V)"
	own := evaluate.Work(t.Context(), kit.Block("parts.md", hot), nil)
	if len(own.Cautions) == 0 {
		t.Fatal("nothing to caution of")
	}
	files := kit.Sheets{"parts.md": kit.Block("parts.md", hot)}
	if r := evaluate.Work(t.Context(), kit.Block("notes.md", "use \"parts.md\"\nx = parts.V_cell"), files); len(r.Cautions) > 0 {
		t.Errorf("it cautions %v", r.Cautions)
	}
}

// TestTooManyPoints draws as many points as a page may have, and no more.
func TestTooManyPoints(t *testing.T) {
	rows := [][]string{{"t [s]", "U [V]"}}
	for range 50_000 {
		rows = append(rows, []string{"1", "2"})
	}
	log := kit.Table("log", rows...)
	for charts, errors := range map[int]int{20: 0, 22: 2} {
		text := strings.Repeat("chart \"log\": U against t from log\n", charts)
		r := evaluate.Work(t.Context(), kit.BlockWith("notes.md", text, log), nil)
		if len(r.Errors) != errors {
			t.Errorf("%d charts: %d errors", charts, len(r.Errors))
		}
		for _, e := range r.Errors {
			if !strings.Contains(e.Summary, "more than 1,000,000 points") || e.Hint == "" {
				t.Errorf("%s | %s", e.Summary, e.Hint)
			}
		}
	}
}

// TestInlineUnit shows a value in the prose in a unit of its own kind only.
func TestInlineUnit(t *testing.T) {
	for unit, says := range map[string]string{"mV": "", "V": "", "A": "a voltage (V), not a current (A)", "°C": "a voltage (V), not a temperature", "text": ""} {
		s := kit.Block("notes.md", "U = 4 V")
		s.Inline = []sheet.Inline{{Name: "U", Unit: syntax.Unit{Text: unit}}}
		r := evaluate.Work(t.Context(), s, nil)
		if says == "" && unit != "text" {
			kit.Clean(t, r, unit)
		} else if len(r.Errors) != 1 || !strings.Contains(r.Errors[0].Summary, says) {
			t.Errorf("[%s]: %v", unit, r.Errors)
		}
	}
}

// TestChartOfKnown draws a row where both of its numbers are known.
func TestChartOfKnown(t *testing.T) {
	log := kit.Table("log", []string{"t [s]", "U [V]"}, []string{"1", "2"}, []string{"", "3"}, []string{"3", ""}, []string{"4", "5"})
	r := kit.Clean(t, evaluate.Work(t.Context(), kit.BlockWith("notes.md", "chart \"log\": U against t from log", log), nil), "log")
	s := r.Blocks[0].Charts[0].Panels[0].Series[0]
	if !slices.Equal(s.X, []float64{1, 4}) || !slices.Equal(s.Y, []float64{2, 5}) {
		t.Errorf("%v, %v", s.X, s.Y)
	}
}
