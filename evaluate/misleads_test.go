package evaluate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
)

var roughNote = regexp.MustCompile(`^Rough intervals? \((.*)\): (.*?)\.( .*)?$`)

// roughOf is what the block's notes say of the interval of a quantity; empty if
// nothing.
func roughOf(r *report.Report, name string) string {
	for _, note := range r.Blocks[0].Notes {
		said := roughNote.FindStringSubmatch(note)
		if said != nil && strings.Contains(said[2], "`"+name+"`") {
			return said[1] + "." + said[3]
		}
	}
	return ""
}

// TestMisleads wants a word where first order misleads, and none where it does
// not.
func TestMisleads(t *testing.T) {
	const bent, most, beyond = "act out of proportion", "most of it is the hard limits of `r`", "cannot be worked over the whole interval of `x`"
	for _, c := range []struct{ name, text, why string }{
		{"a sensitivity of zero", "x = 0 V ± 0.1 V\ny = x^2", bent},
		{"a sensitivity near zero", "x = 0.01 V ± 0.1 V\ny = x^2", bent},
		{"a sensitivity far from zero", "x = 1 V ± 0.1 V\ny = x^2", ""},
		{"two that act on each other alone", "x = 0 V ± 0.1 V\nz = 0 A ± 0.1 A\ny = x * z", bent},
		{"a bound inside the interval", "x = 1 ± 0.4\ny = sqrt(x - 0.8)", beyond},
		{"a bound inside, of the library", "x = 0.02 ± 0.05\ny = settled_voltage(capacitor(50 F, 2.7 V, settling: x), 2.5 V)", beyond},
		{"a bound outside the interval", "x = 1 ± 0.1\ny = sqrt(x - 0.2)", ""},
		{"a kink", "x = 5 V ± 1 V\ny = max(x, 5 V)", bent},
		{"a kink off the middle", "x = 5 V ± 1 V\ny = abs(x - 4.6 V)", bent},
		{"a branch", "x = 5 V ± 1 V\ny = if x > 5.5 V then 2 * x else x", bent},
		{"a kink outside the interval", "x = 5 V ± 1 V\ny = max(x, 3 V)", ""},
		{"one rectangular input alone", "r = 10 V within 1 V\ny = 2 * r", most},
		{"one rectangular input with most of it", "r = 10 V within 1 V\ns = 5 V ± 0.2 V\ny = r + s", most},
		{"one rectangular input among others", "r = 10 V within 1 V\ns = 5 V ± 1 V\ny = r + s", ""},
		// U² off at the ends against a quarter of U(y) = 2·U: from U = 0.5 V on.
		{"a bend of nearly a quarter", "x = 1 V ± 0.49 V\ny = x^2", ""},
		{"a bend of more than a quarter", "x = 1 V ± 0.51 V\ny = x^2", bent},
		// (1/√3)² is four fifths of the whole variance beside s = 2·√(1/12) = 0.577.
		{"a rectangular input with nearly four fifths", "r = 10 V within 1 V\ns = 5 V ± 0.585 V\ny = r + s", ""},
		{"a rectangular input with more than four fifths", "r = 10 V within 1 V\ns = 5 V ± 0.57 V\ny = r + s", most},
		{"two rectangular inputs", "r = 10 V within 1 V\ns = 5 V within 1 V\ny = r + s", ""},
	} {
		r := kit.Clean(t, work(kit.Block("notes.md", c.text), nil), c.text)
		switch why := roughOf(r, "y"); {
		case c.why == "" && why != "":
			t.Errorf("%s: said to be rough: %s", c.name, why)
		case !strings.Contains(why, c.why):
			t.Errorf("%s: %q, want %q", c.name, why, c.why)
		case why != "" && !strings.Contains(why, "`draws 100_000`"):
			t.Errorf("%s: no way out in %q", c.name, why)
		}
	}
}

// TestDrawnWhereItMisleads draws the same situations, whose distributions are
// known in closed form (JCGM 101:2008, 4.9 and 9.4).
func TestDrawnWhereItMisleads(t *testing.T) {
	u := 0.1 / 2 // of x
	for _, c := range []struct {
		name, text     string
		u, width, high float64
	}{
		// χ² with one degree of freedom: standard deviation √2·u², 95 % below 3.8415·u².
		{"a sensitivity of zero", "x = 0 V ± 0.1 V\ny = x^2", math.Sqrt2 * u * u, 3.8415 * u * u, 3.8415 * u * u},
		// The half of a bell: variance u²·(1/2 − 1/(2π)); 5 % is above the middle by 1.6449·u.
		{"a kink", "x = 5 V ± 0.1 V\ny = max(x, 5 V)", u * math.Sqrt(0.5-1/(2*math.Pi)), 1.6449 * u, 5 + 1.6449*u},
		// Any interval that leaves a twentieth out is the shortest: its ends are anywhere, its width is not.
		{"one rectangular input", "x = 10 V within 1 V\ny = 2 * x", 2 / math.Sqrt(3), 2 * 1.9, math.NaN()},
	} {
		text := c.text + "\ndraws 100_000"
		r := kit.Clean(t, work(kit.Block("notes.md", text), nil), text)
		if why := roughOf(r, "y"); why != "" {
			t.Errorf("%s: rough although drawn: %s", c.name, why)
		}
		s := kit.Quantity(r, "y").Uncertainty
		const off = 0.02 // what so many draws leave open
		if !s.Drawn || math.Abs(s.U-c.u) > off*c.u || math.Abs(s.High-c.high) > 2*off*c.u {
			t.Errorf("%s: u = %g and up to %g, want %g and %g", c.name, s.U, s.High, c.u, c.high)
		}
		if width := s.High - s.Low; math.Abs(width-c.width) > 2*off*c.width {
			t.Errorf("%s: from %g to %g, want a width of %g", c.name, s.Low, s.High, c.width)
		}
	}
}

