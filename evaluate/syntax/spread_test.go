package syntax

import (
	"math"
	"testing"

	"inkwing/units"
)

// What a report writes with an uncertainty can be typed in again, but for
// parts: (80 ± 4) % is refused in a worksheet, where it can be read two ways.
func TestShownSpreadIsRead(t *testing.T) {
	for _, unit := range []string{"F", "Wh", "°C", "°", "1", "m/s²", "W/(m²·K)", "kg·m²", "µΩ/m", "K⁻¹"} {
		u := units.MustParse(unit)
		for _, x := range []float64{0, 12.5, -12.5, 1.7e9, -3e-12} {
			for _, spread := range []float64{0.25, 0.0996, 1e-4 * math.Abs(x), 3e8} {
				text := units.ShowSpread(u.ToSI(x), u.Difference().ToSI(spread), u)
				tree, problem := ParseValue("a.md", text, 0)
				if problem != nil {
					t.Errorf("%q: %v", text, *problem)
					continue
				}
				if _, ok := tree.(*Uncertain); ok != (spread != 0) {
					t.Errorf("%q is read as %s", text, printed(tree))
				}
			}
		}
	}
}
