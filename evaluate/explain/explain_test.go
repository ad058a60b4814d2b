package explain_test

import (
	"slices"
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
)

// TestExplain goes through every quantity of the bench: all that a step comes
// from is opened once, and down to plain values.
func TestExplain(t *testing.T) {
	sheet, files := kit.Bench(kit.AsWritten)
	for _, q := range evaluate.Work(t.Context(), sheet, files).Quantities {
		step, _ := evaluate.Explain(t.Context(), sheet, files, q.Name)
		if step == nil || step.Shown != q.Shown || step.Above {
			t.Fatalf("%s: %+v", q.Name, step)
		}
		opened := map[string]int{}
		var walk func(*report.Step)
		walk = func(s *report.Step) {
			if !s.Above {
				opened[s.Name]++
			}
			if !s.Above && !s.Given && len(s.Dependencies) == 0 {
				t.Errorf("%s: %s comes from nothing", q.Name, s.Name)
			}
			for _, from := range s.Dependencies {
				walk(from)
			}
		}
		walk(step)
		for name, times := range opened {
			if times > 1 {
				t.Errorf("%s: %s is opened %d times", q.Name, name, times)
			}
		}
	}
}

// TestPut works formulas with the values put in, which must come to what the
// step shows: the values are round.
func TestPut(t *testing.T) {
	s := kit.Block("x.md", `a = 2 V
b = -3 V
n = 3
w = "key"
p = a^2 + b^2
q = -a - b
r = (a + b) * n^2 / 4
s = if a > b then a else b
f(x) = x * n
u = f(a) + f(b)
m = max(a, b, 1 V) - b
ok = w == "key" and a > b
long = a +  # the first
  b`)
	for name, put := range map[string]string{
		"p": "(2 V)^2 + (-3 V)^2", "q": "-(2 V) - (-3 V)", "r": "(2 V + (-3 V)) * 3^2 / 4", "s": "if 2 V > (-3 V) then 2 V else (-3 V)",
		"u": "f(2 V) + f((-3 V))", "m": "max(2 V, (-3 V), 1 V) - (-3 V)", "ok": `"key" == "key" and 2 V > (-3 V)`, "long": "2 V + (-3 V)",
	} {
		step, r := evaluate.Explain(t.Context(), s, nil, name)
		if step == nil || step.Substituted != put {
			t.Errorf("%s: %+v %v, want %s", name, step, r.Errors, put)
			continue
		}
		again := evaluate.Work(t.Context(), kit.Block("y.md", "n = 3\nf(x) = x * n\n"+name+" = "+step.Substituted), nil)
		if got := again.Quantities[len(again.Quantities)-1].Shown; len(again.Errors) > 0 || got != step.Shown {
			t.Errorf("%s = %s comes to %s, want %s", name, step.Substituted, got, step.Shown)
		}
	}
}

func TestExplainCalls(t *testing.T) {
	sheet, files := kit.Bench(kit.AsWritten)
	step, _ := evaluate.Explain(t.Context(), sheet, files, "total")
	if len(step.Calls) != 1 || !step.Calls[0].Own || step.Calls[0].Arguments[0] != (report.Argument{Name: "x", Text: "n_series", Shown: "4"}) {
		t.Errorf("%+v", step.Calls)
	}
	if len(step.Dependencies) != 3 || step.Dependencies[1].Name != "parts.strap" || step.Dependencies[1].Path != "parts.md" || step.Dependencies[2].Shown != "[1 g, 2 g]" {
		t.Errorf("%+v", step.Dependencies)
	}
	step, _ = evaluate.Explain(t.Context(), sheet, files, "store.capacitance")
	call := step.Calls[0]
	if call.Own || !strings.HasPrefix(call.Summary, "pack ") || call.Arguments[0].Text != "cell" || call.Arguments[1] != (report.Argument{Name: "series", Text: "n_series", Shown: "4"}) {
		t.Errorf("%+v", call)
	}
	if from := step.Dependencies[0]; from.Where != "row B50 of the table `cells`" || !from.Given {
		t.Errorf("%+v", from)
	}
}

