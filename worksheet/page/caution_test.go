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
