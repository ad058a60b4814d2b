package evaluate

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
)

// few are readings of 10 s with ν = 1, 2 and 3, the standard uncertainty of their mean s/√n, and
// how many of those hold 95 % of Student's t (JCGM 100:2008, table G.2, from memory).
var few = []struct {
	readings string
	u, k     float64
}{
	{"9.9 s, 10.1 s", 0.1, 12.71},
	{"9.9 s, 10 s, 10.1 s", 0.1 / math.Sqrt(3), 4.30},
	{"9.9 s, 9.9 s, 10.1 s, 10.1 s", 0.2 / math.Sqrt(12), 3.18},
}

// drawnOf works a page of draws, with its names, and gives its quantities.
func drawnOf(t *testing.T, lines ...string) *report.Report {
	t.Helper()
	r := Work(t.Context(), kit.Block("notes.md", strings.Join(lines, "\n")), nil)
	if len(r.Errors) > 0 {
		t.Fatal(r.Errors)
	}
	return r
}

// TestFewReadingsDrawn holds what stands for a quantity, under draws, against its plain value,
// where its readings are so few that the density of Student's t falls off like 1/x² (two of them,
// no mean) or 1/x³ (three, no standard deviation): the mean of the draws would be anything, now and
// then far outside of its own interval. Each name draws from a stream of its own.
func TestFewReadingsDrawn(t *testing.T) {
	for _, c := range few {
		lines := []string{"draws 2_000", "x = 10 s ± 0.1 s"}
		for i := range 40 {
			lines = append(lines, fmt.Sprintf("y%d = observed(%s)\nz%d = x + 1e-6 * y%d\nw%d = 3 * y%d - 20 s", i, c.readings, i, i, i, i))
		}
		for _, q := range drawnOf(t, lines...).Quantities {
			x, u := q.Value.(float64), q.Uncertainty
			half := map[byte]float64{'x': 0.1, 'y': c.k * c.u, 'z': 0.1, 'w': 3 * c.k * c.u}[q.Name[0]]
			if math.Abs(x-10) > 0.15*half {
				t.Errorf("ν of %s: %s is %v, within %v", c.readings, q.Name, x, half)
			}
			if !(u.Low < x && x < u.High) {
				t.Errorf("ν of %s: %s is %v, outside of %v to %v", c.readings, q.Name, x, u.Low, u.High)
			}
		}
	}
}

// TestFewReadingsSettle holds intervals against the table, says of no value that it is a mean where
// there is none, gives no standard uncertainty where there is none, and lets draws of three readings settle; two
// take ten million.
func TestFewReadingsSettle(t *testing.T) {
	for i, c := range few {
		r := drawnOf(t, "draws 400_000", "y = observed("+c.readings+")")
		q := r.Quantities[0]
		if half := (q.Uncertainty.High - q.Uncertainty.Low) / 2; math.Abs(half/(c.k*c.u)-1) > 0.03 {
			t.Errorf("%s: half of its interval is %v, and by the table %v", c.readings, half, c.k*c.u)
		}
		if is := math.IsInf(q.Uncertainty.U, 1); is != (i < 2) {
			t.Errorf("%s: u = %v", c.readings, q.Uncertainty.U)
		}
		notes := strings.Join(r.Blocks[0].Notes, " ")
		if said := strings.Contains(notes, "The value of `y` is the median"); said != (i == 0) {
			t.Errorf("%s: %s", c.readings, notes)
		}
		if i == 1 && !strings.Contains(notes, "two digits have settled") {
			t.Errorf("%s: %s", c.readings, notes)
		}
	}
}
