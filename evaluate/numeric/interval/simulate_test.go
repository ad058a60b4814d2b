package interval

import (
	"errors"
	"math"
	"runtime"
	"testing"
)

// each makes a model of one output of a function of one draw.
func each(f func(x []float64) float64) Model {
	return func(_ int, inputs, outputs [][]float64) error {
		x := make([]float64, len(inputs))
		for k := range outputs[0] {
			for i := range x {
				x[i] = inputs[i][k]
			}
			outputs[0][k] = f(x)
		}
		return nil
	}
}

func simulated(t *testing.T, draws int, f func(x []float64) float64, sources ...Source) *Result {
	t.Helper()
	r, err := Simulate(Plan{Sources: sources, Outputs: 1, Draws: draws, Seed: 1}, each(f))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// isShortest holds the shortest interval against a published one, within four
// standard deviations. Its width scatters as two quantiles do, which is
// √(p(1 − p)/n)/f at a density f. Its place scatters more, by about
// 0.52·(2f⁴/nf′²)^⅓/f: where the least of a parabola with a random walk on it
// is (Chernoff 1964, from memory).
func isShortest(t *testing.T, r *Result, low, high, density, slope, printed float64) {
	t.Helper()
	if !r.AllSettled() {
		t.Errorf("not settled after %d draws", r.Draws)
	}
	n := float64(r.Draws)
	quantile := 4 * math.Sqrt(0.025*0.975/n) / density
	place := 4 * 0.52 * math.Cbrt(2*math.Pow(density, 4)/n/(slope*slope)) / density
	a, b := r.Outputs[0].Shortest(Level)
	near(t, "width", b-a, high-low, 2*quantile+printed)
	near(t, "low end", a, low, place+quantile+printed)
	near(t, "high end", b, high, place+quantile+printed)
}

// Density and its slope at 1.96 of the standard normal distribution.
const atNormalEnd, slopeThere = 0.05845, 0.11456

func sum(x []float64) float64 {
	total := 0.0
	for _, v := range x {
		total += v
	}
	return total
}

// JCGM 101:2008, 9.2.3: four rectangular inputs of mean 0 and u = 1. The ends
// are ±2√3·(2 − (3/5)^¼) = ±3.8794, printed 3.88.
func TestAdditiveRectangular(t *testing.T) {
	limit := math.Sqrt(3)
	x := Rectangular(-limit, limit)
	r := simulated(t, 5_000_000, sum, x, x, x, x)
	y, n := r.Outputs[0], float64(r.Draws)
	near(t, "mean", y.Estimate(), 0, 4*2/math.Sqrt(n))
	near(t, "u", y.Uncertainty(), 2, 4*2/math.Sqrt(2*n))
	want := 2 * limit * (2 - math.Pow(0.6, 0.25))
	near(t, "the exact end", want, 3.87941, 5e-6)
	// The density at the ends is x³/6 over 2√3, where x⁴/24 = 0.025.
	density := math.Pow(0.6, 0.75) / 6 / (2 * limit)
	isShortest(t, r, -want, want, density, math.Sqrt(0.6)/2/12, 0)
	low, high := y.symmetric(Level)
	near(t, "symmetric low end", low, -want, 4*math.Sqrt(0.025*0.975/n)/density)
	near(t, "symmetric high end", high, want, 4*math.Sqrt(0.025*0.975/n)/density)
}

// JCGM 101:2008, 9.2.2: four standard normal inputs, [−3.92, 3.92].
func TestAdditiveNormal(t *testing.T) {
	x := normal(0, 1)
	r := simulated(t, 5_000_000, sum, x, x, x, x)
	isShortest(t, r, -3.92, 3.92, atNormalEnd/2, slopeThere/4, 5e-4)
}

// JCGM 101:2008, 9.4, table 6, comparison loss δY = X₁² + X₂², u = 0.005 each.
// At x₁ = 0 it is exponential, with mean and u of 50e-6 and [0, 149.79e-6]; at
// x₁ = 0.010 mean and u are 150e-6 and 111.8e-6 (printed 150, 112); at 0.050
// they are 2550e-6 and 502e-6 (printed 2551, 502, by draws).
func TestComparisonLoss(t *testing.T) {
	loss := func(x []float64) float64 { return x[0]*x[0] + x[1]*x[1] }
	for _, c := range []struct{ x, mean, u, printed float64 }{{0, 50, 50, 0}, {0.010, 150, 111.8, 0.05}, {0.050, 2550, 502, 0.5}} {
		r := simulated(t, 5_000_000, func(x []float64) float64 { return 1e6 * loss(x) }, normal(c.x, 0.005), normal(0, 0.005))
		y, n := r.Outputs[0], float64(r.Draws)
		near(t, "mean", y.Estimate(), c.mean, 4*c.u/math.Sqrt(n))
		// The standard deviation of u is u·√((κ − 1)/4n), and κ ≤ 9.
		near(t, "u", y.Uncertainty(), c.u, 4*c.u*math.Sqrt(2/n)+c.printed)
		if c.x == 0 {
			// Density and slope at the high end; at the low end the density breaks off.
			isShortest(t, r, 0, 149.79, 0.05/50, 0.05/2500, 0.005)
		}
	}
}

// JCGM 101:2008, 9.3, table 5, calibration of a mass: by first order u is
// 0.0539 mg with [1.1285, 1.3395] mg; by draws 0.0754 mg with [1.0834, 1.3825] mg
// (8 million draws of another implementation: 0.0755, [1.084, 1.383] mg).
func TestMassCalibration(t *testing.T) {
	mass := func(x []float64) float64 { // mg from 100 g
		return (x[0]+x[1])*(1+(x[2]-1.2)*(1/x[3]-1/x[4])) - 100_000
	}
	best := []float64{100_000, 1.234, 1.2, 8000, 8000}
	half := []float64{0, 0, 0.1, 1000, 50}
	u := []float64{0.050, 0.020}
	for _, a := range half[2:] {
		u = append(u, a/math.Sqrt(3))
	}
	contributions := make([]float64, 5)
	for i := range best {
		step := func(d float64) float64 {
			x := append([]float64(nil), best...)
			x[i] += d
			return mass(x)
		}
		contributions[i] = (step(u[i]) - step(-u[i])) / 2
	}
	first := Sum(contributions)
	near(t, "u by first order", first, 0.05385, 5e-6)
	near(t, "its low end", 1.234-1.959964*first, 1.1285, 5e-5)
	near(t, "its high end", 1.234+1.959964*first, 1.3395, 5e-5)

	r := simulated(t, 5_000_000, mass, normal(best[0], u[0]), normal(best[1], u[1]),
		Rectangular(1.1, 1.3), Rectangular(7000, 9000), Rectangular(7950, 8050))
	y, n := r.Outputs[0], float64(r.Draws)
	near(t, "mean", y.Estimate(), 1.234, 4*0.0755/math.Sqrt(n))
	near(t, "u", y.Uncertainty(), 0.0755, 4*0.0755/math.Sqrt(n)+1e-4)
	isShortest(t, r, 1.0834, 1.3825, atNormalEnd/0.0755, slopeThere/0.0755/0.0755, 5e-4)
}

// A reading with few degrees of freedom: U = t₉₅(4)·u, 2.776 (JCGM 100:2008,
// table G.2), comes out of the draws too.
func TestStudentInterval(t *testing.T) {
	r := simulated(t, 5_000_000, sum, Student(0, 1, 4))
	low, high := r.Outputs[0].symmetric(Level)
	// The density of t₄ there is 0.0288.
	off := 4 * math.Sqrt(0.025*0.975/float64(r.Draws)) / 0.0288
	near(t, "low end", low, -2.77645, off)
	near(t, "high end", high, 2.77645, off)
}

// JCGM 101:2008, 7.9.2: u = 0.00035 and 2 digits are 35e-5, δ = 0.5e-5.
func TestTolerance(t *testing.T) {
	for _, c := range []struct{ u, want float64 }{{0.00035, 0.5e-5}, {2, 0.05}, {9.94, 0.05}, {9.96, 0.5}, {10, 0.5}, {99.4, 0.5}, {0, 0}} {
		near(t, "δ", tolerance(c.u), c.want, 1e-12*c.want)
	}
}

// many is a model of several outputs that stop at different times or never.
func many(_ int, inputs, outputs [][]float64) error {
	for k := range outputs[0] {
		a, b := inputs[0][k], inputs[1][k]
		outputs[0][k] = a + b
		outputs[1][k] = math.Sqrt(a)
		outputs[2][k] = inputs[2][k]
		outputs[3][k] = 5
		outputs[4][k] = math.NaN()
	}
	return nil
}

var manySources = []Source{normal(1, 1), Rectangular(0, 1), Student(0, 1, 1)}

func TestWorkersDoNotMatter(t *testing.T) {
	var first *Result
	for _, workers := range []int{1, 2, 3, 7, 0} {
		r, err := Simulate(Plan{Sources: manySources, Outputs: 5, Draws: 73_210, Seed: 9, Workers: workers}, many)
		if err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = r
		}
		if r.Draws != 73_210 || r.Draws != first.Draws {
			t.Errorf("%d workers make %d draws", workers, r.Draws)
		}
		for j, y := range r.Outputs {
			if *y != *first.Outputs[j] || r.Settled[j] != first.Settled[j] {
				t.Errorf("%d workers make another output %d", workers, j)
			}
		}
	}
	if y := first.Outputs[1]; y.Count()+y.Failed() != first.Draws || math.Abs(float64(y.Failed())/float64(first.Draws)-0.158655) > 0.006 {
		t.Errorf("%d of %d failed, 15.9 %% are below zero", y.Failed(), first.Draws)
	}
	if y := first.Outputs[3]; y.Estimate() != 5 || y.Uncertainty() != 0 || !first.Settled[3] {
		t.Errorf("a constant is %v, u %v", y.Estimate(), y.Uncertainty())
	}
	// It has settled at once, and takes no more blocks up.
	if y := first.Outputs[4]; y.Count() != 0 || y.Failed() < 2*Block || y.Failed() >= first.Draws || !math.IsNaN(y.Estimate()) {
		t.Errorf("what fails is %v, failed %d times", y.Estimate(), y.Failed())
	}
	if first.Settled[2] {
		t.Error("a distribution without a standard deviation has settled")
	}
}

