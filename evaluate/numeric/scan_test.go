package numeric

import (
	"errors"
	"math"
	"slices"
	"testing"
)

func gapOutside(low, high float64, f func(float64) float64) func(float64) float64 {
	return func(x float64) float64 {
		if x < low || x > high {
			return math.NaN()
		}
		return f(x)
	}
}

func TestRoots(t *testing.T) {
	for _, c := range []struct {
		name                string
		f                   func(float64) float64
		low, high           float64
		roots, poles, jumps []float64
		tolerance           float64
		source              string
	}{
		{"cos x = x", func(x float64) float64 { return math.Cos(x) - x }, -3, 3, []float64{0.739085133215161}, nil, nil, 1e-14, "classical"},
		{"sin", math.Sin, 1, 10, []float64{math.Pi, 2 * math.Pi, 3 * math.Pi}, nil, nil, 1e-14, "closed form"},
		{"tan", math.Tan, 1, 8, []float64{math.Pi, 2 * math.Pi}, []float64{math.Pi / 2, 3 * math.Pi / 2, 5 * math.Pi / 2}, nil, 1e-12, "closed form"},
		{"tan x = x", func(x float64) float64 { return math.Tan(x) - x }, 2, 4.6, []float64{4.49340945790906}, nil, nil, 1e-13, "classical"},
		{"x³ - 2x - 5", func(x float64) float64 { return x*x*x - 2*x - 5 }, -5, 5, []float64{2.09455148154233}, nil, nil, 1e-13, "Newton; Wallis 1685"},
		{"double", func(x float64) float64 { return (x - 0.3) * (x - 0.3) }, 0, 1, []float64{0.3}, nil, nil, 1e-6, "closed form"},
		{"double, expanded", func(x float64) float64 { return x*x - 0.6*x + 0.09 }, 0, 1, []float64{0.3}, nil, nil, 1e-6, "closed form"},
		{"double, from below", func(x float64) float64 { return -(x - 1.7) * (x - 1.7) * math.Exp(x) }, 0, 2, []float64{1.7}, nil, nil, 1e-6, "closed form"},
		{"touch of a kink", func(x float64) float64 { return math.Abs(x - math.Sqrt2) }, 0, 3, []float64{math.Sqrt2}, nil, nil, 1e-9, "closed form"},
		{"double between two samples", func(x float64) float64 { d := x - 1./64; return d * d }, 0, 1, []float64{1. / 64}, nil, nil, 1e-6, "closed form"},
		{"close pair", func(x float64) float64 { return (x - 0.5123) * (x - 0.5125) }, 0, 1, []float64{0.5123, 0.5125}, nil, nil, 1e-12, "closed form"},
		{"close pair at the edge", func(x float64) float64 { return (x - 0.002) * (x - 0.005) }, 0, 1, []float64{0.002, 0.005}, nil, nil, 1e-12, "closed form"},
		{"at the ends", func(x float64) float64 { return x * (x - 1) }, 0, 1, []float64{0, 1}, nil, nil, 0, "closed form"},
		{"reversed", func(x float64) float64 { return x*x - 2 }, 3, -3, []float64{-math.Sqrt2, math.Sqrt2}, nil, nil, 1e-14, "closed form"},
		{"sign", func(x float64) float64 { return math.Copysign(1, x-0.3) }, 0, 1, nil, nil, []float64{0.3}, 1e-12, "closed form"},
		{"a jump on a slope", func(x float64) float64 { return x - 2 + 3*math.Floor(x) }, 0.2, 1.7, nil, nil, []float64{1}, 1e-12, "closed form"},
		{"1/x", func(x float64) float64 { return 1 / x }, -1, 2, nil, []float64{0}, nil, 1e-12, "closed form"},
		{"a root beside a gap", gapOutside(0.51, 2, func(x float64) float64 { return x - 0.512 }), 0, 1, []float64{0.512}, nil, nil, 1e-14, "closed form"},
		{"a gap between two signs", func(x float64) float64 {
			if x > 0.3 && x < 0.7 {
				return math.NaN()
			}
			return x - 0.5
		}, 0, 1, nil, nil, nil, 0, "closed form"},
		{"a gap between two samples", func(x float64) float64 {
			if x > 0.49 && x < 0.51 {
				return math.NaN()
			}
			return x - 0.485
		}, 0, 1, []float64{0.485}, nil, nil, 1e-14, "closed form"},
		{"log", math.Log, -2, 4, []float64{1}, nil, nil, 1e-14, "closed form"},
		{"flat", func(x float64) float64 { return 3 }, 0, 1, nil, nil, nil, 0, "closed form"},
		{"above", func(x float64) float64 { return 1 + x*x }, -1, 1, nil, nil, nil, 0, "closed form"},
		{"zero on a stretch", func(x float64) float64 { return max(0, math.Abs(x-1)-0.3) }, 0, 2, []float64{0.7, 1.3}, nil, nil, 1e-9, "closed form"},
		{"one place", func(x float64) float64 { return x }, 0, 0, []float64{0}, nil, nil, 0, "closed form"},
		{"Wilkinson's, of degree 10", func(x float64) float64 {
			p := 1.0
			for i := range 10 {
				p *= x - float64(i+1)
			}
			return p
		}, 0.5, 10.7, []float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}, nil, nil, 1e-12, "J. H. Wilkinson, Numer. Math. 1 (1959) 150, from memory"},
	} {
		s, err := Roots(c.f, c.low, c.high, RootsOptions{})
		for _, pair := range [][2][]float64{{s.Roots, c.roots}, {s.Poles, c.poles}, {s.Jumps, c.jumps}} {
			if len(pair[0]) != len(pair[1]) || len(pair[0]) > 0 && !(farthest(pair[0], pair[1]) <= c.tolerance) {
				t.Errorf("%s: %.17g, want %.17g (%s)", c.name, pair[0], pair[1], c.source)
			}
		}
		if (err == nil) != (len(c.roots) > 0) {
			t.Errorf("%s: %v", c.name, err)
		}
		t.Logf("%s: %d calls", c.name, s.Calls)
	}
}

