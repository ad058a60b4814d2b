package interval

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

func sketched(draws []float64) *Sketch {
	s := newSketch(draws[:min(len(draws), Block)], Light)
	s.add(draws)
	return s
}

// sortedShortest is the shortest interval by the sorted draws themselves.
func sortedShortest(draws []float64, p float64) (low, high float64) {
	sorted := slices.Sorted(slices.Values(draws))
	q := int(p*float64(len(sorted)) + 0.5)
	low, high = sorted[0], sorted[q]
	for i := range len(sorted) - q {
		if sorted[i+q]-sorted[i] < high-low {
			low, high = sorted[i], sorted[i+q]
		}
	}
	return low, high
}

func sortedMoments(draws []float64) (mean, u float64) {
	for _, x := range draws {
		mean += (x - draws[0]) / float64(len(draws))
	}
	mean += draws[0]
	squares := 0.0
	for _, x := range draws {
		squares += (x - mean) * (x - mean)
	}
	return mean, math.Sqrt(squares / float64(len(draws)-1))
}

// Against the sorted draws, for shapes that are hard on a histogram.
func TestSketchAgainstSorting(t *testing.T) {
	const n = 100_000
	for name, draw := range map[string]func(r *rand.Rand) float64{
		"normal":              func(r *rand.Rand) float64 { return r.NormFloat64() },
		"far from zero":       func(r *rand.Rand) float64 { return 1e9 + r.NormFloat64() },
		"exponential":         func(r *rand.Rand) float64 { return r.ExpFloat64() },
		"its mirror":          func(r *rand.Rand) float64 { return -r.ExpFloat64() },
		"rectangular":         func(r *rand.Rand) float64 { return r.Float64() },
		"two humps":           func(r *rand.Rand) float64 { return r.NormFloat64() + 100*float64(r.IntN(2)) },
		"arc sine":            func(r *rand.Rand) float64 { return math.Sin(2 * math.Pi * r.Float64()) },
		"without a deviation": func(r *rand.Rand) float64 { return math.Tan(math.Pi * (r.Float64() - 0.5)) },
		"log-normal":          func(r *rand.Rand) float64 { return math.Exp(r.NormFloat64()) },
		"held at a bound":     func(r *rand.Rand) float64 { return max(0, r.NormFloat64()) },
		"whole":               func(r *rand.Rand) float64 { return float64(r.IntN(7)) },
		"small":               func(r *rand.Rand) float64 { return 1e-30 * r.NormFloat64() },
		"rarely another":      func(r *rand.Rand) float64 { return math.Floor(r.Float64() + 0.0005) },
	} {
		r := rand.New(rand.NewPCG(1, 2))
		draws := make([]float64, n)
		for k := range draws {
			draws[k] = draw(r)
		}
		s := sketched(draws)
		mean, u := sortedMoments(draws)
		near(t, name+": mean", s.Estimate(), mean, 1e-9*u+1e-14*math.Abs(mean))
		near(t, name+": u", s.Uncertainty(), u, 1e-9*u)
		low, high := s.Shortest(Level)
		a, b := sortedShortest(draws, Level)
		bin := 0.0
		if s.inverse > 0 {
			bin = 1 / s.inverse
		}
		if b-a > 200*bin { // else both ends are at one place
			near(t, name+": width", high-low, b-a, 2*bin)
		}
		sorted := slices.Sorted(slices.Values(draws))
		low, high = s.symmetric(Level)
		near(t, name+": low", low, sorted[n*25/1000], 2*bin)
		near(t, name+": high", high, sorted[n*975/1000], 2*bin)
	}
}

// The sample was all of one value, and what follows is not.
func TestSketchOfAMisleadingSample(t *testing.T) {
	s := newSketch(slices.Repeat([]float64{5}, 100), Light)
	s.add([]float64{4, 5, 6, 7, 8})
	low, high := s.Shortest(Level)
	if s.Count() != 5 || s.Estimate() != 6 || low < 4 || high > 8 || high-low < 3.7 {
		t.Error(s.Count(), s.Estimate(), low, high)
	}
	s = newSketch([]float64{0, 1}, Light)
	s.add(slices.Repeat([]float64{-7}, 10))
	s.add(slices.Repeat([]float64{9}, 10))
	if low, high := s.symmetric(Level); low < -7 || low > -6 || high < 8 || high > 9 {
		t.Error(low, high)
	}
}

func TestSketchWithoutDraws(t *testing.T) {
	nan := math.NaN()
	s := sketched([]float64{nan, math.Inf(1), -math.Inf(1), 1e200})
	low, high := s.Shortest(Level)
	a, b := s.symmetric(Level)
	for _, x := range []float64{s.Estimate(), s.Uncertainty(), low, high, a, b} {
		if !math.IsNaN(x) {
			t.Error(x)
		}
	}
	if s.Failed() != 4 || s.Count() != 0 {
		t.Error(s.Failed(), s.Count())
	}
	s.merge(s.like())
	s.add([]float64{3, nan})
	if low, high := s.Shortest(Level); low != 3 || high != 3 || s.Estimate() != 3 || !math.IsNaN(s.Uncertainty()) || s.Failed() != 5 {
		t.Error(low, high, s.Estimate(), s.Uncertainty(), s.Failed())
	}
	if least, greatest := s.min, s.max; least != 3 || greatest != 3 {
		t.Error(least, greatest)
	}
	s.reset()
	if s.Count() != 0 || s.Failed() != 0 {
		t.Error("a reset sketch is not empty")
	}
}

func TestMergeRefusesAnotherRange(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("two ranges were merged")
		}
	}()
	sketched([]float64{1, 2}).merge(sketched([]float64{1, 3}))
}

