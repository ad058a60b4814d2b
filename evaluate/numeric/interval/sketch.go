package interval

import (
	"math"
	"slices"
)

const (
	// bins of a sketch's histogram. Over the range that a sketch takes from
	// its sample, one bin is about 1/400 of a normal distribution's standard
	// deviation, far less than the scatter of an interval's end.
	bins = 4096
	// beyond this size a number counts as failed: its square overflows.
	beyond = 1e150
)

// Tails say which moments the distribution of an output has.
type Tails uint8

// The tails of an output. One that hangs on an input of Student's t has a mean above one
// degree of freedom, and a standard deviation above two (JCGM 101:2008, 6.4.9): up to there
// those of the draws are whatever the farthest of them happen to be, however many there are.
const (
	Light       Tails = iota // mean and standard deviation
	NoDeviation              // a mean alone
	NoMean                   // neither
)

// TailsOf are those of an output that hangs on an input with so many degrees of freedom, and on
// none with fewer.
func TailsOf(freedom float64) Tails {
	switch {
	case freedom <= 1:
		return NoMean
	case freedom <= 2:
		return NoDeviation
	}
	return Light
}

// A Sketch takes up any number of draws of an output in constant memory and
// tells their mean, standard uncertainty and coverage intervals.
//
// Mean and standard deviation are exact but for rounding. The intervals come from a
// histogram whose range was set by a sample: they are within a bin of those of
// the sorted draws, as long as the sample resembles what follows. Draws
// outside the range are counted at either side of it.
type Sketch struct {
	tails         Tails
	count, failed int
	mean, squares float64 // the sum of squared differences from the mean
	min, max      float64
	from, inverse float64 // where bin 1 begins, and one over the bins' width
	tally         [bins + 2]uint32
}

// newSketch is an empty sketch. Its histogram reaches half of the range of the
// middle 99 % of the sample beyond that range, at either side. The sample is
// not taken up.
func newSketch(sample []float64, tails Tails) *Sketch {
	sorted := make([]float64, 0, len(sample))
	for _, x := range sample {
		if math.Abs(x) <= beyond {
			sorted = append(sorted, x)
		}
	}
	slices.Sort(sorted)
	s := &Sketch{tails: tails}
	s.reset()
	if n := len(sorted); n > 0 {
		s.cover(sorted[n/200], sorted[n-1-n/200])
		if s.inverse == 0 {
			s.cover(sorted[0], sorted[n-1])
		}
	}
	return s
}

// cover sets the bins, unless the range is too small for any.
func (s *Sketch) cover(a, b float64) {
	width := 2 * (b - a) / bins
	if inverse := 1 / width; !math.IsInf(inverse, 0) {
		s.from, s.inverse = a-(b-a)/2, inverse
	}
}

// like is an empty sketch that may be merged into s.
func (s *Sketch) like() *Sketch {
	empty := &Sketch{tails: s.tails, from: s.from, inverse: s.inverse}
	empty.reset()
	return empty
}

// reset forgets all draws and keeps the range.
func (s *Sketch) reset() {
	*s = Sketch{tails: s.tails, from: s.from, inverse: s.inverse, min: math.Inf(1), max: math.Inf(-1)}
}

// add takes up draws. A draw that is no finite number has failed.
func (s *Sketch) add(draws []float64) {
	n, sum, origin := 0, 0.0, 0.0
	for _, x := range draws {
		if !(math.Abs(x) <= beyond) {
			s.failed++
			continue
		}
		if n == 0 {
			origin = x
		}
		n++
		sum += x - origin
		s.min, s.max = min(s.min, x), max(s.max, x)
		s.tally[s.bin(x)]++
	}
	if n == 0 {
		return
	}
	mean, squares := origin+sum/float64(n), 0.0
	for _, x := range draws {
		if math.Abs(x) <= beyond {
			squares += (x - mean) * (x - mean)
		}
	}
	s.moments(n, mean, squares)
}

func (s *Sketch) bin(x float64) int {
	at := (x - s.from) * s.inverse
	switch {
	case at < 0:
		return 0
	case at < bins:
		return 1 + int(at)
	}
	return bins + 1
}

// moments merges mean and squares (Chan, Golub and LeVeque 1983).
func (s *Sketch) moments(n int, mean, squares float64) {
	before, more := float64(s.count), float64(n)
	all := before + more
	d := mean - s.mean
	s.count += n
	s.mean += d * more / all
	s.squares += squares + d*d*before*more/all
}

// merge takes up all that other has. Both must be of one range, by like.
func (s *Sketch) merge(other *Sketch) {
	if s.from != other.from || s.inverse != other.inverse {
		panic("interval: sketches of different ranges")
	}
	s.failed += other.failed
	if other.count == 0 {
		return
	}
	s.moments(other.count, other.mean, other.squares)
	s.min, s.max = min(s.min, other.min), max(s.max, other.max)
	for i, n := range other.tally {
		s.tally[i] += n
	}
}

