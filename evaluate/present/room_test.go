package present_test

import (
	"fmt"
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/internal/kit"
)

// TestRoom makes no room for the fields of records that wait: there may be thousands of
// those, each of a table with hundreds of columns.
func TestRoom(t *testing.T) {
	var packs strings.Builder
	for i := range 100 {
		fmt.Fprintf(&packs, "p%d = pack(cell, series: n)\n", i)
	}
	for _, n := range []string{"4", "1 / 0", "missing"} {
		text := "cell = capacitor(50 F, 2.7 V)\nn = " + n + "\n" + packs.String()
		list := evaluate.Work(t.Context(), kit.Block("notes.md", text), nil).Quantities
		if len(list) < 100 || cap(list) > len(list)+len(list)/2 {
			t.Errorf("n = %s: room for %d quantities, of which there are %d", n, cap(list), len(list))
		}
	}
}