// TestExplainCells says of each cell of one row where it stands, and once.
func TestExplainCells(t *testing.T) {
	sheet, files := kit.Bench(kit.AsWritten)
	sheet.Blocks = kit.Block("bench.md", "row = cells[\"B60\"]\nE = row.capacitance * row.rated_voltage^2\nQ = row.capacitance * row.rated_voltage\nboth = E + Q * 1 V").Blocks
	step, r := evaluate.Explain(t.Context(), sheet, files, "both")
	if len(r.Errors) > 0 || len(step.Dependencies) != 2 || len(step.Dependencies[0].Dependencies) != 2 || len(step.Dependencies[1].Dependencies) != 2 {
		t.Fatalf("%+v %v", step, r.Errors)
	}
	for i, column := range []string{"capacitance", "rated_voltage"} {
		first, again := step.Dependencies[0].Dependencies[i], step.Dependencies[1].Dependencies[i]
		if want := "row B60, column " + column + " of the table `cells`"; first.Where != want || first.Above {
			t.Errorf("%+v, want %s", first, want)
		}
		if !again.Above || again.Shown != first.Shown {
			t.Errorf("%+v, want it above", again)
		}
	}
}

// TestExplainTrouble explains what cannot be worked, or is not there.
func TestExplainTrouble(t *testing.T) {
	s := kit.Block("x.md", "x = -4\ny = sqrt(x)\nz = 2 * y\nv = 3 V + x\nw = v\na = b\nb = a\nu = unheard\nbroken = 3 +\nc = broken")
	for name, want := range map[string]report.State{"y": report.Failed, "z": report.Waiting, "v": report.Failed, "w": report.Waiting, "a": report.Failed, "u": report.Failed, "c": report.Waiting, "x": report.Evaluated} {
		step, _ := evaluate.Explain(t.Context(), s, kit.Sheets{}, name)
		if step == nil || step.State != want || want == report.Failed && step.Fault == "" && name != "a" || want == report.Waiting && step.Waits == "" {
			t.Errorf("%s: %+v", name, step)
		}
	}
	for _, name := range []string{"none", "", "x.y", "z.", ".", "broken"} {
		if step, r := evaluate.Explain(t.Context(), s, kit.Sheets{}, name); step != nil || r == nil {
			t.Errorf("%q: %+v", name, step)
		}
	}
}

// FuzzExplain explains every quantity of any sheet.
func FuzzExplain(f *testing.F) {
	f.Add(kit.BenchText)
	f.Add("a = b.c.d\nb = [1, 2][1]\nf(x) = g(x)\ng(x) = f(x)\nh = f(1)")
	f.Add("t = vary n in 1 to 3: a\nn = 1\na = n\nb = t.a[1]\nq = a ± 1 with n = 2")
	f.Fuzz(func(t *testing.T, text string) {
		_, files := kit.Bench(kit.AsWritten)
		sheet := kit.Block("x.md", text)
		for _, q := range evaluate.Work(t.Context(), sheet, files).Quantities {
			if step, _ := evaluate.Explain(t.Context(), sheet, files, q.Name); step == nil {
				t.Fatalf("%q: no %s", text, q.Name)
			}
		}
	})
}

