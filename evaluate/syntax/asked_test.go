package syntax

import (
	"slices"
	"testing"
)

func TestAsked(t *testing.T) {
	tree, problems := Parse("a.md", []Block{{Lines: []Line{
		{Text: "V = 10 V"}, {Text: "E [J] = V * 1 C"}, {Text: "f(x) [V] = x * V"}, {Text: "s = vary V in 1 V to 3 V by 1 V: E [J]"},
		{Text: `limit V / n < f(store.mass) + cells["B50"].rated "so"`}, {Text: "measured t.a = 3 s"}, {Text: "budget E"}}}})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if got, want := Asked(tree), []string{"E", "V", "n", "store.mass", "cells", "t.a", "E"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}