// Properties for any shape: draws are |z|^power, folded or not, with some that
// fail, moved and scaled.
func FuzzSketch(f *testing.F) {
	f.Add(uint64(1), 1.0, 0.0, 1.0, 0.95, uint8(3))
	f.Add(uint64(2), 3.0, 1e6, 1e-3, 0.5, uint8(0))
	f.Add(uint64(3), 0.1, -5.0, 1e20, 0.99, uint8(90))
	f.Fuzz(func(t *testing.T, seed uint64, power, shift, scale, p float64, failing uint8) {
		scale = math.Abs(scale)
		if !(power > 0 && power < 20 && math.Abs(shift) < 1e9 && scale > 1e-6 && scale < 1e20 && p > 0.01 && p < 0.999) {
			return
		}
		r := rand.New(rand.NewPCG(seed, 0))
		draws := make([]float64, 3000)
		for k := range draws {
			draws[k] = math.Copysign(math.Pow(math.Abs(r.NormFloat64()), power), r.Float64()-0.3)
			if r.IntN(256) < int(failing)/2 {
				draws[k] = math.NaN()
			}
		}
		s := newSketch(draws[:1000], Light)
		parts := [3]*Sketch{s.like(), s.like(), s.like()}
		for i, part := range parts {
			part.add(draws[1000*i : 1000*i+1000])
		}
		s.add(draws)
		intervals(t, s, p)
		merges(t, s, parts, p)
		moves(t, s, draws, shift, scale, p)
	})
}

// intervals: the shortest is no longer than the symmetric one, and each is
// within the draws and holds p of them, but for what lies in a bin.
func intervals(t *testing.T, s *Sketch, p float64) {
	low, high := s.Shortest(p)
	a, b := s.symmetric(p)
	least, greatest := s.min, s.max
	if !(high-low <= b-a) || low > high || low < least || high > greatest || a < least || b > greatest || a > b {
		t.Fatalf("shortest %v to %v, symmetric %v to %v in %v to %v", low, high, a, b, least, greatest)
	}
	// No interval that begins at another share of the draws is shorter. Shares
	// where a bin begins or ends are among them.
	n, before := float64(s.Count()), 0.0
	starts := []float64{0, (1 - p) * n}
	for i := range 200 {
		starts = append(starts, float64(i)/200*(1-p)*n)
	}
	for _, tally := range s.tally {
		before += float64(tally)
		starts = append(starts, before, before-p*n)
	}
	begins, ends := walker{s: s}, walker{s: s}
	slices.Sort(starts)
	for _, start := range starts {
		if start < 0 || start > (1-p)*n {
			continue
		}
		if a, b := begins.after(start), ends.until(start+p*n); b-a < (high-low)*(1-1e-9) {
			t.Fatalf("%v to %v is shorter than %v to %v", a, b, low, high)
		}
	}
	for _, ends := range [2][2]float64{{low, high}, {a, b}} {
		inside, widest := 0.0, 0.0
		for i, n := range s.tally {
			if s.left(i+1) >= ends[0] && s.left(i) <= ends[1] {
				inside += float64(n)
				widest = max(widest, float64(n))
			}
		}
		if n := p * float64(s.Count()); inside < n-1e-6 || inside > n+4*widest+1e-6 {
			t.Fatalf("%v of %d draws in the interval of %v", inside, s.Count(), p)
		}
	}
}

// merges: the order matters to rounding alone, and not to the intervals.
func merges(t *testing.T, s *Sketch, parts [3]*Sketch, p float64) {
	low, high := s.Shortest(p)
	for _, order := range [][3]int{{0, 1, 2}, {2, 0, 1}, {1, 2, 0}, {2, 1, 0}} {
		all := s.like()
		for _, i := range order {
			all.merge(parts[i])
		}
		a, b := all.Shortest(p)
		if all.Count() != s.Count() || all.Failed() != s.Failed() || a != low || b != high {
			t.Fatalf("merged %v: %d draws, %v to %v", order, all.Count(), a, b)
		}
		u := s.Uncertainty()
		if math.Abs(all.Estimate()-s.Estimate()) > 1e-12*u || math.Abs(all.Uncertainty()-u) > 1e-12*u {
			t.Fatalf("merged %v: %v ± %v, not %v ± %v", order, all.Estimate(), all.Uncertainty(), s.Estimate(), u)
		}
	}
}

// moves: what is moved and scaled has moments and intervals that are.
func moves(t *testing.T, s *Sketch, draws []float64, shift, scale, p float64) {
	moved := make([]float64, len(draws))
	for k, x := range draws {
		moved[k] = scale*x + shift
	}
	m := newSketch(moved[:1000], Light)
	m.add(moved)
	low, high := s.Shortest(p)
	a, b := m.Shortest(p)
	least, greatest := s.min, s.max
	rounding := 1e-12 * (math.Abs(shift) + scale*(greatest-least))
	if math.Abs(m.Estimate()-(scale*s.Estimate()+shift)) > rounding || math.Abs(m.Uncertainty()-scale*s.Uncertainty()) > rounding {
		t.Fatalf("%v ± %v moved is %v ± %v", s.Estimate(), s.Uncertainty(), m.Estimate(), m.Uncertainty())
	}
	bin := 0.0
	if m.inverse > 0 {
		bin = 1 / m.inverse
	}
	if math.Abs((b-a)-scale*(high-low)) > 4*bin+rounding {
		t.Fatalf("the width %v moved is %v", scale*(high-low), b-a)
	}
}

func BenchmarkSketch(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 2))
	draws := make([]float64, Block)
	for k := range draws {
		draws[k] = r.NormFloat64()
	}
	s := sketched(draws)
	b.Run("add", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			s.reset()
			s.add(draws)
		}
	})
	b.Run("shortest", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			s.Shortest(Level)
		}
	})
}
