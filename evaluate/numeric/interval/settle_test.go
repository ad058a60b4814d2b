package interval

import (
	"math"
	"testing"
)

// JCGM 101:2008, 7.9.4 g and k: s² is the sum of squares over h(h − 1), and 2s
// must not exceed δ, 0.05 for u = 2.
func TestSettled(t *testing.T) {
	for i := range 4 {
		for _, c := range []struct {
			s    float64
			want bool
		}{{0.0249, true}, {0.0251, false}} {
			s := series{blocks: 4}
			s.squares[i] = c.s * c.s * 4 * 3
			if got := s.settled(1, 2); got != c.want {
				t.Errorf("value %d with s = %v: %v", i, c.s, got)
			}
		}
	}
	if one := (&series{blocks: 1}); one.settled(1, 2) {
		t.Error("one block has settled")
	}
}

// A value that scatters in its last digit needs no more than two blocks.
func TestRoundingSettles(t *testing.T) {
	jitter := each(func(x []float64) float64 { return math.Nextafter(0.1, math.Round(x[0])) })
	for seed := range uint64(10) {
		r, err := Simulate(Plan{Sources: []Source{Rectangular(0.45, 1.45)}, Outputs: 1, Draws: 100_000, Seed: seed}, jitter)
		if err != nil || r.Draws != 2*Block || !r.AllSettled() {
			t.Errorf("seed %d: %d draws, %v", seed, r.Draws, err)
		}
	}
}

// The sums of squares of a series are those of its blocks about their mean.
func TestSeries(t *testing.T) {
	var s series
	for _, block := range [][]float64{{1, 3}, {2, 8}, {4, 5}} {
		s.add(sketched(block))
	}
	// Means 2, 5 and 4.5; uncertainties √2, √18 and √½.
	near(t, "mean", s.mean[0], 11.5/3, 1e-12)
	near(t, "squares", s.squares[0], 4+25+20.25-11.5*11.5/3, 1e-12)
	total := math.Sqrt(2) + math.Sqrt(18) + math.Sqrt(0.5)
	near(t, "squares of u", s.squares[1], 2+18+0.5-total*total/3, 1e-12)
}

// What is promised of a settled mean: over many seeds it is within δ of the
// exact one (far more often than the 95 % that two standard deviations mean,
// since the ends of the interval settle later).
func TestSettledMeansAreRight(t *testing.T) {
	right := 0
	const seeds = 40
	for seed := range uint64(seeds) {
		r, err := Simulate(Plan{Sources: []Source{normal(1, 2)}, Outputs: 1, Draws: 1_000_000, Seed: seed}, each(sum))
		if err != nil || !r.AllSettled() {
			t.Fatal(seed, err)
		}
		if y := r.Outputs[0]; math.Abs(y.Estimate()-1) <= 0.05 && math.Abs(y.Uncertainty()-2) <= 0.05 {
			right++
		}
	}
	if right < seeds*9/10 {
		t.Errorf("%d of %d are right", right, seeds)
	}
}