// Tails are those of the output.
func (s *Sketch) Tails() Tails { return s.tails }

// Count is the number of draws that are a number.
func (s *Sketch) Count() int { return s.count }

// Failed is the number of draws that are none.
func (s *Sketch) Failed() int { return s.failed }

// Estimate is the mean (JCGM 101:2008, 7.6), NaN without a draw. Of a distribution that has
// none it is the median.
func (s *Sketch) Estimate() float64 {
	switch {
	case s.count == 0:
		return math.NaN()
	case s.tails == NoMean:
		return s.median()
	}
	return s.mean
}

// median has as many draws below it as above, to a bin.
func (s *Sketch) median() float64 {
	low, high := s.symmetric(0)
	return low + (high-low)/2
}

// Uncertainty is the standard deviation (JCGM 101:2008, 7.6), NaN below two
// draws. Of a distribution that has none it is infinite.
func (s *Sketch) Uncertainty() float64 {
	switch {
	case s.count < 2:
		return math.NaN()
	case s.tails != Light:
		return math.Inf(1)
	}
	return s.deviation()
}

// deviation is that of the draws, whether their distribution has one or not.
func (s *Sketch) deviation() float64 { return math.Sqrt(s.squares / float64(s.count-1)) }

// halfLength is how many standard deviations to either side hold [Level] of a normal
// distribution.
const halfLength = 1.959964

// scale is what two digits of an output are counted from: the standard uncertainty; where
// there is none, that of the normal distribution with an interval as long.
func (s *Sketch) scale() float64 {
	if s.tails == Light {
		return s.Uncertainty()
	}
	low, high := s.Shortest(Level)
	return (high - low) / 2 / halfLength
}

// symmetric is the probabilistically symmetric interval of probability p: as
// much lies below it as above (JCGM 101:2008, 7.7). It is NaN without a draw.
func (s *Sketch) symmetric(p float64) (low, high float64) {
	if s.count == 0 {
		return math.NaN(), math.NaN()
	}
	n := float64(s.count)
	w := walker{s: s}
	low = w.after((1 - p) / 2 * n)
	return low, w.until((1 + p) / 2 * n)
}

// Shortest is the shortest interval of probability p (JCGM 101:2008, 7.7). It
// is NaN without a draw.
//
// Within the bins the draws lie evenly, so the shortest interval begins where
// a bin begins or ends where one ends. After n draws its width is known to
// about 1/√n, but where it lies only to about 1/∛n.
func (s *Sketch) Shortest(p float64) (low, high float64) {
	if s.count == 0 {
		return math.NaN(), math.NaN()
	}
	low, high = s.symmetric(p)
	n := p * float64(s.count)
	begins, ends := walker{s: s}, walker{s: s}
	before := 0.0
	for i, tally := range s.tally {
		if tally == 0 {
			continue
		}
		if a, end := s.left(i), before+n; end <= float64(s.count) {
			if b := ends.until(end); b-a < high-low {
				low, high = a, b
			}
		}
		before += float64(tally)
		if b, begin := s.left(i+1), before-n; begin >= 0 {
			if a := begins.after(begin); b-a < high-low {
				low, high = a, b
			}
		}
	}
	return low, high
}

// left is where a bin begins, within the draws.
func (s *Sketch) left(i int) float64 {
	switch {
	case i == 0 || i == 1 && s.inverse == 0:
		return s.min
	case i == bins+2 || s.inverse == 0:
		return s.max
	}
	return min(max(s.from+float64(i-1)/s.inverse, s.min), s.max)
}

// A walker goes up the bins of a sketch.
type walker struct {
	s      *Sketch
	i      int
	before float64 // draws below bin i
}

// until is the least place with so many draws up to it.
func (w *walker) until(draws float64) float64 {
	for w.i <= bins && w.before+float64(w.s.tally[w.i]) < draws {
		w.step()
	}
	return w.place(draws)
}

// after is the greatest place with so many draws up to it.
func (w *walker) after(draws float64) float64 {
	for w.i <= bins && w.before+float64(w.s.tally[w.i]) <= draws {
		w.step()
	}
	return w.place(draws)
}

func (w *walker) step() {
	w.before += float64(w.s.tally[w.i])
	w.i++
}

func (w *walker) place(draws float64) float64 {
	a, b := w.s.left(w.i), w.s.left(w.i+1)
	tally := float64(w.s.tally[w.i])
	if tally == 0 {
		return b
	}
	return a + (b-a)*min(max((draws-w.before)/tally, 0), 1)
}