// TestDrawnBeyond counts the draws that cannot be worked: a bell's part below one
// standard deviation under its middle is 15.866 %, which so many draws know to
// 0.2 %.
func TestDrawnBeyond(t *testing.T) {
	const text = "x = 1 ± 0.4\ny = sqrt(x - 0.8)\nz = 2 * x\ndraws 40_000"
	r := kit.Clean(t, work(kit.Block("notes.md", text), nil), text)
	if why := roughOf(r, "y"); !strings.HasPrefix(why, "16 % of the draws cannot be worked") {
		t.Errorf("y: %q", why)
	}
	if why := roughOf(r, "z"); why != "" {
		t.Errorf("z can be worked in every draw, but: %q", why)
	}
}

// TestDrawnRounding wants no interval, drawn or not, where a spread is less than
// what arithmetic leaves of a value's digits.
func TestDrawnRounding(t *testing.T) {
	for _, draws := range []string{"", "\ndraws 2_000"} {
		text := "x = 1e-14 ± 1e-15\ny = 5 + x\nz = 5 + 1e10 * x" + draws
		r := kit.Clean(t, work(kit.Block("notes.md", text), nil), text)
		if s := kit.Quantity(r, "y").Uncertainty; s.U != 0 || s.Expanded != 0 || s.Drawn {
			t.Errorf("y has an interval: %+v", s)
		}
		if s := kit.Quantity(r, "z").Uncertainty; math.Abs(s.U-5e-6) > 0.05*5e-6 {
			t.Errorf("z has u = %g, want 5e-6", s.U)
		}
	}
}

// TestOneSided differences towards one side where the other cannot be worked:
// at the edge of a range, and in the library as in arithmetic.
func TestOneSided(t *testing.T) {
	for _, c := range []struct {
		name, text string
		u          float64
	}{
		{"the lower edge", "x = 0 ± 0.2\ny = 3 * sqrt(x)^2", 0.3},
		{"the upper edge", "x = 1 ± 0.2\ny = 3 * sqrt(1 - x)^2", 0.3},
		{"the lower edge of an argument", "x = 0 ± 0.02\ny = settled_voltage(capacitor(50 F, 2.7 V, settling: x), 2.5 V)", 0.025},
		{"the upper edge of an argument", "x = 1 within 0.1\ny = gear_train(60 rpm, 8 N·m, [60], [12], stage_efficiency: x).torque", 8.0 / 5 * 0.1 / math.Sqrt(3)},
	} {
		r := kit.Clean(t, work(kit.Block("notes.md", c.text), nil), c.text)
		if got := kit.Quantity(r, "y").Uncertainty.U; math.Abs(got-c.u) > 1e-6*c.u {
			t.Errorf("%s: u = %g, want %g", c.name, got, c.u)
		}
		if why := roughOf(r, "y"); !strings.Contains(why, "cannot be worked over the whole interval of `x`") {
			t.Errorf("%s: %q says nothing of the edge", c.name, why)
		}
	}
}

// TestSpreadsInAnyOrder works uncertain statements in other orders: every
// number is the same to the last digit that rounding leaves, drawn or not, and
// so is every word.
func TestSpreadsInAnyOrder(t *testing.T) {
	for _, draws := range []string{"digits 4", "draws 12_000"} {
		lines := strings.Split(draws+`
a = 5 V ± 1 V
b = 3 V ± 0.5 V
c = 2 A within 0.3 A
xs = [1 V ± 0.1 V, 2 V ± 0.3 V]
o = observed(1.2 V, 1.3 V, 1.1 V)
line = fit_line([0 s, 1 s, 2 s, 3 s], [0.1 V, 1.9 V, 3.9 V, 6.1 V])
p = a * b / c
r = max(a, b + 1.8 V) + xs[1] - 2 * xs[2] + o
s = sqrt(a / 1 V - 4.5) * line.slope
limit p <= 9 V^2/A
budget p`, "\n")
		random := rand.New(rand.NewPCG(9, 10))
		want := spreadOutcome(t, lines)
		for range 12 {
			random.Shuffle(len(lines), func(i, j int) { lines[i], lines[j] = lines[j], lines[i] })
			if got := spreadOutcome(t, lines); got != want {
				t.Fatalf("in another order:\n%s\ngot\n%s\nwant\n%s", strings.Join(lines, "\n"), got, want)
			}
		}
	}
}

// spreadOutcome is what a sheet says with twelve digits of each interval.
func spreadOutcome(t *testing.T, lines []string) string {
	text := strings.Join(lines, "\n")
	r := kit.Clean(t, work(kit.Block("notes.md", text), nil), text)
	all := []string{outcome(t, lines)}
	for _, name := range []string{"p", "r", "s", "line.slope", "o"} {
		s := kit.Quantity(r, name).Uncertainty
		why, _, _ := strings.Cut(roughOf(r, name), " `draws ") // which stands in the first alone
		all = append(all, fmt.Sprintf("%s %.12g %.12g %.12g %.12g %s", name, s.U, s.DegreesOfFreedom, s.Low, s.High, why))
	}
	return strings.Join(all, "\n")
}
