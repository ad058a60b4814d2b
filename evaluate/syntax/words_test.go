package syntax

import (
	"slices"
	"strings"
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

// TestEveryExampleParses reads the example of each word: a statement of the grammar
// that has no case in the tree panics here.
func TestEveryExampleParses(t *testing.T) {
	for _, w := range Words() {
		var b Block
		at := 0
		for _, line := range strings.Split(w.Example, "\n") {
			b.Lines = append(b.Lines, Line{Text: line, Offset: at})
			at += len(line) + 1
		}
		tree, problems := Parse("x.md", []Block{b})
		if len(problems) > 0 || len(tree.Statements) == 0 {
			t.Errorf("%s: %v", w.Name, problems)
		}
	}
}
