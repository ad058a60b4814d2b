package generator

import (
	"math"
	"slices"
	"sort"
	"sync/atomic"
)

// severalFlow is bridges side by side on the d.c. side, each on an emf of peak e
// and r of its own, evenly apart over half a turn of the emf, through rd that
// they share into x.
//
// Half of the way from one crest to the next stands for the whole. There the
// emfs keep their order, so the conducting ones are the first m of it: their
// node is at u = (x + rd/r·Σe)/(1 + m·rd/r), and the next joins while its emf is above.
func severalFlow(n int, e, r, rd, x float64) flow {
	x, rd = max(0, x/e), rd/r
	whole := math.Pi / 2 / float64(n)
	rank := ranked(n)
	cuts := append(make([]float64, 0, 8), 0, whole)
	for m := 1; m < n; m++ { // where the next joins or leaves
		cuts = rank[m].meets(1+float64(m)*rd, rank[m-1].sum, rd, x, whole, cuts)
	}
	cuts = rank[0].meets(1, wave{}, rd, x, whole, cuts)
	slices.Sort(cuts)
	var f flow
	for i := range len(cuts) - 1 {
		f.conduct(rank, rd, x, cuts[i], cuts[i+1])
	}
	k := 1 / whole
	shared := 0.0
	if f.mean > 0 {
		shared = f.shared / f.mean
	}
	f = flow{mean: k * e / r * f.mean, power: k * e * e / r * f.power, square: k * e * e / r / r * f.square, shared: shared}
	f.peak = severalPeak(rank, rd, x) * e / r
	return f
}

// A wave is cos·cos θ + sin·sin θ.
type wave struct{ cos, sin float64 }

func (w wave) at(t float64) float64 { s, c := math.Sincos(t); return w.cos*c + w.sin*s }

func (w wave) plus(o wave, part float64) wave { return wave{w.cos + part*o.cos, w.sin + part*o.sin} }

// A rank is an emf in the order of their size, with the sum of it and those above, and
// the sum of their squares as half their number and a wave of twice the angle.
type rank struct{ one, sum, twice wave }

// ranked are so many of them. Those of the numbers that are wired are kept: each look
// wants them.
func ranked(n int) []rank {
	if n >= len(ranks) {
		return rankedAnew(n)
	}
	if kept := ranks[n].Load(); kept != nil {
		return *kept
	}
	out := rankedAnew(n)
	ranks[n].Store(&out)
	return out
}

var ranks [101]atomic.Pointer[[]rank]

func rankedAnew(n int) []rank {
	out := make([]rank, n)
	var sum, twice wave
	for m := range n { // θ, π/n − θ, π/n + θ, 2π/n − θ, …
		a := float64((m+1)/2) * math.Pi / float64(n)
		s, c := math.Sincos(a)
		one := wave{c, s}
		if m%2 == 0 {
			one.sin = -s
		}
		s2, c2 := math.Sincos(2 * a)
		double := wave{c2 / 2, s2 / 2}
		if m%2 == 0 {
			double.sin = -s2 / 2
		}
		sum, twice = sum.plus(one, 1), twice.plus(double, 1)
		out[m] = rank{one, sum, twice}
	}
	return out
}

// meets adds the angles where part of an emf less rd of those above it passes x.
func (k rank) meets(part float64, above wave, rd, x, whole float64, cuts []float64) []float64 {
	w := wave{part * k.one.cos, part * k.one.sin}.plus(above, -rd)
	h := math.Hypot(w.cos, w.sin)
	if x >= h {
		return cuts
	}
	crest, half := math.Atan2(w.sin, w.cos), math.Acos(x/h)
	for _, t := range [2]float64{crest - half, crest + half} {
		if t > 0 && t < whole {
			cuts = append(cuts, t)
		}
	}
	return cuts
}

// conducting is how many emfs conduct at an angle: the more there are above one, the less
// it can, so that they are found by halving.
func conducting(ranks []rank, rd, x, t float64) int {
	s, c := math.Sincos(t)
	return sort.Search(len(ranks), func(m int) bool {
		above := 0.0
		if m > 0 {
			above = ranks[m-1].sum.cos*c + ranks[m-1].sum.sin*s
		}
		one := ranks[m].one
		return (1+float64(m)*rd)*(one.cos*c+one.sin*s)-rd*above <= x
	})
}

// conduct adds what flows from one angle to another.
func (f *flow) conduct(ranks []rank, rd, x, a, b float64) {
	n := conducting(ranks, rd, x, (a+b)/2)
	if n == 0 {
		return
	}
	k, m := ranks[n-1], float64(n)
	own := 1 + m*rd
	sa, ca := math.Sincos(a)
	sb, cb := math.Sincos(b)
	angle, half := b-a, (sb*cb-sa*ca)/2
	sum := k.sum.cos*(sb-sa) - k.sum.sin*(cb-ca)
	square := k.sum.cos*k.sum.cos*(angle/2+half) + k.sum.sin*k.sum.sin*(angle/2-half) + k.sum.cos*k.sum.sin*(sb-sa)*(sb+sa)
	emfs := m/2*angle + k.twice.cos*(sb*cb-sa*ca) + k.twice.sin*(sb-sa)*(sb+sa)
	part := (sum - m*x*angle) / own
	if f.mean += part; n > 1 {
		f.shared += part
	}
	f.power += emfs - (x*sum+rd*square)/own
	f.square += (square - 2*m*x*sum + m*m*x*x*angle) / (own * own)
}

// severalPeak is the peak of what they pass together, at a crest or half way.
func severalPeak(ranks []rank, rd, x float64) float64 {
	peak := 0.0
	for _, t := range [2]float64{0, math.Pi / 2 / float64(len(ranks))} {
		if n := conducting(ranks, rd, x, t); n > 0 {
			peak = max(peak, (ranks[n-1].sum.at(t)-float64(n)*x)/(1+float64(n)*rd))
		}
	}
	return peak
}

// severalPeakPower is the largest power of their emfs at one time.
func severalPeakPower(n int, e, r, rd, x float64) float64 {
	x, rd = max(0, x/e), rd/r
	ranks := ranked(n)
	return e * e / r * largest(0, math.Pi/2/float64(n), func(t float64) float64 {
		n := conducting(ranks, rd, x, t)
		if n == 0 {
			return 0
		}
		k := ranks[n-1]
		sum, squares := k.sum.at(t), float64(n)/2+k.twice.at(2*t)
		return squares - sum*(x+rd*sum)/(1+float64(n)*rd)
	})
}

// laggingSeveral is severalFlow with a reactance q in each. It takes of their
// current and power the part that it takes of one alone: into the mean of what they share
// for the current that flows while others do, through rd alone for the rest.
func laggingSeveral(n int, e, r, rd, q, x float64) flow {
	f := severalFlow(n, e, r, rd, x)
	if q <= leastLag*r || f.mean == 0 {
		return f
	}
	shared := late(e, r, q, x+rd*f.mean)
	own := late(e, r+rd, q, x)
	w := f.shared
	mean, power, square := w*shared.mean+(1-w)*own.mean, w*shared.power+(1-w)*own.power, w*shared.square+(1-w)*own.square
	return flow{mean: f.mean * mean, power: f.power * power, square: f.square * square, peak: f.peak * mean}
}

// late is what a reactance leaves of the flow of one bridge.
func late(e, r, q, x float64) flow {
	alone, f := singleFlow(e, r, x), laggingSingle(e, r, q, x)
	if alone.mean == 0 {
		return flow{mean: 1, power: 1, square: 1}
	}
	return flow{mean: f.mean / alone.mean, power: f.power / alone.power, square: f.square / alone.square}
}
