package page_test

import (
	"strings"
	"testing"

	"inkwing/evaluate/report"
	"inkwing/worksheet/page"
)

// TestNamed says what a caution concerns: of very many names the first, and how many
// more there are.
func TestNamed(t *testing.T) {
	names := strings.Fields(strings.Repeat("store ", 20))
	for count, want := range map[int]string{13: "store</code>.", 14: "</code> and 2 more.", 20: "</code> and 8 more."} {
		if got := page.Caution(report.Caution{Summary: "Hot.", Names: names[:count]}); !strings.Contains(got, want) {
			t.Errorf("%d names: %s", count, got)
		}
	}
}

// TestBreakable lets long names in a narrow cell end behind their marks, and leaves
// numbers and words whole.
func TestBreakable(t *testing.T) {
	p := make1(t, block("overview\nleast_margin = 6.5 m/s\nspeeds_flown = [6.5 m/s, 7 m/s]\nlimit min(speeds_flown) >= least_margin - 0.5 m/s"), nil)
	sound(t, p)
	var all strings.Builder
	for _, s := range p.Sections {
		all.WriteString(s.HTML)
	}
	if want := "<code>min(<wbr>speeds_<wbr>flown) &gt;= least_<wbr>margin - 0.5 m/s</code>"; !strings.Contains(all.String(), want) {
		t.Errorf("no %s in %s", want, all.String())
	}
}
