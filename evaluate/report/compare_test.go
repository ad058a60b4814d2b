package report

import (
	"math"
	"testing"
)

func TestPercent(t *testing.T) {
	for _, c := range []struct {
		share float64
		want  string
	}{{0.17, "+17 %"}, {-0.5, "-50 %"}, {12.345, "+1234 %"}, {0.00123, "+0.12 %"}, {1e-10, ""}, {0, ""}, {math.NaN(), ""}, {math.Inf(1), ""}} {
		if got := Percent(c.share); got != c.want {
			t.Errorf("%g: %q, want %q", c.share, got, c.want)
		}
	}
}
