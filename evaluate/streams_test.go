package evaluate_test

import (
	"fmt"
	"math"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
)

// TestDrawnComparisonLoss draws correlated inputs. JCGM 101:2008, 9.4.3: δY = X₁² + X₂²
// with u = 0.005 and r = 0.9 has the mean x₁² + 2u² and the variance 4u²x₁² +
// 4u⁴(1 + r²) (its formulas 47 and 48): u is 67e-6, 121e-6 and 505e-6 (table 7, from
// memory). To first order it is 0, 100e-6 and 500e-6 whatever r.
func TestDrawnComparisonLoss(t *testing.T) {
	for _, c := range []struct{ x, u, printed, first float64 }{{0, 67, 0.5, 0}, {0.010, 121, 0.5, 100}, {0.050, 505, 0.5, 500}} {
		text := fmt.Sprintf("X_1 = %g ± 0.005 (k = 1)\nX_2 = 0 ± 0.005 (k = 1)\ncorrelation X_1, X_2 = 0.9\ny = 1e6 * (X_1^2 + X_2^2)", c.x)
		exact := 1e6 * math.Sqrt(4*25e-6*c.x*c.x+4*625e-12*1.81)
		if math.Abs(exact-c.u) > c.printed {
			t.Errorf("the formula gives %g, printed %g", exact, c.u)
		}
		s := kit.Clean(t, evaluate.Work(t.Context(), kit.Block("notes.md", text), nil), text)
		if got := kit.Quantity(s, "y").Uncertainty.U; math.Abs(got-c.first) > 1e-6*c.first {
			t.Errorf("x = %g: to first order %g, want %g", c.x, got, c.first)
		}
		drawn := kit.Clean(t, evaluate.Work(t.Context(), kit.Block("notes.md", text+"\ndraws 1_000_000"), nil), text)
		y := kit.Quantity(drawn, "y")
		if !y.Uncertainty.Drawn || math.Abs(y.Uncertainty.U-exact) > 0.02*exact {
			t.Errorf("x = %g: u = %g, want %g", c.x, y.Uncertainty.U, exact)
		}
		if mean := 1e6*c.x*c.x + 50; math.Abs(y.Value.(float64)-mean) > 0.02*exact {
			t.Errorf("x = %g: mean %v, want %g", c.x, y.Value, mean)
		}
	}
}

// TestDrawnShapes draws what is said of intervals. A triangle's standard deviation is
// a/√6 (JCGM 101:2008, 6.4.5), that of Student's distribution u·√(ν/(ν − 2)) (6.4.9).
func TestDrawnShapes(t *testing.T) {
	for _, c := range []struct {
		text string
		u    float64
	}{
		{"x = 0 within 6 (triangular)", math.Sqrt(6)},
		{"x = within -6 to 6 (triangular)", math.Sqrt(6)},
		{"x = 0 within 6", math.Sqrt(12)},
		{"x = 0 ± 6 (k = 3)", 2},
		{"x = 0 ± 6 (k = 3, ν = 10)", 2 * math.Sqrt(10.0/8)},
		{"x = 0 ± 1.959964 at 95 %", 1},
	} {
		text := c.text + "\ny = 2 * x\ndraws 1_000_000"
		r := kit.Clean(t, evaluate.Work(t.Context(), kit.Block("notes.md", text), nil), text)
		if got := kit.Quantity(r, "y").Uncertainty.U / 2; math.Abs(got-c.u) > 0.02*c.u {
			t.Errorf("%s: u = %g, want %g", c.text, got, c.u)
		}
	}
}

// ownStreams are inputs that have nothing to do with each other.
const ownStreams = "draws 3_000\na = 10 V ± 0.1 V\nb = 3 V ± 0.2 V\nc = within 1 V to 2 V\ny = a^2\nz = b + c\nw = z * 2\nE = stored_energy(12 F, 3 V ± 0.1 V)\nF = stored_energy(12 F, observed(1 V, 2 V, 2.5 V))"

// TestDrawsOfTheirOwn wants what is drawn for an input to stay, whatever else changes.
func TestDrawsOfTheirOwn(t *testing.T) {
	want := drawnOf(t, ownStreams)
	for _, text := range []string{
		"draws 3_000\ny = a^2\nz = b + c\nc = within 1 V to 2 V\nw = z * 2\nb = 3 V ± 0.2 V\na = 10 V ± 0.1 V\nF = stored_energy(12 F, observed(1 V, 2 V, 2.5 V))\nE = stored_energy(12 F, 3 V ± 0.1 V)",
		ownStreams + "\nvary E(voltage) in [1 V, 2 V]: E\nmore = E with E(voltage) = 4 V, F(voltage) = 2 V\nvary a in [1 V, 2 V]: y",
		ownStreams + "\nAa = 3 V ± 1 V\nzz = 3 V ± 1 V\nsum_of = Aa + zz + b",
		"k = 3 A ± 1 A\nm = observed(1 A, 2 A, 3 A)\n" + ownStreams,
		ownStreams + "\nd = 3 V ± 0.1 V\ne = 3 V ± 0.1 V\ncorrelation d, e = 0.5\nf = d + e",
	} {
		got := drawnOf(t, text)
		for _, name := range []string{"y", "z", "w", "E", "F"} {
			if got[name] != want[name] {
				t.Errorf("%s is %+v, was %+v in\n%s", name, got[name], want[name], text)
			}
		}
	}
}

type drawnAs struct {
	value any
	u     report.Uncertainty
}

func drawnOf(t *testing.T, text string) map[string]drawnAs {
	t.Helper()
	r := kit.Clean(t, evaluate.Work(t.Context(), kit.Block("notes.md", text), nil), text)
	found := map[string]drawnAs{}
	for _, q := range r.Quantities {
		found[q.Name] = drawnAs{q.Value, q.Uncertainty}
	}
	return found
}

// TestTriedUnderDraws wants a trial to change what depends on what was tried, and
// nothing else: another takes longer to settle then, and more is drawn.
func TestTriedUnderDraws(t *testing.T) {
	const text = "draws 400_000\na = 10 V ± 0.1 V\nb = 3 V ± 0.2 V\ny = a^2\nz = b^2\nsteep = (b - 2.99 V)^8"
	s := kit.Block("notes.md", text)
	was := evaluate.Work(t.Context(), s, nil)
	for _, change := range []string{"b=3.5 V ± 0.4 V", "b=2.99 V ± 0.2 V", "b=2.5 V"} {
		now, problems := evaluate.WorkWith(t.Context(), s, nil, []evaluate.Change{{Text: change}})
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		c := report.Compare(was, now)
		for _, q := range c.Changed {
			if name := q.New.Name; name != "b" && name != "z" && name != "steep" {
				t.Errorf("%s changes %s: %s → %s", change, name, q.Old.Shown, q.New.Shown)
			}
		}
		if len(c.Changed) < 3 {
			t.Errorf("%s changes %d quantities", change, len(c.Changed))
		}
	}
}