// The draws that are made ahead and not needed are not counted, whoever made
// them, and an error in them is none.
func TestStopsAtTheSameBlock(t *testing.T) {
	x := Rectangular(0, 1)
	one, _ := Simulate(Plan{Sources: []Source{x}, Outputs: 1, Draws: 10_000_000, Workers: 1}, each(sum))
	five, _ := Simulate(Plan{Sources: []Source{x}, Outputs: 1, Draws: 10_000_000, Workers: 5}, each(sum))
	if one.Draws != five.Draws || !one.AllSettled() || one.Draws >= 10_000_000 || *one.Outputs[0] != *five.Outputs[0] {
		t.Errorf("%d and %d draws", one.Draws, five.Draws)
	}
}

func TestSeedMatters(t *testing.T) {
	a, _ := Simulate(Plan{Sources: manySources, Outputs: 5, Draws: 100, Seed: 1}, many)
	b, _ := Simulate(Plan{Sources: manySources, Outputs: 5, Draws: 100, Seed: 2}, many)
	if a.Outputs[0].Estimate() == b.Outputs[0].Estimate() || a.Draws != 100 {
		t.Error(a.Outputs[0].Estimate(), a.Draws)
	}
}

func TestErrorEnds(t *testing.T) {
	stop := errors.New("stop")
	for after := range 3 {
		calls := 0
		_, err := Simulate(Plan{Outputs: 1, Draws: 50_000, Workers: 1}, func(_ int, _, outputs [][]float64) error {
			if calls++; calls > after {
				return stop
			}
			for k := range outputs[0] {
				outputs[0][k] = float64(k * calls)
			}
			return nil
		})
		if err != stop || calls != after+1 {
			t.Errorf("%v after %d calls", err, calls)
		}
	}
}

