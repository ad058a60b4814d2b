package present_test

import (
	"fmt"
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
)

// marginText is a margin as value, allowed range, headroom and ratio, with ∅ for
// what it has not.
func marginText(m *report.Margin) string {
	if m == nil {
		return "none"
	}
	parts := []string{fmt.Sprintf("%.9g", m.Value)}
	for _, x := range []*float64{m.Low, m.High, &m.Headroom, m.Ratio} {
		text := "∅"
		if x != nil {
			text = fmt.Sprintf("%.9g", *x)
		}
		parts = append(parts, text)
	}
	return strings.Join(append(parts, m.SIUnit), " ")
}

// TestMargin wants a limit in numbers beside its texts, worked by hand. The
// operands are shown in what the builder wrote, the numbers are in SI.
func TestMargin(t *testing.T) {
	for _, c := range []struct{ limit, margin, headroom string }{
		{"U <= 10 V", "8 ∅ 10 2 0.2 V", "20 %"},
		{"U >= 5 V", "8 5 ∅ 3 0.6 V", "60 %"},
		{"10_000 mV >= U", "8 ∅ 10 2 0.2 V", "20 %"}, // what is written out is the bound
		{"U < 5 V", "8 ∅ 5 -3 -0.6 V", "-60 %"},
		{"5 V <= U <= 10 V", "8 5 10 2 0.2 V", "20 %"},
		{"5 V <= U <= 20 V", "8 5 20 3 0.6 V", "60 %"}, // 3/5 of the lower and 12/20 of the upper: the lower is told
		{"10 V > U > 7.6 V", "8 7.6 10 0.4 0.0526315789 V", "5.3 %"},
		{"9 V <= U <= 10 V", "8 9 10 -1 -0.111111111 V", "-11 %"},
		{"U > 0 V", "8 0 ∅ 8 ∅ V", "—"},
		{"U > -4 V", "8 -4 ∅ 12 3 V", "300 %"},
		{"3 * e <= 8.1 V", "8.1 ∅ 8.1 0 0 V", "0 %"}, // 3 · 2.7 is a little more in binary
		{"T <= 40 °C", "293.15 ∅ 313.15 20 ∅ K", "20 K"},
		{"n <= 4", "3 ∅ 4 1 0.25 1", "25 %"},
		{"U > later", "none", "—"},
	} {
		text := "U = 8 V\ne = 2.7 V\nT = 20 °C\nn = 3\nlater = sqrt(U - 9 V)\nlimit " + c.limit
		r := evaluate.Work(t.Context(), kit.Block("notes.md", text), nil)
		if len(r.Limits) != 1 {
			t.Fatal(c.limit, r.Errors)
		}
		l := r.Limits[0]
		if got := marginText(l.Margin); got != c.margin || l.Headroom != c.headroom {
			t.Errorf("%s: %s, headroom %s, want %s, %s", c.limit, got, l.Headroom, c.margin, c.headroom)
		}
	}
}

// TestMarginOfDraws wants the means of what was drawn: of x² with x = 3 ± 1 at two
// standard uncertainties it is 3² + 0.5² = 9.25.
func TestMarginOfDraws(t *testing.T) {
	l := evaluate.Work(t.Context(), kit.Block("notes.md", "x = 3 ± 1\nlimit x^2 <= 10\ndraws 100_000"), nil).Limits[0]
	if m := l.Margin; m == nil || !kit.Within(m.Value, 9.25, 2e-3) || !kit.Within(m.Headroom, 0.75, 2e-2) || !kit.Within(*m.Ratio, 0.075, 2e-2) || !l.Straddle {
		t.Errorf("%s, straddles %v", marginText(l.Margin), l.Straddle)
	}
}

// TestStraddle wants a limit to say that its bound lies within the interval of
// what it tests, by the difference of its two sides as one quantity.
func TestStraddle(t *testing.T) {
	for _, c := range []struct {
		text            string
		holds, straddle bool
	}{
		{"limit U <= 10.1 V", true, true},
		{"limit U <= 10.3 V", true, false},
		{"limit U <= 9.9 V", false, true},
		{"limit U <= 9.7 V", false, false},
		{"limit U >= 9.9 V", true, true},
		{"limit 9.9 V <= U <= 11 V", true, true},
		{"limit 9 V <= U <= 10.1 V", true, true},
		{"limit 9 V <= U <= 11 V", true, false},
		{"limit U <= U + 0.01 V", true, false},        // of one input on both sides nothing is left
		{"limit U <= 10.1 V ± 0.01 V", true, true},    // √(0.2² + 0.01²) V
		{"limit U <= 10.201 V ± 0.2 V", true, true},   // √2·0.2 V
		{"limit 20 V - U <= U + 0.3 V", true, true},   // 2·0.2 V
		{"limit 20 V - U <= U + 0.41 V", true, false}, // 2·0.2 V
		{"limit U / 2 <= 10.1 V / 2\ndraws 2_000", true, true},
		{"limit U / 2 <= 10.3 V / 2\ndraws 2_000", true, false},
	} {
		text := "U = 10 V ± 0.2 V\n" + c.text
		l := kit.Clean(t, evaluate.Work(t.Context(), kit.Block("notes.md", text), nil), text).Limits[0]
		if l.Holds != c.holds || l.Straddle != c.straddle {
			t.Errorf("%s: holds %v, straddles %v", c.text, l.Holds, l.Straddle)
		}
	}
}

// TestBrokenInRow names the limits that the rows of a what-if break, beside one that cannot
// be read.
func TestBrokenInRow(t *testing.T) {
	const text = "x = 2 V\ny = 2 * x\nlimit y <= 3 V\nlimit mistyped <= 3 V\nvary x in 1 V to 2 V by 1 V: y"
	r := evaluate.Work(t.Context(), kit.Block("notes.md", text), nil)
	if len(r.Errors) != 1 || len(r.Blocks[0].Tables) != 1 {
		t.Fatal(r.Errors, r.Blocks[0].Tables)
	}
	if rows := fmt.Sprint(r.Blocks[0].Tables[0].Rows); rows != "[[1 2 ] [2 4 breaks `y`]]" {
		t.Errorf("rows %s", rows)
	}
}
