package chart

import (
	"math"
	"math/rand/v2"
	"strconv"
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

// TestDecimal writes coordinates as the shortest number that is the one with tenths.
func TestDecimal(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	list := []float64{0, math.Copysign(0, -1), 0.04, -0.04, 0.05, -0.05, 0.1, -0.3, 0.95, 9.95, -9.96, 720, 1e14, 1e15, 1.23e17, -1e21, 1e300, math.Inf(1), math.NaN()}
	for range 100_000 {
		list = append(list, (random.Float64()-0.5)*math.Pow(10, float64(random.IntN(18))))
	}
	for _, v := range list {
		rounded := math.Round(math.Round(v*1e6)/1e5) / 10
		if rounded == 0 {
			rounded = 0 // no -0
		}
		if got, want := decimal(v), strconv.FormatFloat(rounded, 'f', -1, 64); got != want {
			t.Fatalf("%v: %s, want %s", v, got, want)
		}
	}
}
