package numeric

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"testing"
)

type function = func(x []float64) float64

func square(x float64) float64 { return x * x }

func rosenbrock(x []float64) float64 { return 100*square(x[1]-x[0]*x[0]) + square(1-x[0]) }

func himmelblau(x []float64) float64 {
	return square(x[0]*x[0]+x[1]-11) + square(x[0]+x[1]*x[1]-7)
}

func goldsteinPrice(x []float64) float64 {
	a, b := x[0], x[1]
	return (1 + square(a+b+1)*(19-14*a+3*a*a-14*b+6*a*b+3*b*b)) *
		(30 + square(2*a-3*b)*(18-32*a+12*a*a+48*b-36*a*b+27*b*b))
}

func branin(x []float64) float64 {
	return square(x[1]-5.1/(4*math.Pi*math.Pi)*x[0]*x[0]+5/math.Pi*x[0]-6) + 10*(1-1/(8*math.Pi))*math.Cos(x[0]) + 10
}

func camel(x []float64) float64 {
	a, b := x[0]*x[0], x[1]*x[1]
	return (4-2.1*a+a*a/3)*a + x[0]*x[1] + (-4+4*b)*b
}

func sphere(x []float64) float64 { return dot(x, x) }

func steps(x []float64) float64 {
	sum := 0.0
	for _, x := range x {
		sum += math.Floor(x)
	}
	return sum
}

func hartmann(x []float64) float64 {
	a := [4][3]float64{{3, 10, 30}, {0.1, 10, 35}, {3, 10, 30}, {0.1, 10, 35}}
	p := [4][3]float64{{0.3689, 0.1170, 0.2673}, {0.4699, 0.4387, 0.7470}, {0.1091, 0.8732, 0.5547}, {0.0381, 0.5743, 0.8828}}
	sum := 0.0
	for i, c := range [4]float64{1, 1.2, 3, 3.2} {
		e := 0.0
		for j := range x {
			e += a[i][j] * square(x[j]-p[i][j])
		}
		sum -= c * math.Exp(-e)
	}
	return sum
}

func shubert(x []float64) float64 {
	sum := 0.0
	for k := 1.0; k <= 5; k++ {
		sum -= k * math.Sin((k+1)*x[0]+k)
	}
	return sum
}

