package interval

import "math"

// rounding is the part of a value below which a difference means nothing.
const rounding = 1e-12

// series is what the blocks of one output came to, each for itself: estimate,
// uncertainty, and the ends of the shortest interval.
type series struct {
	blocks        float64
	mean, squares [4]float64
}

func (s *series) add(block *Sketch) {
	low, high := block.Shortest(Level)
	s.blocks++
	for i, x := range [4]float64{block.Estimate(), block.scale(), low, high} {
		d := x - s.mean[i]
		s.mean[i] += d / s.blocks
		s.squares[i] += d * (x - s.mean[i])
	}
}

// settled reports whether twice the standard deviation of each average over the
// blocks is within the numerical tolerance of u (JCGM 101:2008, 7.9.4). What
// fails in every draw has settled: more draws would tell nothing new. So has
// what scatters by rounding alone.
func (s *series) settled(estimate, u float64) bool {
	if s.blocks < 2 {
		return false
	}
	allowed := max(tolerance(u), rounding*math.Abs(estimate))
	for _, squares := range s.squares {
		if 2*math.Sqrt(squares/s.blocks/(s.blocks-1)) > allowed {
			return false
		}
	}
	return true
}

// tolerance is δ = ½·10ˡ of u = c·10ˡ, where c is a whole number of two digits
// (JCGM 101:2008, 7.9.2).
func tolerance(u float64) float64 {
	if u == 0 {
		return 0
	}
	l := math.Floor(math.Log10(u)) - 1
	if math.Round(u/math.Pow(10, l)) >= 100 {
		l++
	}
	return math.Pow(10, l) / 2
}
