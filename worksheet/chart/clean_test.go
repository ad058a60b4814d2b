package chart

import (
	"math/rand/v2"
	"testing"
)

// TestClean leaves texts alone that would come out as they are, and no others.
func TestClean(t *testing.T) {
	pieces := []string{"a", "Ω", " ", " ", "\t", "\u00a0", "\u2003", "\u200b", "\u00ad", "\x7f", "\x85", "\xff", "\ufffd", "\ufffe", "\uffff", "\U0001f600", "<", "&", "'", "\"", ">"}
	random, left := rand.New(rand.NewPCG(1, 2)), 0
	for range 100_000 {
		text := ""
		for range random.IntN(5) {
			text += pieces[random.IntN(len(pieces))]
		}
		want := cleaned(text)
		if got := clean(text); got != want {
			t.Fatalf("%q: %q, want %q", text, got, want)
		}
		if got := escape(text); got != escaped(want) {
			t.Fatalf("%q: %q, want %q", text, got, escaped(want))
		}
		if isClean(text) && isPlain(text) {
			left++
		}
	}
	if left < 2_000 {
		t.Errorf("only %d were left alone", left)
	}
}
