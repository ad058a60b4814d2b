package study_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"inkwing/evaluate/check"
	"inkwing/evaluate/program"
	"inkwing/evaluate/run"
	"inkwing/evaluate/study"
	"inkwing/evaluate/syntax"
)

// propagated is how sure everything of a text is; tables are written
// "name: head | head; 1 | 2; 3 | 4".
func propagated(t *testing.T, text string, tables ...string) (*study.Uncertainty, *run.Machine, *program.Program) {
	t.Helper()
	in := check.Input{Name: "notes.md"}
	at := 10_000
	for _, written := range tables {
		name, body, _ := strings.Cut(written, ": ")
		table := &syntax.Table{Name: syntax.Ident{Name: name}}
		for i, line := range strings.Split(body, "; ") {
			var row []syntax.Cell
			for _, cell := range strings.Split(line, " | ") {
				c := syntax.Cell{Text: cell}
				c.Span.File, c.Span.Start, c.Span.End = "notes.md", at, at+len(cell)
				at += len(cell) + 3
				row = append(row, c)
			}
			if i == 0 {
				table.Head = row
				continue
			}
			table.Rows = append(table.Rows, row)
		}
		in.Tables = append(in.Tables, table)
	}
	p := checkedInput(t, in, text)
	m := run.New(context.Background(), p, study.Work)
	m.Run()
	return study.Propagate(m, p, wanted(p)), m, p
}

func wanted(p *program.Program) []int {
	var ids []int
	for _, d := range p.Main.Defs {
		ids = append(ids, d.ID)
	}
	return ids
}

// TestStandard finds a combined uncertainty without its parts: the same to the bit as with
// them, of correlated inputs, of what cancels, and of what is left of rounding.
func TestStandard(t *testing.T) {
	u, _, p := propagated(t, "a = 10 ± 1\nb = 3 ± 0.2\ncorrelation a, b = 0.9\nr = within 4 to 6\nc = a * b - r\nd = c - 3 * a + b^2\ne = a - a\nf = sqrt(r) + 1e9 * (r - r)\nlimit d > 1")
	some := 0
	for _, def := range p.Main.Defs {
		got, want := u.Standard(def, 0), u.FirstOrder(def, 0).U
		if got != want {
			t.Errorf("%s: %g, want %g", def.Name, got, want)
		}
		if got > 0 {
			some++
		}
	}
	if some < 6 {
		t.Errorf("%d of them are uncertain", some)
	}
}

// TestPropagate wants standard uncertainties worked by hand: u² = Σ (∂y/∂x)²·u²
// (JCGM 100:2008, 5.1). A typed ± stands for two of them, hard limits for √3
// (4.3.7), and no uncertainty for inputs that are none.
func TestPropagate(t *testing.T) {
	const text = "x = 10 ± 1\ny = 3 ± 0.2\nr = within 4 to 6\np = 20 ± 5 %\nn = -20 ± 5 %\nk = 7\n"
	for last, want := range map[string]float64{
		"z = x + y":                 math.Hypot(0.5, 0.1),
		"z = x - y":                 math.Hypot(0.5, 0.1),
		"z = x * y":                 math.Hypot(3*0.5, 10*0.1),
		"z = x / y":                 math.Hypot(0.5/3, 10*0.1/9),
		"z = x^2":                   2 * 10 * 0.5,
		"z = x - x + y":             0.1,
		"z = 2 * r":                 2 / math.Sqrt(3),
		"z = p":                     0.5,
		"z = n * k":                 3.5,
		"z = x * k + y * k":         7 * math.Hypot(0.5, 0.1),
		"z = k^2":                   0,
		"z = x - x":                 0,
		"z = (x + y) - x - y + 0.1": 0, // but for what arithmetic leaves over
	} {
		u, _, p := propagated(t, text+last)
		if got := u.Of(p.Main.Names["z"], 0).U; math.Abs(got-want) > 1e-3*want {
			t.Errorf("%s: %v, want %v", last, got, want)
		}
	}
}

// TestLeaves wants how sure each number of a value is: elements, sides of limits
// with the differences between them, and a measurement with those from it.
func TestLeaves(t *testing.T) {
	const text = "x = 10 ± 1\ny = 3 ± 0.2\nb = 8 ± 0.4\n"
	for last, want := range map[string][]float64{
		"z = [x, 2 * y, 7]":       {0.5, 0.2, 0},
		"limit y <= x":            {0.1, 0.5, math.Hypot(0.5, 0.1)},
		"limit y <= b <= x":       {0.1, 0.2, 0.5, math.Hypot(0.1, 0.2), math.Hypot(0.2, 0.5)},
		"limit x <= x + 5":        {0.5, 0.5, 0},
		"measured x = 11 ± 0.6":   {0.5, 0.3, math.Hypot(0.5, 0.3)},
		"measured x = [11, 12]":   {0.5, 0, 0, 0.5, 0.5},
		"measured x = x + y - 11": {0.5, math.Hypot(0.5, 0.1), 0.1},
	} {
		u, _, p := propagated(t, text+last)
		var d *program.Def
		for _, d = range p.Main.Defs {
			if !program.Is[*program.Deviation](d) && d.Stmt.Place().Start >= len(text) {
				break
			}
		}
		for leaf, s := range want {
			if got := u.Of(d, leaf).U; math.Abs(got-s) > 1e-3*s+1e-12 {
				t.Errorf("%s, number %d: %v, want %v", last, leaf, got, s)
			}
		}
	}
}

