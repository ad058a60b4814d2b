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
	const long = "<code>min(speeds_flown) &gt;= least_margin - 0.5 m/s</code>"
	if got, want := page.Breakable(long), "<code>min(<wbr>speeds_<wbr>flown) &gt;= least_<wbr>margin - 0.5 m/s</code>"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got := page.Breakable("12.5 m/s"); got != "12.5 m/s" {
		t.Errorf("%q", got)
	}
}

// TestOverviewSet sets limits in short as they are set where they stand, in parts
// between which a line may end.
func TestOverviewSet(t *testing.T) {
	p := make1(t, block("overview\nleast_margin = 6.5 m/s\nspeeds_flown = [6.5 m/s, 7 m/s]\nlimit min(speeds_flown) >= least_margin - 0.5 m/s"), nil)
	sound(t, p)
	var all strings.Builder
	for _, s := range p.Sections {
		all.WriteString(s.HTML)
	}
	if n := strings.Count(all.String(), "</math><math><mo>≥</mo><mi>least\u00a0margin</mi>"); n != 2 {
		t.Errorf("set %d times, want 2: %s", n, all.String())
	}
}

// TestRowsOfCalls shows a list of calls of one function as a table of their arguments.
func TestRowsOfCalls(t *testing.T) {
	p := make1(t, block("pack_mass = 10 g\nparts = [part(14 g, 78 mm), part(pack_mass, 6 mm)]"), nil)
	sound(t, p)
	var all strings.Builder
	for _, s := range p.Sections {
		all.WriteString(s.HTML)
	}
	for _, want := range []string{`<th class="r" scope="col">mass</th><th class="r" scope="col">position</th>`, "<td class=\"r\">78\u00a0mm</td>", "href=\"#q-pack_mass\">10\u00a0g</a>"} {
		if !strings.Contains(all.String(), want) {
			t.Errorf("no %s in %s", want, all.String())
		}
	}
	if strings.Contains(all.String(), "part</mi>") {
		t.Error("the calls stand there as a formula too")
	}
}
