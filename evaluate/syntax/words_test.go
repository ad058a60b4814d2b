package syntax

import (
	"slices"
	"testing"
)

// TestEveryWordIsExplained wants a page for each verb and each reserved word.
func TestEveryWordIsExplained(t *testing.T) {
	for _, all := range []map[string]bool{verbs, reserved} {
		for name := range all {
			if !slices.ContainsFunc(Words(), func(w Word) bool { return w.Name == name || slices.Contains(w.Also, name) }) {
				t.Errorf("%s is not explained", name)
			}
		}
	}
}
