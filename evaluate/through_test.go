package evaluate

import (
	"strings"
	"testing"

	"inkwing/evaluate/internal/kit"
)

// TestThroughStudies carries uncertain inputs through what is adjusted and tuned.
// Expanded uncertainties are worked by hand from the closed form of each answer
// (JCGM 100:2008, 5.1.2); what was chosen, by steps or by tuning, is a setting and
// has none.
func TestThroughStudies(t *testing.T) {
	for _, c := range []struct {
		name, text string
		expanded   map[string]float64
		rough      string // of a
	}{
		{"a height that takes an energy up",
			// h = E/(m·g) = 30/(0.4·9.80665) = 7.64787 m; u(h)/h = √(0.01/0.4)² + (0.5/30)²
			"m = 0.4 kg ± 0.02 kg\nE = 30 J ± 1 J\nh = 10 m\nlift = m * g_n * h\na = adjust h in 0 m to 100 m until lift == E\nb = 2 * a",
			map[string]float64{"a": 0.459588, "b": 0.919176}, ""},
		{"downwards through the range",
			"m = 0.4 kg ± 0.02 kg\nE = 30 J ± 1 J\nh = 10 m\nlift = m * g_n * h\na = adjust h in 100 m to 0 m until lift == E",
			map[string]float64{"a": 0.459588}, ""},
		{"a root",
			// x = √(E/k) = 5.47723 m; u(x) = x/2 · 0.5/30
			"E = 30 J ± 1 J\nx = 1 m\ne = x^2 * 1 N/m\na = adjust x in 0 m to 100 m until e == E",
			map[string]float64{"a": 0.0912871}, ""},
		{"the root next to today's value, and no other",
			// (x − 1)(x − 4) = c: dx/dc = 1/(2x − 5) = 1/3 at 4
			"c = 0 ± 0.03\nx = 3\ny = (x - 1) * (x - 4)\na = adjust x in 0 to 6 until y == c",
			map[string]float64{"a": 0.01}, ""},
		{"an answer at the end of its range",
			// x = √(25 J/k) = 5 m, to one side only: u(x) = x/2 · 0.5/25
			"E = 25 J ± 1 J\nx = 1 m\ne = x^2 * 1 N/m\na = adjust x in 0 m to 5 m until e == E",
			map[string]float64{"a": 0.1}, "cannot be worked over the whole interval of `E`"},
		{"an interval beyond the range",
			"E = 25 J ± 1 J\nx = 1 m\ne = x^2 * 1 N/m\na = adjust x in 0 m to 5.05 m until e == E",
			map[string]float64{"a": 0.1}, "cannot be worked over the whole interval of `E`"},
		{"a step that was chosen",
			"cell = 2.45 V ± 0.1 V\nn = 3\nU = n * cell\na = adjust n in 1 to 20 by 1 until U >= 12 V\nb = a * cell",
			map[string]float64{"a": 0, "b": 0.5}, ""},
		{"a tuned place that was chosen",
			"c = 3 ± 1\nx = 1\ny = (x - c)^2\na = tune x in 0 to 10 for least y\nb = a * c",
			map[string]float64{"a": 0, "b": 3}, ""},
		{"tuned by steps",
			"c = 3.4 ± 1\nx = 1\ny = (x - c)^2\na = tune x in 0 to 10 by 1 for least y\nb = a * c",
			map[string]float64{"a": 0, "b": 3}, ""},
		{"a sweep",
			// the mean of c·(1, 2, 3) is 2·c
			"c = 3 ± 1\nx = 1\ny = c * x\ns = vary x in 1 to 3 by 1: y\na = mean(s.y)",
			map[string]float64{"a": 2}, ""},
	} {
		text := c.text
		r := kit.Clean(t, work(kit.Block("notes.md", text), nil), text)
		got := spreads(t, text)
		for name, want := range c.expanded {
			// central differences over a sixteenth of u; one-sided ones are off by their second order
			if s := got[name]; !kit.Within(s.Expanded, want, 1e-3) {
				t.Errorf("%s: %s ± %v, want %v", c.name, name, s.Expanded, want)
			}
		}
		if why := roughOf(r, "a"); (c.rough == "") != (why == "") || !strings.Contains(why, c.rough) {
			t.Errorf("%s: %q, want %q", c.name, why, c.rough)
		}
	}
}

// TestWithBesideFailed replaces a value of what an adjustment looks at, beside a line that
// cannot be read: that touches a limit, and not the answer.
func TestWithBesideFailed(t *testing.T) {
	const text = "a = 2 V\nb = 2 V\nc = a + missing\nlimit b <= c\nfound = adjust b in 1 V to 9 V until b == 3 V\nd = found with a = 3 V"
	r := work(kit.Block("notes.md", text), nil)
	if got := kit.Number(r, "d"); len(r.Errors) != 1 || got != 3 {
		t.Errorf("d is %g: %v", got, r.Errors)
	}
}