// TestExplainDefaults wants the values that nobody gave and that bear on the result,
// of a row of a table too, and no others; and the values that a formula is worked with.
func TestExplainDefaults(t *testing.T) {
	cells := kit.Table("cells", []string{"cell", "capacitance [F]", "rated_voltage [V]"}, []string{"B50", "50", "2.7"})
	sheet := kit.BlockWith("notes.md", "store = pack(cells[\"B50\"], series: 4)\nsafe = store.safe_voltage\n"+
		"known = pack(capacitor(50 F, 2.7 V, tolerance: 5 %), series: 4)\nx = sqrt(4)", cells)
	for name, want := range map[string]string{"store": "cell.resistance 0 Ω, cell.tolerance 20 %", "known": "resistance 0 Ω, capacitor: ", "x": ""} {
		step, r := evaluate.Explain(t.Context(), sheet, nil, name)
		if step == nil {
			t.Fatal(name, r.Errors)
		}
		var got []string
		for _, c := range step.Calls {
			for _, d := range c.Defaults {
				got = append(got, d.Name+" "+d.Text)
			}
			if name == "known" && c.Name == "capacitor" {
				got = append(got, "capacitor: ")
			}
		}
		if text := strings.Join(got, ", "); text != want {
			t.Errorf("%s: %q, want %q", name, text, want)
		}
	}
	step, _ := evaluate.Explain(t.Context(), sheet, nil, "store")
	call := step.Calls[0]
	if !strings.HasPrefix(call.Formula, "C = C1·np/ns") || call.Fields[0] != (report.Argument{Name: "cell.capacitance", Shown: "50 F", Put: true}) {
		t.Errorf("%+v", call)
	}
}

// TestPutIn wants values only in the places of names that mean them there: not of a
// function's parameters, of a table's columns where a row is looked at, nor of what a
// with replaces.
func TestPutIn(t *testing.T) {
	cells := kit.Table("cells", []string{"name", "mass [g]"}, []string{"B50", "12"}, []string{"B60", "15"})
	s := kit.BlockWith("notes.md", `mass = 13 g
x = 4
f(x) = x * 2
g(mass) = mass * x
a = f(x) + x
h = g(2 g)
b = x^2
c = b with x = 5
light = count((cells where mass < 14 g).mass) + x
second = cells[2].mass + mass`, cells)
	for name, want := range map[string]struct {
		put, from string
	}{
		"a":      {"f(4) + 4", "x"},
		"h":      {"", "x"},
		"c":      {"", "b"},
		"light":  {"count((cells where mass < 14 g).mass) + 4", "cells x"},
		"second": {"15 g + 13 g", "cells[2].mass mass"},
	} {
		step, r := evaluate.Explain(t.Context(), s, nil, name)
		kit.Clean(t, r, name)
		var from []string
		for _, d := range step.Dependencies {
			if !slices.Contains(from, d.Name) {
				from = append(from, d.Name)
			}
		}
		if step.Substituted != want.put || strings.Join(from, " ") != want.from {
			t.Errorf("%s: %q from %q, want %q from %q", name, step.Substituted, from, want.put, want.from)
		}
	}
}

// TestPutOfCall wants what was given, what a record holds and what is a default in the
// library's formula, and none of it told twice.
func TestPutOfCall(t *testing.T) {
	const text = "n = 4\nstore = pack(capacitor(50 F, 2.7 V, resistance: 16 mΩ, tolerance: 5 %), series: n)\nt = hold_up_time(store, from: 10 V, to: 5 V, current: 2 A)"
	step, r := evaluate.Explain(t.Context(), kit.Block("notes.md", text), nil, "t")
	kit.Clean(t, r, text)
	call := step.Calls[0]
	if want := "under a current t = (12.5 F·(10 V − 5.128 V))/(2 A) = 30.45 s; Vb = 5 V + 2 A·64 mΩ = 5.128 V"; !strings.Contains(call.Put, want) {
		t.Errorf("%q, want %q in it", call.Put, want)
	}
	for _, f := range call.Fields {
		// The rating stands in the formula beside the slope, and does not bear without one.
		if f.Put != (f.Name == "store.capacitance" || f.Name == "store.resistance" || f.Name == "store.rated_voltage") {
			t.Errorf("%+v", f)
		}
	}
	if put := step.Dependencies[0].Calls[0].Put; !strings.Contains(put, "C = 50 F·1/4") {
		t.Errorf("the default of parallel, in %q", put)
	}
}