// leasts are problems whose least value and places are published.
var leasts = []struct {
	name   string
	f      function
	box    []Axis
	value  float64
	at     [][]float64 // any of them is the answer
	others [][]float64 // local optima that must be reported too
	source string
}{
	{"De Jong F1, sphere", sphere, []Axis{{-5.12, 5.12, 0}, {-5.12, 5.12, 0}, {-5.12, 5.12, 0}}, 0, [][]float64{{0, 0, 0}}, nil, "K. A. De Jong, thesis, University of Michigan 1975; from memory"},
	{"De Jong F3, steps", steps, []Axis{{-5.12, 5.12, 0}, {-5.12, 5.12, 0}}, -12, nil, nil, "K. A. De Jong, thesis, University of Michigan 1975; from memory"},
	{"Rosenbrock", rosenbrock, []Axis{{-2.048, 2.048, 0}, {-2.048, 2.048, 0}}, 0, [][]float64{{1, 1}}, nil, "H. H. Rosenbrock, Computer J. 3 (1960) 175; from memory"},
	{"Himmelblau", himmelblau, []Axis{{-5, 5, 0}, {-5, 5, 0}}, 0,
		[][]float64{{3, 2}, {-2.805118, 3.131312}, {-3.779310, -3.283186}, {3.584428, -1.848126}},
		[][]float64{{3, 2}, {-2.805118, 3.131312}, {-3.779310, -3.283186}, {3.584428, -1.848126}}, "D. M. Himmelblau, Applied Nonlinear Programming (1972); from memory"},
	{"Goldstein–Price", goldsteinPrice, []Axis{{-2, 2, 0}, {-2, 2, 0}}, 3, [][]float64{{0, -1}}, [][]float64{{-0.6, -0.4}, {1.8, 0.2}}, "A. A. Goldstein, J. F. Price, Math. Comp. 25 (1971) 569; from memory"},
	{"Branin", branin, []Axis{{-5, 10, 0}, {0, 15, 0}}, 0.397887,
		[][]float64{{-math.Pi, 12.275}, {math.Pi, 2.275}, {3 * math.Pi, 2.475}},
		[][]float64{{-math.Pi, 12.275}, {math.Pi, 2.275}, {3 * math.Pi, 2.475}}, "F. H. Branin, IBM J. Res. Dev. 16 (1972) 504; from memory"},
	{"six-hump camel", camel, []Axis{{-3, 3, 0}, {-2, 2, 0}}, -1.0316285, [][]float64{{0.089842, -0.712656}, {-0.089842, 0.712656}},
		[][]float64{{1.703607, -0.796084}, {-1.703607, 0.796084}}, "L. C. W. Dixon, G. P. Szegő, Towards Global Optimisation 2 (1978); from memory"},
	{"Hartmann, three variables", hartmann, []Axis{{0, 1, 0}, {0, 1, 0}, {0, 1, 0}}, -3.86278, [][]float64{{0.114614, 0.555649, 0.852547}}, nil, "Dixon, Szegő 1978; from memory"},
	{"Shubert, one variable", shubert, []Axis{{-10, 10, 0}}, -12.03124, [][]float64{{-6.774576}, {-0.491391}, {5.791794}},
		[][]float64{{-6.774576}, {-0.491391}, {5.791794}}, "B. O. Shubert, SIAM J. Numer. Anal. 9 (1972) 379; from memory"},
	{"Forrester", func(x []float64) float64 { return square(6*x[0]-2) * math.Sin(12*x[0]-4) }, []Axis{{0, 1, 0}}, -6.020740, [][]float64{{0.757249}}, nil,
		"A. Forrester, A. Sóbester, A. Keane, Engineering Design via Surrogate Modelling (2008); from memory"},
	{"on a limit", func(x []float64) float64 {
		if x[0]*x[1] < 1 {
			return math.NaN()
		}
		return x[0] + x[1]
	}, []Axis{{0.1, 5, 0}, {0.1, 5, 0}}, 2, [][]float64{{1, 1}}, nil, "the mean of two numbers is no less than the root of their product"},
	{"box of a given surface", func(x []float64) float64 {
		if x[0]*x[1]+x[1]*x[2]+x[2]*x[0] > 3 {
			return math.Inf(1)
		}
		return -x[0] * x[1] * x[2]
	}, []Axis{{0.1, 3, 0}, {0.1, 3, 0}, {0.1, 3, 0}}, -1, [][]float64{{1, 1, 1}}, nil, "a cube; closed form"},
	{"edge", func(x []float64) float64 { return x[0] }, []Axis{{2, 3, 0}}, 2, [][]float64{{2}}, nil, "closed form"},
	{"edge of what is allowed", func(x []float64) float64 {
		if x[0] < math.Sqrt2 {
			return math.NaN()
		}
		return x[0]
	}, []Axis{{0, 3, 0}}, math.Sqrt2, [][]float64{{math.Sqrt2}}, nil, "closed form"},
	{"steps of one", func(x []float64) float64 { return square(x[0] - 7.2) }, []Axis{{3, 12, 1}}, 0.04, [][]float64{{7}}, nil, "closed form"},
	{"many steps", func(x []float64) float64 { return square(x[0]-777) + square(x[1]-x[0]) }, []Axis{{0, 1000, 1}, {0, 1000, 1}}, 0, [][]float64{{777, 777}}, nil, "closed form"},
	{"a step and between", func(x []float64) float64 { return square(x[0]-4.4) + square(x[1]-x[0]/3) }, []Axis{{1, 9, 1}, {0, 3, 0}}, 0.16, [][]float64{{4, 4. / 3}}, nil, "closed form"},
	{"two steps and between", func(x []float64) float64 { return square(x[0]-x[1]) + square(x[1]-5.3) + math.Abs(x[2]-x[0]/10) }, []Axis{{1, 9, 1}, {1, 9, 1}, {0, 1, 0}}, 0.09, [][]float64{{5, 5, 0.5}}, nil, "closed form"},
	{"many steps and between", func(x []float64) float64 { return square(x[0]-4321) + square(x[1]-x[0]/1e4) }, []Axis{{0, 9999, 1}, {0, 1, 0}}, 0, [][]float64{{4321, 0.4321}}, nil, "closed form"},
	{"level", func([]float64) float64 { return 3 }, []Axis{{1, 2, 0}, {1, 2, 0}}, 3, [][]float64{{1, 1}}, nil, "the first of equals"},
	{"fixed", func(x []float64) float64 { return x[0] + square(x[1]-0.3) }, []Axis{{1, 1, 0}, {0, 1, 0}}, 1, [][]float64{{1, 0.3}}, nil, "closed form"},
	{"a sliver", func(x []float64) float64 {
		if math.Abs(x[0]-0.332) > 0.004 {
			return math.NaN()
		}
		return -x[0]
	}, []Axis{{0, 1, 0}}, -0.336, [][]float64{{0.336}}, nil, "closed form"},
}

