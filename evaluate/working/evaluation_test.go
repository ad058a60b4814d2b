package working

import (
	"strings"
	"testing"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/program"
)

// TestSliceOfOneInput wants an input to work again what depends on it, and
// nothing else.
func TestSliceOfOneInput(t *testing.T) {
	w := Check(t.Context(), NewSource(kit.Block("notes.md", "a = 1 V ± 0.1 V\nb = 2 V ± 0.1 V\nfrom_a = 2 * a\nfrom_b = 2 * b\nfrom_both = from_a + from_b\nsure = 3 V\nlimit from_b <= 9 V"), nil))
	w.Evaluate(t.Context(), w.Shown())
	for i, want := range []string{"a from_a from_both", "b from_b from_both limit"} {
		var names []string
		for _, d := range w.Machine.Around([]*program.Def{w.Uncertainty.Inputs[i].Def}, w.Shown(), 0).Defs() {
			if program.Is[*program.Limit](d) {
				names = append(names, "limit")
			} else {
				names = append(names, d.Name)
			}
		}
		if got := strings.Join(names, " "); got != want {
			t.Errorf("input %d works %q, want %q", i, got, want)
		}
	}
}
