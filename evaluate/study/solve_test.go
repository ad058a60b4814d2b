package study_test

import (
	"math"
	"strings"
	"testing"

	"inkwing/evaluate/study"
)

// TestSolve wants the value at which a condition holds, worked by hand, and what
// the builder should know beside it.
func TestSolve(t *testing.T) {
	for _, c := range []struct {
		text   string
		want   float64
		others []float64
		first  bool
		broken int
	}{
		{text: "x = 1\ny = x^2\ns = adjust x in 0 to 5 until y == 9", want: 3},
		{text: "x = 1\ny = x^2\ns = adjust x in 5 to 0 until 9 == y", want: 3},
		{text: "x = 1\ny = (x - 2) * (x - 5)\ns = adjust x in 0 to 9 until y == 0", want: 2, others: []float64{5}},
		{text: "x = 4\ny = (x - 2) * (x - 5)\ns = adjust x in 0 to 9 until y == 0", want: 5, others: []float64{2}},
		{text: "x = 1 V\ny = 2 * x\ns = adjust x in 0 V to 9 V until y == x + 3 V", want: 3},
		{text: "x = 1\ny = x^2\nlimit y <= 8\nlimit x <= 8\ns = adjust x in 0 to 5 until y == 9", want: 3, broken: 1},
		{text: "x = 1\ny = x^2\ns = adjust x in 1 to 20 by 1 until y >= 50", want: 8},
		{text: "x = 1\ny = x^2\ns = adjust x in 20 to 1 by 2 until y <= 50", want: 6},
		{text: "x = 1\ny = x\ns = adjust x in 1 to 40 by 1 until y >= 0.5", want: 1, first: true},
		{text: "x = 1\ny = x\ns = adjust x in 1 to 40 by 1 until y >= 17", want: 17}, // the first of the second chunk
		{text: "x = 1\ny = x\ns = adjust x in 1 to 40 by 1 until y >= 33", want: 33},
		{text: "x = 1\nbig = x >= 7\ns = adjust x in 1 to 40 by 1 until big == true", want: 7},
		{text: "x = 1\ny = 1 / (x - 2)\ns = adjust x in 2 to 40 by 1 until y <= 0.2", want: 7},
	} {
		m, p := ran(t, c.text)
		d := p.Main.Names["s"]
		got, ok := m.Value(d).(float64)
		if !ok || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %v, want %v (%v)", c.text, m.Value(d), c.want, m.Fault(d))
			continue
		}
		found := m.Kept(d.Node()).(*study.Finding)
		if found.First != c.first || len(found.Broken) != c.broken || len(found.Others) != len(c.others) {
			t.Errorf("%s: found %+v", c.text, found)
			continue
		}
		for i, x := range c.others {
			if math.Abs(found.Others[i]-x) > 1e-9 {
				t.Errorf("%s: others %v", c.text, found.Others)
			}
		}
	}
}

// TestSolveNowhere wants to be told why nothing does it.
func TestSolveNowhere(t *testing.T) {
	for text, want := range map[string]string{
		"x = 1\ny = x^2\ns = adjust x in 0 to 5 until y == 100":                  "no value of `x` from 0 to 5 does it: `y` is 0 at 0, 25 at 5 | widen the range, or aim at what it reaches",
		"x = 1\ny = x^2\ns = adjust x in 1 to 5 by 1 until y >= 100":             "no value of `x` from 1 to 5 does it: `y` is 1 at 1, 25 at 5 | widen",
		"x = 1\ny = 1 / (x - 2.1)\ns = adjust x in 0 to 4 until y == 0":          "the two sides cross at a pole only, near 2.1 | look on one side of it",
		"x = 1\ny = if x < 2 then 1 else 3\ns = adjust x in 0 to 5 until y == 2": "the two sides pass each other in a jump, at 2 | add a step to the range",
		"x = 1\ny = x / (x - x)\ns = adjust x in 0 to 4 until y == 1":            "nothing between 0 and 4 can be worked: this is zero, and the line divides by it | ",
		"x = 2\nl = [1, 2, 3]\ny = l[x]\ns = adjust x in 1 to 3 until y == 2":    "`x` takes whole numbers only | add `by 1` to its range",
		"x = 1\ny = 1 / (x - x)\ns = adjust x in 1 to 4 by 1 until y >= 1":       "where it cannot be worked, this is zero, and the line divides by it | ",
		"x = 1\ny = x\ns = adjust x in 1 to 4 by x - 1 until y >= 1":             "a step of nothing gets nowhere | say by how much `x` rises",
	} {
		m, p := ran(t, text)
		f := m.Fault(p.Main.Names["s"])
		summary, hint, _ := strings.Cut(want, " | ")
		if f == nil || !strings.Contains(f.Summary, summary) || !strings.Contains(f.Hint, hint) {
			t.Errorf("%s: %v", text, f)
			if f != nil {
				t.Log(f.Summary, "|", f.Hint)
			}
		}
	}
}
