package study

import (
	"errors"
	"strconv"
	"strings"
	"testing"

	"inkwing/evaluate/check"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/library"
	"inkwing/evaluate/run"
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

// TestAffordable wants so many draws refused, before any is made, as are more work
// than a run may do, or more numbers than are held.
func TestAffordable(t *testing.T) {
	for _, c := range []struct {
		text  string
		draws int
		says  string
	}{
		{"a = 1 ± 0.1\nb = 2 * a", 1000, ""},
		{"a = 1 ± 0.1\nb = 2 * a", 2_000_000_000, "write `draws "},
		{"a = 1 ± 0.1\n" + strings.Repeat("c#_ = a\n", 2100), 1000, "2,000 is the most"},
	} {
		for i := 0; strings.Contains(c.text, "#"); i++ {
			c.text = strings.Replace(c.text, "#", strconv.Itoa(i), 1)
		}
		tree, _ := syntax.Parse("notes.md", kit.Block("notes.md", c.text).Blocks)
		p := check.Check(t.Context(), check.Input{Name: "notes.md", Tree: tree}, nil)
		m := run.New(t.Context(), p, Work)
		m.Run()
		var wanted []int
		for _, d := range p.Main.Defs {
			wanted = append(wanted, d.ID)
		}
		err := Propagate(m, p, wanted).affordable(m, wanted, len(wanted)-1, c.draws)
		if (err != nil) != (c.says != "") || err != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%d draws: %v, want %q", c.draws, err, c.says)
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