func TestMinimise(t *testing.T) {
	for _, c := range leasts {
		m, err := Minimise([]function{c.f}, c.box, MinimiseOptions{})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		t.Logf("%s: %.9g at %.9g, %d others, %d calls", c.name, m.Value, m.X, len(m.Others), m.Calls)
		if math.Abs(m.Value-c.value) > 1e-6*max(1, math.Abs(c.value)) {
			t.Errorf("%s: %.9g at %.9g, want %.9g (%s)", c.name, m.Value, m.X, c.value, c.source)
		}
		if c.at != nil && !among(m.X, c.at) {
			t.Errorf("%s: at %.9g, not %.9g (%s)", c.name, m.X, c.at, c.source)
		}
		for _, want := range c.others {
			found := [][]float64{m.X}
			for _, o := range m.Others {
				found = append(found, o.X)
			}
			if !among(want, found) {
				t.Errorf("%s: %.6g is missing from %.6g (%s)", c.name, want, found, c.source)
			}
		}
	}
}

func among(x []float64, list [][]float64) bool {
	for _, y := range list {
		if farthest(x, y) < 2e-4 {
			return true
		}
	}
	return false
}

// A slope within a ball is least where its direction leaves it: -1, wherever
// that points (closed form). The limit is met closely, though all beyond is a gap.
func TestOnALimit(t *testing.T) {
	box := []Axis{{-1, 2, 0}, {-2, 1.3, 0}, {-1.5, 1.5, 0}}
	for n := 2; n <= 3; n++ {
		for k := range 20 {
			a := float64(k) * 0.74
			w := []float64{math.Cos(a), math.Sin(a), math.Sin(4 * a)}[:n]
			size := math.Sqrt(dot(w, w))
			m, err := Minimise([]function{func(x []float64) float64 {
				if dot(x, x) > 1 {
					return math.NaN()
				}
				return dot(w, x) / size
			}}, box[:n], MinimiseOptions{})
			if err != nil || math.Abs(m.Value+1) > 1e-6 || len(m.Others) > 0 {
				t.Errorf("%.3g: %+v, %v", w, m, err)
			}
		}
	}
}

// However many workers there are, the answer and the calls are the same.
func TestWorkers(t *testing.T) {
	for _, c := range leasts {
		one, _ := Minimise([]function{c.f}, c.box, MinimiseOptions{})
		for _, n := range []int{2, 5} {
			many := make([]function, n)
			for i := range many {
				many[i] = c.f
			}
			if m, _ := Minimise(many, c.box, MinimiseOptions{}); !reflect.DeepEqual(m, one) {
				t.Errorf("%s: %+v with %d workers, %+v with one", c.name, m, n, one)
			}
		}
	}
}

// With all on steps every place is tried, once.
func TestWhole(t *testing.T) {
	tried := map[string]int{}
	m, err := Minimise([]function{func(x []float64) float64 {
		tried[fmt.Sprintf("%.3f", x)]++
		return math.Sin(7*x[0]) + math.Cos(11*x[1])
	}}, []Axis{{1, 2, 0.1}, {5, 6, 0.25}}, MinimiseOptions{})
	if err != nil || !m.Whole || m.Calls != 55 || len(tried) != 55 || tried["[1.300 5.750]"] != 1 {
		t.Errorf("%+v, %v, %d places", m, err, len(tried))
	}
}

