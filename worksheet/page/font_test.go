package page_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"inkwing/evaluate/library"
	"inkwing/worksheet/formula"
)

// TestFont has every sign of the library's formulas, and of the units that are shown
// with them, among those that the font of the pages was made with: another one would
// stand in the reader's own font, which fits badly.
func TestFont(t *testing.T) {
	text, err := os.ReadFile("font.txt")
	if err != nil {
		t.Fatal(err)
	}
	signs := 0
	missing := func(where, shown string) {
		for _, r := range html.UnescapeString(shown) {
			if signs++; r > ' ' && !strings.ContainsRune(string(text), r) {
				t.Errorf("%s: %q (%U) is not in font.txt", where, r, r)
			}
		}
	}
	inside := regexp.MustCompile(`<math>.*?</math>`)
	tags := regexp.MustCompile(`<[^>]*>`)
	for _, f := range library.All() {
		for _, clause := range formula.Clauses(f.Doc.Formula) {
			for _, m := range inside.FindAllString(clause, -1) {
				missing(f.Name, tags.ReplaceAllString(m, ""))
			}
		}
		for _, p := range append(f.Params, f.Result.Params...) {
			missing(f.Name+"."+p.Name, p.Shape.UnitText())
		}
	}
	for _, k := range library.Constants() {
		missing(k.Name, k.Unit)
	}
	if signs < 10_000 {
		t.Errorf("only %d signs were looked at", signs)
	}
}
