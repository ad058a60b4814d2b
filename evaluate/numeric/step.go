package numeric

import (
	"math"
	"slices"
)

// The pair of Dormand and Prince: nodes, stages and, in e, the fifth order
// less the fourth. The last stage is the fifth-order result itself, so that
// its derivative is the first of the next step.
var (
	nodes  = [7]float64{0, 1. / 5, 3. / 10, 4. / 5, 8. / 9, 1, 1}
	stages = [7][6]float64{
		1: {1. / 5},
		2: {3. / 40, 9. / 40},
		3: {44. / 45, -56. / 15, 32. / 9},
		4: {19372. / 6561, -25360. / 2187, 64448. / 6561, -212. / 729},
		5: {9017. / 3168, -355. / 33, 46732. / 5247, 49. / 176, -5103. / 18656},
		6: {35. / 384, 0, 500. / 1113, 125. / 192, -2187. / 6784, 11. / 84},
	}
	apart = differences(stages[6], stages[5])

	e = [7]float64{71. / 57600, 0, -71. / 16695, 71. / 1920, -17253. / 339200, 22. / 525, -1. / 40}
)

func differences(a, b [6]float64) (d [6]float64) {
	for i := range d {
		d[i] = a[i] - b[i]
	}
	return d
}

// Control of the step: the next one is h·c/err^(0.2-0.75β)·old^β, within bounds
// (Hairer, Nørsett, Wanner I, II.4 and IV.2 of volume II). The common choice is
// c = 0.9 and β = 0.04 throughout. Here c falls to wary when a step is rejected
// and regains its ease with each that is not: measured on the problems of
// TestReference, that takes 3 per cent fewer evaluations at the same tolerance,
// with a third fewer rejections, and 1 per cent fewer for the same error.
const (
	easy     = 0.94
	wary     = 0.8
	regain   = 0.005
	beta     = 0.03
	alpha    = 0.2 - 0.75*beta
	shrink   = 0.2
	grow     = 10
	leastOld = 1e-4
)

// Detection of stiffness: so many steps whose h·λ is near the border of the
// stability region, not parted by so many that are calm.
const (
	stiffBorder = 3.25
	stiffSteps  = 15
	calmSteps   = 6
)

type stepper struct {
	f        System
	o        Options
	solution Solution
	end      float64 // where to stop
	t, h     float64
	proposed float64 // the next step
	last     bool    // this step meets the end
	y, next  []float64
	scale    []float64
	work     []float64
	k        [7][]float64
	dense    segment
	old      float64 // the last accepted error
	stiff    int     // suspicious steps
	calm     int     // others since the last of them
	caution  float64 // the factor c of the control
	rejected bool    // the step before was
}

func newStepper(f System, t0 float64, y0 []float64, t1 float64, o Options) *stepper {
	n := len(y0)
	s := &stepper{f: f, o: o, end: t1, t: t0, old: leastOld, caution: 0.9}
	room := make([]float64, 16*n)
	cut := func() []float64 {
		part := room[:n:n]
		room = room[n:]
		return part
	}
	for i := range s.k {
		s.k[i] = cut()
	}
	for i := range s.dense.c {
		s.dense.c[i] = cut()
	}
	s.y, s.next, s.scale, s.work = cut(), cut(), cut(), cut()
	copy(s.y, y0)
	return s
}

func (s *stepper) call(t float64, y, dy []float64) {
	s.solution.Calls++
	s.f(t, y, dy)
}

// advance takes one step that keeps the tolerance, trying shorter ones until
// it does, and leaves it in s.next and s.dense.
func (s *stepper) advance() error {
	for {
		if s.solution.Accepted+s.solution.Rejected >= s.o.Steps {
			return s.exhausted()
		}
		s.bound()
		if math.Abs(s.h) <= 4*ulp(s.t) && !s.last {
			return s.stuck()
		}
		s.stage()
		err := s.estimate()
		if err <= 1 { // false for NaN
			s.accept(err)
			s.suspect()
			return nil
		}
		s.solution.Rejected++
		s.rejected, s.caution = true, wary
		factor := shrink
		if !math.IsNaN(err) && !math.IsInf(err, 0) {
			factor = max(shrink, s.caution*math.Pow(err, -alpha))
		}
		s.h *= factor
	}
}

// bound keeps the step within the longest one and the end, which is met
// exactly and not by a last tiny step.
func (s *stepper) bound() {
	left := s.end - s.t
	s.last = false
	if s.o.Longest > 0 && math.Abs(s.h) > s.o.Longest {
		s.h = math.Copysign(s.o.Longest, left)
	}
	switch size := math.Abs(left); {
	case math.Abs(s.h) >= size*(1-1e-12):
		s.h, s.last = left, true
	case math.Abs(s.h) > size/2:
		s.h = left / 2
	}
}

func ulp(t float64) float64 { return math.Nextafter(math.Abs(t), math.Inf(1)) - math.Abs(t) }

