package present_test

import "testing"

// TestAlign wants zeros that were left out put back beside numbers of the same unit, as
// far as the digits that are shown go; what is unsure, counts or has another unit stays.
func TestAlign(t *testing.T) {
	const text = "U = 24.6 V\nV = 25 V\nW = 1234 V\nI = 3 A\nQ = 25 V ± 0.1 V\n" +
		"a = 1 * U\nb = 1 * V\nc = 1 * W\nd = 1 * I\ne = 2 + 1\nf = 2.5 + 0\ng = 1 * Q\nh [V] = 1 * W"
	want := "a 24.6 V; b 25.0 V; c 1234 V; d 3 A; e 3; f 2.5; g (25.00 ± 0.10) V; h 1234 V"
	if got := rowsOf(t, text); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}
