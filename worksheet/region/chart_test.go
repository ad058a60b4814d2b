package region

import (
	"testing"

	"inkwing/evaluate/report"
)

// TestChart wants a picture's text to stand without escapes, which formatters
// take away, and its address without blanks.
func TestChart(t *testing.T) {
	for _, c := range []struct {
		chart report.Chart
		want  string
	}{
		{report.Chart{Alt: "V_full of ride.history, from 0 V to 12.5 V.", File: "notes.charts/ride.svg"}, "![V_full of ride.history, from 0 V to 12.5 V.](notes.charts/ride.svg)"},
		{report.Chart{Alt: "a [b](c) `d` *e* <f> g|h \\ & ~ $ _i θ_j\n\n", File: "my (b) notes.charts/ü.svg"}, "![a (b)(c) 'd' ×e× ‹f› g/h / + - i θ j](my%20%28b%29%20notes.charts/%C3%BC.svg)"},
		{report.Chart{Alt: "\u202e", File: "a.charts/b.svg"}, "![chart](a.charts/b.svg)"},
		{report.Chart{Title: "A [ride]", State: report.Waiting, Waits: "ride_1"}, "Chart A \\[ride\\]: waits for `ride_1`."},
	} {
		if got := chart(c.chart); got != c.want {
			t.Errorf("%s, want %s", got, c.want)
		}
	}
	lines := Lines(report.Block{Charts: []report.Chart{{Alt: "a", File: "f"}, {Alt: "b", File: "g"}}}, true)
	if len(lines) != 3 || lines[0] != "![a](f)" || lines[1] != "" {
		t.Errorf("%q", lines)
	}
}