// TestOneSided wants the sign of a sensitivity kept where only one side of the
// nominal can be worked: y falls by 3 for each x, upwards and downwards.
func TestOneSided(t *testing.T) {
	for _, able := range []string{"x <= 10", "x >= 10"} {
		u, _, p := propagated(t, "x = 10 ± 0.2\ny = if "+able+" then -3 * x else 1 / (x - x)")
		y := p.Main.Names["y"]
		parts := u.Parts(y, 0)
		if len(parts) != 1 || math.Abs(parts[0].Effects[0].U+0.3) > 1e-9 {
			t.Errorf("%s: %+v", able, parts)
		}
		if s := u.Of(y, 0); s.Misleads != "it cannot be worked over the whole interval of `x`" {
			t.Errorf("%s: %q", able, s.Misleads)
		}
	}
}

// TestParts wants the largest first, signed, and named as a builder would.
func TestParts(t *testing.T) {
	u, _, p := propagated(t, "x = 10 ± 1\ny = 3 ± 0.2\nz = x - 20 * y")
	parts := u.Parts(p.Main.Names["z"], 0)
	if len(parts) != 2 || parts[0].Effects[0].Input.Name != "y" || parts[1].Effects[0].Input.Name != "x" {
		t.Fatalf("%+v", parts)
	}
	if a, b := parts[0].Effects[0].U, parts[1].Effects[0].U; math.Abs(a+2) > 1e-9 || math.Abs(b-0.5) > 1e-9 {
		t.Errorf("%v, %v", a, b)
	}
}

