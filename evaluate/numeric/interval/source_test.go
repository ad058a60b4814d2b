package interval

import (
	"errors"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// drawn is n draws of a source, which are a column for each input.
func drawn(s Source, n int) [][]float64 {
	w := newWorker(0, Plan{Sources: []Source{s}, Seed: 7}, n)
	if err := w.work(0, n, func(int, [][]float64, [][]float64) error { return nil }); err != nil {
		panic(err)
	}
	return w.inputs
}

func joined(t *testing.T, means []float64, covariance []float64, freedom float64) Source {
	t.Helper()
	s, err := Joint(means, mat.NewSymDense(len(means), covariance), freedom)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The share of draws below any place is the distribution's, within 4.5 standard
// deviations of a binomial number.
func TestSourcesFollowTheirDistributions(t *testing.T) {
	const n = 200_000
	type cdf interface{ CDF(float64) float64 }
	inf := math.Inf(1)
	for _, c := range []struct {
		name   string
		source Source
		want   cdf
	}{
		{"normal", normal(3, 2), distuv.Normal{Mu: 3, Sigma: 2}},
		{"rectangular", Rectangular(-1, 2), distuv.Uniform{Min: -1, Max: 2}},
		{"t of 1", Student(3, 2, 1), distuv.StudentsT{Mu: 3, Sigma: 2, Nu: 1}},
		{"t of 4", Student(3, 2, 4), distuv.StudentsT{Mu: 3, Sigma: 2, Nu: 4}},
		{"t of 4.5", Student(3, 2, 4.5), distuv.StudentsT{Mu: 3, Sigma: 2, Nu: 4.5}},
		{"t of a group", joined(t, []float64{3}, []float64{4}, 5), distuv.StudentsT{Mu: 3, Sigma: 2, Nu: 5}},
		{"normal of a group", joined(t, []float64{3}, []float64{4}, inf), distuv.Normal{Mu: 3, Sigma: 2}},
	} {
		draws := drawn(c.source, n)[0]
		for x := -5.0; x <= 11; x += 0.25 {
			below := 0.0
			for _, d := range draws {
				if d < x {
					below++
				}
			}
			p := c.want.CDF(x)
			near(t, c.name, below/n, p, 4.5*math.Sqrt(p*(1-p)/n)+1e-12)
		}
	}
}

func TestJointCovariance(t *testing.T) {
	const n = 200_000
	for _, c := range []struct {
		name       string
		covariance []float64
		freedom    float64
	}{
		{"normal", []float64{4, 1, -1, 1, 1, 0.5, -1, 0.5, 9}, math.Inf(1)},
		{"t of 8", []float64{4, 1, -1, 1, 1, 0.5, -1, 0.5, 9}, 8},
		{"of very different size", []float64{1, 0.5e-10, 0, 0.5e-10, 1e-20, 0, 0, 0, 1e20}, math.Inf(1)},
		{"of rank 2", []float64{1, 1, 0, 1, 1, 0, 0, 0, 1}, math.Inf(1)},
		{"one constant", []float64{1, 0, 0, 0, 0, 0, 0, 0, 1}, math.Inf(1)},
		{"all constant", make([]float64, 9), math.Inf(1)},
	} {
		want := mat.NewSymDense(3, c.covariance)
		columns := drawn(joined(t, []float64{1, 2, 3}, c.covariance, c.freedom), n)
		wider := 1.0
		if !math.IsInf(c.freedom, 1) {
			wider = c.freedom / (c.freedom - 2)
		}
		for i := range columns {
			for j := range columns {
				size := wider * math.Sqrt(want.At(i, i)*want.At(j, j))
				// Twice what a normal distribution's would need, for the tails of t.
				near(t, c.name, stat.Covariance(columns[i], columns[j], nil), wider*want.At(i, j), 9*size*math.Sqrt(2.0/n))
			}
			near(t, c.name, stat.Mean(columns[i], nil), float64(i+1), 4.5*math.Sqrt(wider*want.At(i, i)/n))
		}
	}
}

// Perfectly correlated inputs move as one, and opposite ones against each other.
func TestJointPerfectlyCorrelated(t *testing.T) {
	columns := drawn(joined(t, []float64{5, 3, 0}, []float64{0.01, 0.03, -0.01, 0.03, 0.09, -0.03, -0.01, -0.03, 0.01}, 6), 1000)
	for k := range columns[0] {
		d := columns[0][k] - 5
		if math.Abs(columns[1][k]-3-3*d) > 1e-13 || math.Abs(columns[2][k]+d) > 1e-13 {
			t.Fatal(d, columns[1][k]-3, columns[2][k])
		}
	}
}

func TestJointRefuses(t *testing.T) {
	for name, covariance := range map[string][]float64{
		"correlation above 1":   {1, 1.2, 1.2, 1},
		"negative variance":     {-1, 0, 0, 1},
		"not a number":          {1, math.NaN(), math.NaN(), 1},
		"infinite":              {math.Inf(1), 0, 0, 1},
		"covariance of nothing": {0, 0.1, 0.1, 1},
		// Three that all go against each other so much cannot be.
		"indefinite": {1, -0.9, -0.9, -0.9, 1, -0.9, -0.9, -0.9, 1},
	} {
		n := int(math.Sqrt(float64(len(covariance))))
		if _, err := Joint(make([]float64, n), mat.NewSymDense(n, covariance), 5); !errors.Is(err, ErrCovariance) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The draws of a source do not depend on what is drawn before it, nor are they
// those of another source or block.
func TestStreamsAreApart(t *testing.T) {
	draw := func(block int, sources ...Source) [][]float64 {
		w := newWorker(0, Plan{Sources: sources, Seed: 7}, 100)
		if err := w.work(block, 100, func(int, [][]float64, [][]float64) error { return nil }); err != nil {
			t.Fatal(err)
		}
		return w.inputs
	}
	x := normal(0, 1)
	a, b, c := draw(3, x, x), draw(3, Student(0, 1, 3), x), draw(4, x, x)
	if !slices.Equal(a[1], b[1]) {
		t.Error("the second source depends on the first")
	}
	for k := range a[0] {
		if a[0][k] == a[1][k] || a[0][k] == c[0][k] || a[1][k] == c[0][k] {
			t.Fatalf("draw %d is drawn twice", k)
		}
	}
}

func BenchmarkSources(b *testing.B) {
	group, err := Joint(make([]float64, 3), mat.NewSymDense(3, []float64{4, 1, -1, 1, 1, 0.5, -1, 0.5, 9}), 8)
	if err != nil {
		b.Fatal(err)
	}
	for name, s := range map[string]Source{"normal": normal(0, 1), "rectangular": Rectangular(0, 1), "t": Student(0, 1, 5), "group of three": group} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			w := newWorker(0, Plan{Sources: []Source{s}}, Block)
			for b.Loop() {
				w.work(0, Block, func(int, [][]float64, [][]float64) error { return nil })
			}
		})
	}
}

// normal is the t-distribution with infinite degrees of freedom.
func normal(mean, u float64) Source { return Student(mean, u, math.Inf(1)) }