func TestNoLeast(t *testing.T) {
	never := func([]float64) float64 { return math.NaN() }
	box := []Axis{{0, 1, 0}}
	for _, c := range []struct {
		name    string
		workers []function
		box     []Axis
		want    error
	}{
		{"no value", []function{never}, box, ErrNoFit},
		{"no value on steps", []function{never}, []Axis{{0, 1, 0.1}}, ErrNoFit},
		{"no worker", nil, box, ErrBox},
		{"no axis", []function{never}, nil, ErrBox},
		{"four axes", []function{never}, []Axis{box[0], box[0], box[0], box[0]}, ErrBox},
		{"backwards", []function{never}, []Axis{{1, 0, 0}}, ErrBox},
		{"endless", []function{never}, []Axis{{0, math.Inf(1), 1}}, ErrBox},
		{"no number", []function{never}, []Axis{{math.NaN(), 1, 0}}, ErrBox},
		{"back steps", []function{never}, []Axis{{0, 1, -1}}, ErrBox},
		{"too many steps", []function{never}, []Axis{{0, 1, 1e-12}}, ErrBox},
	} {
		if m, err := Minimise(c.workers, c.box, MinimiseOptions{}); !errors.Is(err, c.want) || !math.IsNaN(m.Value) && m.Value != 0 {
			t.Errorf("%s: %+v, %v", c.name, m, err)
		}
	}
}

// What a worker panics with reaches the caller, whichever worker it is.
func TestPanic(t *testing.T) {
	broken := func([]float64) float64 { panic("broken") }
	defer func() {
		if r := recover(); r != "broken" {
			t.Error(r)
		}
	}()
	_, _ = Minimise([]function{broken, broken}, []Axis{{0, 1, 0}}, MinimiseOptions{})
}

// No place that was tried beats the answer, and on steps none of the grid; it
// lies in the box and is a value of the function.
func FuzzLeast(f *testing.F) {
	f.Add(3., 1., 0.5, 0.2, 0.3, uint8(0))
	f.Add(7., 5., 2., 1.1, -0.3, uint8(1))
	f.Add(1., 0., 0., 0., 2., uint8(2))
	f.Fuzz(func(t *testing.T, a, b, c, d, gap float64, stepped uint8) {
		for _, x := range []float64{a, b, c, d, gap} {
			if !(math.Abs(x) < 1e3) {
				return
			}
		}
		g := func(x []float64) float64 {
			if x[0]*x[1] < gap*gap-1 {
				return math.NaN()
			}
			return math.Sin(a*x[0]+b*x[1]) + c*square(x[0]-d) + math.Abs(x[1]-d)
		}
		box := []Axis{{-1, 1, float64(stepped&1) * 0.125}, {-1, 1, float64(stepped>>1&1) * 0.125}}
		best := math.Inf(1) // of those tried
		m, err := Minimise([]function{func(x []float64) float64 {
			v := g(x)
			if v < best {
				best = v
			}
			return v
		}}, box, MinimiseOptions{})
		if err == nil && m.Value != best {
			t.Fatalf("%+v, tried was %v", m, best)
		}
		for i := -8.; i <= 8; i++ {
			for j := -8.; j <= 8; j++ {
				if v := g([]float64{i / 8, j / 8}); v < best {
					best = v
				}
			}
		}
		if err != nil {
			if !math.IsInf(best, 1) {
				t.Fatal(err)
			}
			return
		}
		if (stepped&3 == 3) && m.Value > best || g(m.X) != m.Value || farthest(m.X, []float64{0, 0}) > 1 {
			t.Fatalf("%+v, the grid has %v", m, best)
		}
	})
}

func BenchmarkLeast(b *testing.B) {
	for _, i := range []int{2, 8, 7} {
		c := leasts[i]
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			var m Minimum
			for b.Loop() {
				m, _ = Minimise([]function{c.f}, c.box, MinimiseOptions{})
			}
			b.ReportMetric(float64(m.Calls), "calls/op")
		})
	}
}