// TestMisleads wants first order held against whole intervals: a parabola at its
// foot, a kink, and what one rectangle decides.
func TestMisleads(t *testing.T) {
	for text, want := range map[string]string{
		"x = 0 ± 1\nz = x^2 + 5":                          "its inputs act out of proportion",
		"x = 0 ± 1\nz = if x > 0 then 3 * x else x":       "its inputs act out of proportion",
		"x = 5 ± 1\ny = 4 ± 1\nz = (x - 5) * (y - 4) + x": "its inputs act out of proportion",
		"x = within 4 to 6\ny = 4 ± 0.1\nz = x + y":       "most of it is the hard limits of `x`, which no bell curve describes",
		"x = 5 ± 1\nz = 1 / (5.7 - x)":                    "its inputs act out of proportion",
		"x = 0 ± 1\nz = x^3":                              "its inputs act out of proportion", // bent alike on both sides
		"r = within 4 to 6\nz = max(r, 5.9)":              "its inputs act out of proportion", // its limits count, at √3 u
		"x = 50 ± 1\nz = x^2":                             "",
		"x = 5 ± 0.1\ny = 4 ± 0.1\nz = x * y":             "",
	} {
		u, _, p := propagated(t, text)
		got := u.Of(p.Main.Names["z"], 0).Misleads
		if got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

// TestBehindSimulations wants what stands behind a simulation, worked to one side of the
// nominal, as sure as its slope says: on both sides where there is a kink, and of what bends
// to the digits that are shown. The ceiling goes straight with the emf.
func TestBehindSimulations(t *testing.T) {
	const text = "store = pack(capacitor(100 F, 2.7 V, resistance: 10 mΩ), series: 5)\n" +
		"c = coil(87, awg(21), 10 mm, 9 mm, 8 mm)\nk = 0.05 V·s/rad ± 0.002 V·s/rad\n" +
		"top = charge_ceiling(generator(c, 9, 12, emf_constant: k, phases: 3), store, 75 rpm, 12)\n" +
		"same = charge_ceiling(generator(c, 9, 12, emf_constant: 0.05 V·s/rad, phases: 3), store, 75 rpm, 12)\n" +
		"d = top.ceiling - same.ceiling\n"
	for last, want := range map[string]struct {
		slope    float64
		misleads string
	}{
		"z = d":                                      {1, ""},
		"z = top.ceiling^3 / same.ceiling^2":         {3, ""},
		"z = if d > 0 V then 3 * d else d":           {2, "its inputs act out of proportion"},
		"z = if d > 0 V then 1.04 * d else d":        {1.02, ""},
		"z = if d > 0 V then d * d / (d - d) else d": {1, "it cannot be worked over the whole interval of `k`"},
	} {
		u, _, p := propagated(t, text+last)
		d, z := u.Of(p.Main.Names["d"], 0), u.Of(p.Main.Names["z"], 0)
		if d.U == 0 || math.Abs(z.U-want.slope*d.U) > 2e-3*z.U || z.Misleads != want.misleads {
			t.Errorf("%s: u %v for %v, %q", last, z.U, d.U, z.Misleads)
		}
	}
}

// TestMeansOfOneTable wants the means of two columns of one table correlated as
// their readings are (JCGM 100:2008, 5.2.3), those of two tables not.
func TestMeansOfOneTable(t *testing.T) {
	const log = "log: a [1] | b [1]; 1 | 2; 2 | 4; 6 | 12"
	const other = "other: b [1]; 2; 4; 12"
	means := "x = observed(log.a)\ny = observed(log.b)\nw = observed(other.b)\nz = y - 2 * x\nv = w - 2 * x\ns = y + 2 * x"
	u, _, p := propagated(t, means, log, other)
	// Each mean of a: s = √7, /√3; of b twice that.
	a := math.Sqrt(7.0 / 3)
	for name, want := range map[string]float64{"x": a, "y": 2 * a, "z": 0, "s": 4 * a, "v": math.Sqrt(8) * a} {
		if got := u.Of(p.Main.Names[name], 0).U; math.Abs(got-want) > 1e-3*want+1e-9 {
			t.Errorf("%s: %v, want %v", name, got, want)
		}
	}
	if n := u.Of(p.Main.Names["x"], 0).DegreesOfFreedom; n != 2 {
		t.Errorf("%v degrees of freedom", n)
	}
}

// TestDraws wants draws that cannot be worked counted as lost, those that can
// kept: of a normal distribution 15.87 % lie more than one standard uncertainty
// above its mean (any table of it).
func TestDraws(t *testing.T) {
	u, m, p := propagated(t, "x = 10 ± 1\ny = if x <= 10.5 then x else 1 / (x - x)\nz = 2 * x")
	const draws = 40_000
	if err := u.Draw(m, wanted(p), draws); err != nil {
		t.Fatal(err)
	}
	if s := u.Of(p.Main.Names["y"], 0); math.Abs(s.Failed-0.1587) > 0.01 || !s.Drawn {
		t.Errorf("y: %+v", s)
	}
	s := u.Of(p.Main.Names["z"], 0)
	if s.Failed != 0 || math.Abs(s.Mean-20) > 0.05 || math.Abs(s.U-1) > 0.03 || math.Abs(s.High-s.Low-2*1.96) > 0.12 {
		t.Errorf("z: %+v", s)
	}
	if n, _ := u.Draws(); n == 0 || n > draws {
		t.Errorf("%d draws", n)
	}
}

// TestDrawsStop sees that draws look at the deadline.
func TestDrawsStop(t *testing.T) {
	p := checked(t, "x = 10 ± 1\ny = 2 * x")
	ctx, cancel := context.WithCancel(context.Background())
	m := run.New(ctx, p, study.Work)
	m.Run()
	u := study.Propagate(m, p, wanted(p))
	cancel()
	if err := u.Draw(m, wanted(p), 10_000); err == nil {
		t.Error("draws went on")
	}
}

// TestStudiesAroundTheNominal moves what a study depends on: an answer follows, a
// chosen step and an optimum stay chosen, a short sweep has intervals.
func TestStudiesAroundTheNominal(t *testing.T) {
	const text = "k = 4 ± 0.4\nx = 1\ny = k * x\ng = (x - k)^2\n"
	for last, want := range map[string]float64{
		"z = adjust x in 0 to 9 until y == 8":            2 * 0.05,
		"z = adjust x in 0 to 9 by 1 until y >= 8":       0,
		"z = tune x in 0 to 9 for least g":               0,
		"s = vary x in 1 to 3: y\nz = s.y[3]":            3 * 0.2,
		"s = vary x in 1 to 900: y\nz = s.y[3]":          0, // too long to have them
		"s = adjust x in 0 to 9 until y == 8\nz = s * k": 0,
	} {
		u, _, p := propagated(t, text+last)
		if got := u.Of(p.Main.Names["z"], 0).U; math.Abs(got-want) > 1e-3*want+1e-6 {
			t.Errorf("%s: %v, want %v", last, got, want)
		}
	}
}

// TestSpreadBelowZero refuses one that is only known when it is worked.
func TestSpreadBelowZero(t *testing.T) {
	u, _, p := propagated(t, "d = 1\nv = 5\nx = v ± (d - 3)")
	if f := u.Faults[p.Main.Names["x"]]; f == nil || !strings.Contains(f.Summary, "never below zero") {
		t.Errorf("%v", f)
	}
}

// TestCells wants the spread of a cell of a table where it was written, and
// carried from there.
func TestCells(t *testing.T) {
	u, m, p := propagated(t, "z = 2 * t.V[2]\nw = t.V[1]", "t: V [V]; 5; 6 ± 0.2")
	if got := u.Of(p.Main.Names["z"], 0).U; math.Abs(got-0.2) > 1e-6 {
		t.Errorf("z: %v", got)
	}
	rows := m.Value(p.Main.Names["t"]).(*program.Rows)
	for row, want := range []float64{0, 0.2} {
		if got := u.Cell(rows, row, 0); math.Abs(got-want) > 1e-3 {
			t.Errorf("row %d: %v", row, got)
		}
	}
}