// wide has 20 inputs and 30 outputs, one of which never settles.
func wide(_ int, inputs, outputs [][]float64) error {
	for j := range outputs {
		a, b := inputs[j%len(inputs)], inputs[(j+7)%len(inputs)]
		for k := range outputs[j] {
			outputs[j][k] = a[k] + 0.5*b[k]*b[k]
		}
	}
	return nil
}

func wideSources() []Source {
	list := []Source{Student(0, 1, 1)}
	for i := range 19 {
		list = append(list, []Source{normal(1, 0.1), Rectangular(0, 1), Student(0, 1, 5)}[i%3])
	}
	return list
}

// Ten times the draws take no more memory, but for a few words a block.
func TestMemoryIsFlat(t *testing.T) {
	taken := func(draws int) uint64 {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		if _, err := Simulate(Plan{Sources: wideSources(), Outputs: 30, Draws: draws, Workers: 2}, wide); err != nil {
			t.Fatal(err)
		}
		runtime.ReadMemStats(&after)
		return after.TotalAlloc - before.TotalAlloc
	}
	taken(20_000)
	little, much := taken(20_000), taken(200_000)
	if much > little+200_000 {
		t.Errorf("%d bytes for 20 000 draws, %d for 200 000", little, much)
	}
}

func BenchmarkSimulate(b *testing.B) {
	for _, c := range []struct {
		name  string
		draws int
	}{{"100k", 100_000}, {"1M", 1_000_000}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Simulate(Plan{Sources: wideSources(), Outputs: 30, Draws: c.draws}, wide); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
