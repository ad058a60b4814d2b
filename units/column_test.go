package units

import (
	"math"
	"strings"
	"testing"
)

// TestNumbers wants the numbers of a column to end at one place, and none to lose what
// it says alone.
func TestNumbers(t *testing.T) {
	for _, c := range []struct {
		xs     []float64
		digits int
		want   string
	}{
		{nil, 4, ""},
		{[]float64{25}, 4, "25"},
		{[]float64{24.6, 25}, 4, "24.6 25.0"},
		{[]float64{4, 5, 6}, 4, "4 5 6"},
		{[]float64{0, 0}, 4, "0 0"},
		{[]float64{0, 1.5}, 4, "0.0 1.5"},
		{[]float64{-2.5, 10}, 4, "-2.5 10.0"},
		{[]float64{22.336, 6.9142}, 3, "22.34 6.91"}, // one digit more of the greatest
		{[]float64{100, 62, 35.5}, 3, "100.0 62.0 35.5"},
		{[]float64{111.38, 95.21}, 3, "111.4 95.2"},
		{[]float64{0.09766, 0.390625}, 4, "0.0977 0.3906"},
		{[]float64{1200, 9.47, 0.0123}, 4, "1200.0 9.5 0.0123"}, // too small to end there
		{[]float64{9.9999, 10.5}, 4, "10.0 10.5"},
		{[]float64{999.96, 1}, 4, "1000 1"},
		{[]float64{123456, 1234567}, 3, "123000 1235000"},
		{[]float64{1e7, 2.5, 1e-6}, 4, "1e7 2.5 1e-6"},
		{[]float64{math.NaN(), 1, 2.5}, 4, "NaN 1.0 2.5"},
		{[]float64{0.5, 7}, 1, "0.5 7.0"},
	} {
		if got := strings.Join(Numbers(c.xs, c.digits), " "); got != c.want {
			t.Errorf("%v with %d digits: %s, want %s", c.xs, c.digits, got, c.want)
		}
	}
}

// TestNumbersAlone wants a column of one to read as the number does alone.
func TestNumbersAlone(t *testing.T) {
	for _, x := range []float64{0, 1, -12.345, 0.00012345, 99999.5, 1e-7, 3.5e9, 25} {
		for digits := 1; digits < 8; digits++ {
			if got, want := Numbers([]float64{x}, digits)[0], Number(x, digits); got != want {
				t.Errorf("%g with %d digits: %s, alone %s", x, digits, got, want)
			}
		}
	}
}
