package worksheet

import (
	"strings"
	"testing"
)

// padded is a table as a formatter leaves it, with a worked cell.
const padded = "<!-- table: parts -->\n\n" +
	"| part |             mass [g] |\n" +
	"| :--- | -------------------: |\n" +
	"| pack | `pack [g] = 49.60 g` |\n" +
	"| wing |                   40 |\n\n" +
	"```working\npack = 4 * 12.4 g\ntotal = sum(parts.mass)\n```\n"

// TestPaddingIsTheBuilders wants a worked cell written anew in its place, whatever its
// length, and every blank of its table left alone: those are the builder's, and a
// formatter's. What that makes of them is left alone as well.
func TestPaddingIsTheBuilders(t *testing.T) {
	value := func(text string) string { return strings.Replace(padded, "49.60 g", text, 1) }
	for _, stands := range []string{"?", "7 g", "1234567.8 g"} {
		got := string(WorkText(t.Context(), nil, "page.md", []byte(value(stands))).Output)
		if want := value("49.6 g"); !strings.HasPrefix(got, want[:strings.Index(want, "```working")]) {
			t.Errorf("%q is worked to\n%s\nwant\n%s", stands, got, want)
		}
		again := strings.Replace(got, "| `pack [g] = 49.6 g` |", "|  `pack [g] = 49.6 g` |", 1)
		for _, text := range []string{got, again} {
			if r := WorkText(t.Context(), nil, "page.md", []byte(text)); r.Changed() {
				t.Errorf("another run changes\n%s\nto\n%s", text, r.Output)
			}
		}
	}
}
