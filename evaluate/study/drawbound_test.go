package study

import (
	"errors"
	"testing"

	"inkwing/evaluate/check"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/library"
	"inkwing/evaluate/syntax"
)

// TestSimulations counts the calls that take as long as thousands of others: those
// whose answers hold a history, wherever they stand.
func TestSimulations(t *testing.T) {
	charge, ok := library.Lookup("hand_charge")
	if !ok {
		t.Fatal("no hand_charge")
	}
	for text, want := range map[string]int{charge.Doc.Example: 1, "a = sqrt(2) + max(1, 2)": 0} {
		tree, problems := syntax.Parse("notes.md", kit.Block("notes.md", text).Blocks)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		p := check.Check(t.Context(), check.Input{Name: "notes.md", Tree: tree}, func(string, string) (*check.Input, error) { return nil, errors.New("no files") })
		n := 0
		for _, d := range p.Defs {
			n += simulations(d.Node())
		}
		if n != want || len(p.Problems) > 0 {
			t.Errorf("%s: %d, %v", text, n, p.Problems)
		}
	}
}

// TestRoundedDown wants the number of draws that is advised to be a round one.
func TestRoundedDown(t *testing.T) {
	for n, want := range map[int]int{0: 1, 1: 1, 2: 2, 4: 2, 5: 5, 9: 5, 10: 10, 19: 10, 49_999: 20_000, 50_000: 50_000, 999_999: 500_000, 1_000_000: 1_000_000} {
		if got := roundedDown(n); got != want {
			t.Errorf("%d: %d, want %d", n, got, want)
		}
	}
}
