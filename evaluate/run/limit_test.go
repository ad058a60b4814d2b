package run

import (
	"testing"

	"inkwing/evaluate/library"
)

// TestKeeps tries a bound that is met, met but for the rounding of binary
// arithmetic, and missed by what a bench could read.
func TestKeeps(t *testing.T) {
	cell := 2.7
	three := cell + cell + cell // a little more than 8.1
	if three == 8.1 {
		t.Fatal("no rounding to try")
	}
	for _, c := range []struct {
		worked  any
		op      string
		allowed any
		want    bool
	}{
		{three, "<=", 8.1, true}, {8.1, "<=", three, true}, {three, ">=", 8.1, true}, {8.1, ">=", three, true},
		{-three, "<=", -8.1, true}, {-8.1, ">=", -three, true}, {-8.1, "<=", -three, true}, {-three, ">=", -8.1, true},
		{0.0, "<=", 0.0, true}, {0.0, ">=", 0.0, true}, {1e-9, "<=", 0.0, false}, {-1e-9, ">=", 0.0, false},
		{8.1, "<", 8.1, false}, {8.1, ">", 8.1, false}, {8.0999, "<", 8.1, true}, {8.1001, ">", 8.1, true},
		{8.1 * (1 + 1e-9), "<=", 8.1, false}, {8.1 * (1 - 1e-9), ">=", 8.1, false},
		{8.1, "<=", 9.0, true}, {9.0, "<=", 8.1, false}, {9.0, ">=", 8.1, true}, {8.1, ">=", 9.0, false},
		{"a", "==", "a", true}, {"a", "==", "b", false}, {"a", "!=", "b", true}, {true, "!=", true, false},
		{"a", "<=", "b", false}, {1.0, ">=", "b", false}, {"a", ">=", 1.0, false},
	} {
		if got := Keeps(c.op, c.worked, c.allowed); got != c.want {
			t.Errorf("%v %s %v: %v", c.worked, c.op, c.allowed, got)
		}
	}
}

// TestHolds tries two comparisons in one, each end of which is a bound.
func TestHolds(t *testing.T) {
	cell := 2.7
	three := cell + cell + cell
	for _, c := range []struct {
		a       float64
		op      string
		b       float64
		op2     string
		c       float64
		holding bool
	}{
		{1, "<=", 2, "<=", 3, true}, {2, "<=", 2, "<=", 2, true}, {3, "<=", 2, "<=", 3, false}, {1, "<=", 4, "<=", 3, false},
		{2, "<", 2, "<=", 3, false}, {1, "<=", 3, "<", 3, false}, {3, ">=", 2, ">=", 1, true}, {3, ">", 3, ">=", 1, false},
		{1, ">=", 2, ">=", 1, false}, {3, ">", 2, ">", 2, false}, {three, "<=", 8.1, "<=", 9, true},
	} {
		operands := library.List{c.a, c.b, c.c}
		if got := Holds([]string{c.op, c.op2}, operands); got != c.holding {
			t.Errorf("%v %s %v %s %v: %v", c.a, c.op, c.b, c.op2, c.c, got)
		}
	}
}
