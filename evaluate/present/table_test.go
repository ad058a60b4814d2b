package present_test

import (
	"math"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/internal/kit"
)

// alike9 reports whether two cells of a table hold the same, numbers to nine digits.
func alike9(a, b any) bool {
	x, isX := a.(float64)
	y, isY := b.(float64)
	if isX && isY {
		return math.Abs(x-y) <= 1e-9*math.Max(math.Abs(x), math.Abs(y))
	}
	return isX == isY && a == b
}

// TestBudgetOfLikeReadings wants no number that is none, which no program could
// read, where a column's readings do not differ.
func TestBudgetOfLikeReadings(t *testing.T) {
	log := kit.Table("log", []string{"U [V]", "I [A]"}, []string{"10", "2"}, []string{"9", "2"}, []string{"9.5", "2"})
	sheet := kit.BlockWith("notes.md", "U = observed(log.U)\nI = observed(log.I)\nP = U * I\nbudget P", log)
	for _, row := range kit.Clean(t, evaluate.Work(t.Context(), sheet, nil), "alike").Blocks[0].Tables[0].Values {
		for i, v := range row {
			if x, isNumber := v.(float64); isNumber && math.IsNaN(x) {
				t.Errorf("%v: column %d", row[0], i+1)
			}
		}
	}
}

// TestTableValues holds what a table gives to programs, in coherent SI, to what is
// worked by hand. First-order parts are as in JCGM 100:2008, 5.1 and table H.1.
func TestTableValues(t *testing.T) {
	for _, c := range []struct {
		name, text string
		units      []string
		rows       [][]any
	}{
		// u(Q) = √((4 V·0.5 F)² + (50 F·0.05 V)²) = √10.25 C
		{"a budget", "C = 50 F ± 2 %\nV = 4 V ± 0.1 V\nQ = C * V\nbudget Q", []string{"", "", "", "", "C", ""},
			[][]any{{"V", 4.0, 0.05, 50.0, 2.5, 6.25 / 10.25}, {"C", 50.0, 0.5, 4.0, 2.0, 4 / 10.25}}},
		{"a budget of what falls", "x = -3 mm ± 10 %\nd = 5 mm - 2 * x\nbudget d", []string{"", "", "", "", "m", ""},
			[][]any{{"x", -0.003, 0.00015, -2.0, -0.0003, 1.0}}},
		// u of the difference: √(3² + 4²)/2 mV = 2.5 mV
		{"a reading", "U = 100 mV ± 3 mV\nW = 1 * U\nmeasured W = 105 mV ± 4 mV", nil,
			[][]any{{"W", 0.1, 0.105, 0.005, nil, 2.0, "agree"}}},
		{"a grid", "x = 1\nn = 1\ny = (10 * x + n) * 1 mm\nvary x in 1 to 3 by 1, n in [1, 2]: y", []string{"1", "m", "m"},
			[][]any{{1.0, 0.011, 0.012}, {2.0, 0.021, 0.022}, {3.0, 0.031, 0.032}}},
		{"a sweep", "x = 1 mm\ny = 2 * x\nz = x^2\nvary x in 1 mm to 2 mm by 1 mm: y, z", []string{"m", "m", "m²"},
			[][]any{{0.001, 0.002, 1e-6}, {0.002, 0.004, 4e-6}}},
		{"what was adjusted", "x = 1 mm\ny = 2 * x\nadjust x in 0 mm to 9 mm until y == 3 mm", nil,
			[][]any{{"x", 0.0015, "y == 3 mm"}}},
	} {
		r := kit.Clean(t, evaluate.Work(t.Context(), kit.Block("notes.md", c.text), nil), c.text)
		table := r.Blocks[0].Tables[0]
		for i, want := range c.units {
			if got := table.Columns[i].SIUnit; got != want {
				t.Errorf("%s: column %d in %q, want %q", c.name, i+1, got, want)
			}
		}
		if len(table.Values) != len(c.rows) {
			t.Fatalf("%s: %v", c.name, table.Values)
		}
		for i, want := range c.rows {
			got := table.Values[i]
			if len(got) != len(want) {
				t.Fatalf("%s: row %d: %v, want %v", c.name, i+1, got, want)
			}
			for j := range want {
				if !alike9(got[j], want[j]) {
					t.Errorf("%s: row %d, column %d: %v, want %v", c.name, i+1, j+1, got[j], want[j])
				}
			}
		}
	}
}
