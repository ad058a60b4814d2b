package study_test

import (
	"math"
	"strings"
	"testing"

	"inkwing/evaluate/library"
	"inkwing/evaluate/study"
)

// TestOptimise wants the place of the least, or most, worked by hand, and what
// stands in its way.
func TestOptimise(t *testing.T) {
	for _, c := range []struct {
		text  string
		want  []float64
		goal  float64
		edges string
		binds string // the sides of the limits
		next  float64
	}{
		{text: "x = 1\ny = (x - 3)^2 + 2\ns = tune x in 0 to 10 for least y", want: []float64{3}, goal: 2},
		{text: "x = 1\ny = 5 - (x - 3)^2\ns = tune x in 0 to 10 for most y", want: []float64{3}, goal: 5},
		{text: "x = 1\ny = 2 * x\ns = tune x in 1 to 4 for least y", want: []float64{1}, goal: 2, edges: "x"},
		{text: "x = 1\ny = (x - 2)^2 * (x - 8)^2 + x\ns = tune x in 0 to 10 by 1 for least y", want: []float64{2}, goal: 2, next: 8},
		{text: "x = 1\ny = min((x - 2)^2, (x - 8)^2 + 1)\ns = tune x in 0 to 10 for least y", want: []float64{2}, goal: 0, next: 8},
		{text: "x = 1\ny = (x - 6)^2\ns = tune x in [2, 7, 4] for least y", want: []float64{7}, goal: 1},
		{text: "x = 1\nz = 1\ny = (x - 3)^2 + (z - 2)^2\ns = tune x in 0 to 5 by 1, z in 0 to 5 by 1 for least y", want: []float64{3, 2}, goal: 0},
		{text: "x = 1\ny = (x - 3)^2\nlimit x <= 2\ns = tune x in 0 to 10 by 1 for least y", want: []float64{2}, goal: 1, binds: "2"},
		{text: "x = 1\ny = -x\nlimit x <= 4\nlimit x <= 7\ns = tune x in 0 to 10 by 1 for least y", want: []float64{4}, goal: -4, binds: "4"},
		{text: "x = 1\ny = -x\nlimit x <= 6\nlimit 2 * x <= 12\ns = tune x in 0 to 10 by 1 for least y", want: []float64{6}, goal: -6, binds: "6 12"},
		// A limit that cannot be worked at a place refuses it as one that does not hold.
		{text: "x = 1\ny = (x - 3)^2\nlimit 1 / (x - 3) <= 100\ns = tune x in 1 to 5 by 1 for least y", want: []float64{2}, goal: 1, binds: "100", next: 4},
	} {
		m, p := ran(t, c.text)
		d := p.Main.Names["s"]
		if got := numbers(m.Value(d)); !close(got, c.want, 1e-6) {
			t.Errorf("%s: %v, want %v (%v)", c.text, got, c.want, m.Fault(d))
			continue
		}
		found := m.Kept(d.Node()).(*study.Finding)
		if math.Abs(found.Goal-c.goal) > 1e-9 || strings.Join(found.Edges, " ") != c.edges {
			t.Errorf("%s: found %+v", c.text, found)
		}
		if got := sides(found.Binds); got != c.binds {
			t.Errorf("%s: limits %q bind", c.text, got)
		}
		if (c.next != 0) != (found.Next != nil) || c.next != 0 && math.Abs(found.Next.At-c.next) > 1e-6 {
			t.Errorf("%s: next %v", c.text, found.Next)
		}
	}
}

func numbers(v any) []float64 {
	switch x := v.(type) {
	case float64:
		return []float64{x}
	case library.Record:
		var list []float64
		for _, f := range x {
			list = append(list, f.(float64))
		}
		return list
	}
	return nil
}

func close(got, want []float64, by float64) bool {
	if len(got) != len(want) {
		return false
	}
	for i := range got {
		if !(math.Abs(got[i]-want[i]) <= by) {
			return false
		}
	}
	return true
}

// TestOptimiseNowhere wants to be told why no place will do.
func TestOptimiseNowhere(t *testing.T) {
	for _, c := range []struct {
		text, summary, hint string
		notes               int
	}{
		{"x = 1\ny = x\nlimit y >= 20\nlimit x >= 0\ns = tune x in 1 to 9 by 1 for least y", "nothing in this range keeps all limits", "look at the limits", 1},
		{"x = 1\ny = x / (x - x)\ns = tune x in 1 to 9 for least y", "nothing in this range can be worked: this is zero", "ask first", 0},
		{"x = 2\nl = [3, 1, 2]\ny = l[x]\ns = tune x in 1 to 3 for least y", "between whole numbers of `x` this cannot be worked", "add `by 1` to the range", 0},
		{"x = 1\nz = 1\ny = x + z\ns = tune x in 1 to 200 by 1, z in 1 to 51 by 1 for least y", "this makes 10200 rows, and a study has at most 10,000", "take a larger step", 0},
	} {
		m, p := ran(t, c.text)
		f := m.Fault(p.Main.Names["s"])
		if f == nil || !strings.Contains(f.Summary, c.summary) || !strings.Contains(f.Hint, c.hint) || len(f.Notes) != c.notes {
			t.Errorf("%s: %+v", c.text, f)
		}
	}
}