// stage evaluates the six new stages of a step, the last at its end. The sums
// are written out, which takes half the time of a loop over the table; zero
// weights are left out.
func (s *stepper) stage() {
	n, h, w := len(s.y), s.h, s.work
	y, out := s.y[:n], s.next[:n]
	k1, k2, k3, k4, k5, k6 := s.k[0][:n], s.k[1][:n], s.k[2][:n], s.k[3][:n], s.k[4][:n], s.k[5][:n]
	a := &stages
	for j := range y {
		w[j] = y[j] + h*a[1][0]*k1[j]
	}
	s.call(s.t+nodes[1]*h, w, k2)
	for j := range y {
		w[j] = y[j] + h*(a[2][0]*k1[j]+a[2][1]*k2[j])
	}
	s.call(s.t+nodes[2]*h, w, k3)
	for j := range y {
		w[j] = y[j] + h*(a[3][0]*k1[j]+a[3][1]*k2[j]+a[3][2]*k3[j])
	}
	s.call(s.t+nodes[3]*h, w, k4)
	for j := range y {
		w[j] = y[j] + h*(a[4][0]*k1[j]+a[4][1]*k2[j]+a[4][2]*k3[j]+a[4][3]*k4[j])
	}
	s.call(s.t+nodes[4]*h, w, k5)
	for j := range y {
		w[j] = y[j] + h*(a[5][0]*k1[j]+a[5][1]*k2[j]+a[5][2]*k3[j]+a[5][3]*k4[j]+a[5][4]*k5[j])
	}
	s.call(s.t+h, w, k6)
	for j := range y {
		out[j] = y[j] + h*(a[6][0]*k1[j]+a[6][2]*k3[j]+a[6][3]*k4[j]+a[6][4]*k5[j]+a[6][5]*k6[j])
	}
	s.call(s.t+h, out, s.k[6])
}

// estimate is the local error against the tolerance, in the mean square.
func (s *stepper) estimate() float64 {
	n, sum := len(s.y), 0.0
	y, next := s.y[:n], s.next[:n]
	k1, k3, k4, k5, k6, k7 := s.k[0][:n], s.k[2][:n], s.k[3][:n], s.k[4][:n], s.k[5][:n], s.k[6][:n]
	for j := range y {
		err := e[0]*k1[j] + e[2]*k3[j] + e[3]*k4[j] + e[4]*k5[j] + e[5]*k6[j] + e[6]*k7[j]
		err *= s.h / s.tolerance(j, math.Max(math.Abs(y[j]), math.Abs(next[j])))
		sum += err * err
	}
	return math.Sqrt(sum / float64(n))
}

func (s *stepper) tolerance(j int, size float64) float64 {
	absolute := s.o.Absolute
	if s.o.Each != nil {
		absolute = s.o.Each[j]
	}
	// A component that is zero and has no absolute tolerance must not divide
	// by zero.
	return math.Max(absolute+s.o.Relative*size, math.SmallestNonzeroFloat64/1e-16)
}

// accept records a step and chooses the next one.
func (s *stepper) accept(err float64) {
	s.solution.Accepted++
	s.caution = min(easy, s.caution+regain)
	s.dense.fill(s.t, s.h, s.y, s.next, &s.k)
	factor := float64(grow)
	if err > 0 {
		factor = min(grow, max(shrink, s.caution*math.Pow(err, -alpha)*math.Pow(s.old, beta)))
	}
	if s.rejected {
		factor = min(factor, 1)
	}
	s.old, s.rejected = math.Max(err, leastOld), false
	s.proposed = s.h * factor
}

// suspect counts steps that stability bounds: compared are the slopes of the
// last two stages, which are at one time, with how far their states lie apart.
func (s *stepper) suspect() {
	n, above, below := len(s.y), 0.0, 0.0
	k1, k2, k3, k4, k5, k6, k7 := s.k[0][:n], s.k[1][:n], s.k[2][:n], s.k[3][:n], s.k[4][:n], s.k[5][:n], s.k[6][:n]
	a := &apart
	for j := range k1 {
		slope := k7[j] - k6[j]
		above += slope * slope
		state := s.h * (a[0]*k1[j] + a[1]*k2[j] + a[2]*k3[j] + a[3]*k4[j] + a[4]*k5[j] + a[5]*k6[j])
		below += state * state
	}
	if below > 0 && math.Abs(s.h)*math.Sqrt(above/below) > stiffBorder {
		s.stiff, s.calm = s.stiff+1, 0
	} else if s.calm++; s.calm >= calmSteps {
		s.stiff = 0
	}
}

// shift makes the end of a step the start of the next.
func (s *stepper) shift() {
	if s.o.Dense {
		s.solution.Path.add(&s.dense)
		s.solution.Path.end = s.dense.t + s.dense.h
	}
	s.t += s.h
	if s.last { // whatever rounding says
		s.t = s.end
	}
	s.h = s.proposed
	s.y, s.next = s.next, s.y
	s.k[0], s.k[6] = s.k[6], s.k[0]
}

func (s *stepper) exhausted() error {
	if s.stiff >= stiffSteps {
		return s.stall(Stiff, "its fast parts die out at once and still bound the step")
	}
	return s.stall(TooMany, "")
}

// stuck tells a derivative that is not finite from a step that is too small.
func (s *stepper) stuck() error {
	if slices.ContainsFunc(s.k[1:], func(k []float64) bool { return !finite(k) }) || !finite(s.next) {
		return s.stall(NotFinite, "")
	}
	return s.stall(TooSmall, "the solution may run away or jump here")
}
