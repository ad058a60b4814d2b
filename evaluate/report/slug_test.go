package report

import (
	"strings"
	"testing"
)

// TestSlug wants names that no file system and no link misreads, and no two
// alike.
func TestSlug(t *testing.T) {
	s := Slugs{}
	for _, c := range []struct{ title, want string }{
		{"A charge by treadle", "a-charge-by-treadle"},
		{"a charge, by treadle!", "a-charge-by-treadle-2"},
		{"../../etc/passwd", "etc-passwd"},
		{`C:\x`, "c-x"},
		{"η und µ", "und"},
		{"Ω", "chart"}, {"", "chart-2"}, {"...", "chart-3"},
		{"CON", "chart-con"}, {"lpt1", "chart-lpt1"}, {"comb", "comb"},
		{"nul.svg", "nul-svg"},
		{"Größe & Flügel", "grosse-flugel"}, {"Café – 2nd try", "cafe-2nd-try"}, {"Smørebrød på Đ", "smorebrod-pa-d"},
		{strings.Repeat("ab ", 40), strings.TrimSuffix(strings.Repeat("ab-", 20), "-")},
	} {
		if got := s.Next(c.title); got != c.want {
			t.Errorf("%q: %s, want %s", c.title, got, c.want)
		}
	}
}
