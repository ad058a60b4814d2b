package handbook_test

import (
	"regexp"
	"strings"
	"testing"

	"inkwing/evaluate/library"
	"inkwing/worksheet/formula"
)

// TestFormulasAreSet wants every sign of a formula set as one, and no letter of it left
// behind in the words around it.
func TestFormulasAreSet(t *testing.T) {
	math := regexp.MustCompile(`<math>.*?</math>|</?span[^>]*>`)
	for _, f := range library.All() {
		for _, c := range formula.Clauses(f.Doc.Formula) {
			if words := math.ReplaceAllString(c, ""); strings.ContainsAny(words, "·²³^√Σ∫=′/") {
				t.Errorf("%s: %q stands outside of %s", f.Name, words, c)
			}
		}
	}
}