// Without a root it is told why, how near it came and what the ends are.
func TestNoRoots(t *testing.T) {
	for _, c := range []struct {
		name      string
		f         func(float64) float64
		low, high float64
		cause     RootCause
		near      Point
		left      Point
		right     Point
	}{
		{"1 + (x - 0.3)²", func(x float64) float64 { return 1 + (x-0.3)*(x-0.3) }, -1, 1, NoBracket, Point{0.3, 1}, Point{-1, 2.69}, Point{1, 1.49}},
		{"a step", func(x float64) float64 { return math.Copysign(2, x-0.3) }, 0, 1, Jump, Point{0, -2}, Point{0, -2}, Point{1, 2}},
		{"1/x", func(x float64) float64 { return 1 / x }, -1, 1, Pole, Point{-1, -1}, Point{-1, -1}, Point{1, 1}},
		{"edges", gapOutside(0.25, 0.75, func(x float64) float64 { return -x }), 0, 1, NoBracket, Point{0.25, -0.25}, Point{0.25, -0.25}, Point{0.75, -0.75}},
	} {
		s, err := Roots(c.f, c.low, c.high, RootsOptions{})
		var e *RootError
		if !errors.As(err, &e) || e.Cause != c.cause {
			t.Errorf("%s: %v", c.name, err)
		}
		for _, p := range [][2]Point{{s.Nearest, c.near}, {s.Left, c.left}, {s.Right, c.right}} {
			if math.Abs(p[0].X-p[1].X) > 1e-3 || math.Abs(p[0].Value-p[1].Value) > 1e-3 {
				t.Errorf("%s: %v, want %v", c.name, p[0], p[1])
			}
		}
	}
	for name, bounds := range map[string][2]float64{"endless": {0, math.Inf(1)}, "no number": {math.NaN(), 1}, "nothing": {-2, -1}} {
		var e *RootError
		if _, err := Roots(math.Log, bounds[0], bounds[1], RootsOptions{}); !errors.As(err, &e) || e.Cause != NaN {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A touch that is not exact is a root if the caller says how near is near.
func TestNear(t *testing.T) {
	f := func(x float64) float64 { return 1e-6 + (x-0.3)*(x-0.3) }
	if s, err := Roots(f, 0, 1, RootsOptions{}); err == nil {
		t.Error(s.Roots)
	}
	if s, err := Roots(f, 0, 1, RootsOptions{Near: 2e-6}); err != nil || math.Abs(s.Roots[0]-0.3) > 1e-5 {
		t.Error(s.Roots, err)
	}
}

// Helpers change nothing but the time.
func TestHelpers(t *testing.T) {
	alone, _ := Roots(math.Tan, 1, 20, RootsOptions{})
	shared, _ := Roots(math.Tan, 1, 20, RootsOptions{Helpers: []func(float64) float64{math.Tan, math.Tan}})
	if !slices.Equal(alone.Roots, shared.Roots) || !slices.Equal(alone.Poles, shared.Poles) || alone.Calls != shared.Calls || alone.Nearest != shared.Nearest {
		t.Errorf("%+v, %+v", alone, shared)
	}
}

// The three roots of a cubic that lie apart are found, wherever they are; what
// is found is small, lies inside and takes no more than so many calls.
func FuzzRoots(f *testing.F) {
	f.Add(0.1, 0.5, 0.9, 1.)
	f.Add(0.5, 0.5, 0.5, -3.)
	f.Add(0.31, 0.311, 0.97, 1e9)
	f.Fuzz(func(t *testing.T, a, b, c, scale float64) {
		want := []float64{a, b, c}
		for _, x := range want {
			if !(x >= 0 && x <= 1) {
				return
			}
		}
		if size := math.Abs(scale); !(size > 1e-100 && size < 1e100) {
			return
		}
		slices.Sort(want)
		s, err := Roots(func(x float64) float64 { return scale * (x - a) * (x - b) * (x - c) }, 0, 1, RootsOptions{})
		if s.Calls > 2000 || len(s.Poles)+len(s.Jumps) > 0 {
			t.Fatalf("%+v", s)
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range s.Roots {
			if gap := min(math.Abs(x-a), math.Abs(x-b), math.Abs(x-c)); !(gap < 1e-3) || x < 0 || x > 1 {
				t.Fatalf("%v of %v", x, want)
			}
		}
		const apart = 0.07 // two samples
		if want[1]-want[0] > apart && want[2]-want[1] > apart && (len(s.Roots) != 3 || farthest(s.Roots, want) > 1e-9) {
			t.Fatalf("%v, not %v", s.Roots, want)
		}
	})
}

func BenchmarkRoots(b *testing.B) {
	b.ReportAllocs()
	var s Scan
	for b.Loop() {
		s, _ = Roots(func(x float64) float64 { return math.Cos(x) - x }, -3, 3, RootsOptions{})
	}
	b.ReportMetric(float64(s.Calls), "calls/op")
}
