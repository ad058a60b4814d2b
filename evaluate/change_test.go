package evaluate

import (
	"context"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
)

// bench is a sheet with what may be replaced: {name} stands where its value is
// written.
const bench = `use "parts.md"
cell = {cell}
n_series = {n_series}
store = pack(cell, series: n_series)
V_full [V] = {V_full}
dry = {dry}
name = {name}
taps = {taps}
E_full [Wh] = 1/2 * store.capacitance * V_full^2
limit V_full / n_series <= cell.rated_voltage "add a cell"
limit parts.strap < 10 g
load(x) = x * parts.strap + taps[2]
total = load(n_series)
again = E_full with n_series = 7
t = if dry then 1 s else 2 s`

const benchParts = "strap = {strap}\nboth = 2 * strap"

// asWritten are the values of the bench as it stands.
var asWritten = map[string]string{"cell": `cells["B50"]`, "n_series": "4", "V_full": "10", "dry": "true",
	"name": `"first"`, "taps": "[1 g, 2 g]", "strap": "3 g"}

func fill(text string, values map[string]string) string {
	for name, value := range values {
		text = strings.ReplaceAll(text, "{"+name+"}", value)
	}
	return text
}

// benchSheet is the bench with those values typed in, and what it uses.
func benchSheet(values map[string]string) (*Sheet, sheets) {
	s := block("bench.md", fill(bench, values))
	cell := func(text string) syntax.Cell { return syntax.Cell{Text: text} }
	table := &syntax.Table{Name: syntax.Ident{Name: "cells"}}
	for i, row := range [][]string{{"cell", "capacitance [F]", "rated_voltage [V]", "resistance [mΩ]"}, {"B50", "50", "2.7", "16"}, {"B60", "60", "2.7", "12"}} {
		cells := []syntax.Cell{cell(row[0]), cell(row[1]), cell(row[2]), cell(row[3])}
		if i == 0 {
			table.Head = cells
		} else {
			table.Rows = append(table.Rows, cells)
		}
	}
	s.Tables = []*syntax.Table{table}
	return s, sheets{"parts.md": block("parts.md", fill(benchParts, values))}
}

// TestTriedAsTyped wants a trial to come to what a worksheet comes to that has
// the values typed in.
func TestTriedAsTyped(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 2))
	for range 200 {
		values := map[string]string{}
		for name, value := range asWritten {
			values[name] = value
		}
		var changes []Change
		try := func(name, change, value string) {
			if random.IntN(2) == 0 {
				values[name[strings.IndexByte(name, '.')+1:]] = value
				changes = append(changes, Change{name + change})
			}
		}
		n, v := 1+random.IntN(9), 0.1*float64(1+random.IntN(200))
		try("n_series", fmt.Sprintf("=%d", n), fmt.Sprint(n))
		try("V_full", fmt.Sprintf(" = %g V ± 0.1 V", v), fmt.Sprintf("%g V ± 0.1 V", v))
		try("cell", "=B60", `cells["B60"]`)
		try("dry", "=false", "false")
		try("name", "=second one", `"second one"`)
		try("taps", "=[3 g, 4.5 g]", "[3 g, 4.5 g]")
		try("parts.strap", fmt.Sprintf("=%d g", 3*n), fmt.Sprintf("%d g", 3*n))
		sheet, files := benchSheet(asWritten)
		got, problems := WorkWith(t.Context(), sheet, files, changes)
		if len(problems) > 0 {
			t.Fatal(changes, problems)
		}
		typed, files := benchSheet(values)
		sameReport(t, fmt.Sprint(changes), got, Work(t.Context(), typed, files))
		// The sheet that was tried comes to what it came to.
		plain, files := benchSheet(asWritten)
		sameReport(t, "afterwards", Work(t.Context(), sheet, files), Work(t.Context(), plain, files))
	}
}

func sameReport(t *testing.T, name string, got, want *report.Report) {
	t.Helper()
	if len(got.Quantities) != len(want.Quantities) || len(got.Limits) != len(want.Limits) || len(got.Errors) != len(want.Errors) {
		t.Fatalf("%s: %v, want %v", name, got, want)
	}
	for i, q := range got.Quantities {
		if w := want.Quantities[i]; q.Name != w.Name || q.Value != w.Value || q.Shown != w.Shown || q.State != w.State {
			t.Errorf("%s: %v, want %v", name, q, w)
		}
	}
	for i, l := range got.Limits {
		if w := want.Limits[i]; l.Holds != w.Holds || l.Value != w.Value || l.Headroom != w.Headroom {
			t.Errorf("%s: %v, want %v", name, l, w)
		}
	}
}

// TestChangeRefused wants every mistake told at its place, all at once.
func TestChangeRefused(t *testing.T) {
	for _, c := range []struct{ change, at, summary, hint string }{
		{"n_serie=3", "n_serie", "no quantity `n_serie` in bench.md", "did you mean `n_series`?"},
		{"parts.stra=3", "parts.stra", "no quantity `parts.stra` in parts.md", "did you mean `parts.strap`?"},
		{"quixotic=3", "quixotic", "no quantity", "its plain values are "},
		{"E_full=3 J", "E_full", "worked from others", "cell, n_series, V_full"},
		{"parts.both=3 g", "parts.both", "worked from others", "parts.strap"},
		{"store.mass=3 g", "store.mass", "is a field", "`store`"},
		{"cells=3", "cells", "is a table", ""},
		{"load=3", "load", "is a function", ""},
		{"V_full=3 J", "3 J", "an energy (J) where a voltage (V) is wanted", ""},
		{"n_series=3 V", "3 V", "a voltage (V) in place of a pure number", "its own kind"},
		{"dry=3", "3", "a pure number in place of a truth", ""},
		{"cell=B70", "B70", "no row \"B70\" in `cells`", "B50"},
		{"cell=\"B70\"", "\"B70\"", "no row \"B70\" in `cells`", "B50"},
		{"V_full=2 * n_series", "2 * n_series", "a plain value is wanted", ""},
		{"V_full=3V", "3V", "", ""},
		{"V_full=", "V_full=", "name=value", "n_series=5"},
		{"=3", "=3", "name=value", ""},
		{"V_full", "V_full", "name=value", ""},
		{"V_full=3 V # note", "", "note", ""},
		{"V_full=3 quux", "quux", "quux", ""},
	} {
		sheet, files := benchSheet(asWritten)
		// Another mistake beside it is told too, and hides none.
		r, problems := WorkWith(context.Background(), sheet, files, []Change{{c.change}, {"taps=[1 g, 2 V]"}})
		if r != nil || len(problems) != 2 {
			t.Errorf("%s: %v", c.change, problems)
			continue
		}
		found := false
		for _, p := range problems {
			if p.Span.File != "try: "+c.change {
				continue
			}
			found = true
			at := c.change[p.Span.Start:p.Span.End]
			if c.at != "" && at != c.at || !strings.Contains(p.Summary, c.summary) || !strings.Contains(p.Hint, c.hint) {
				t.Errorf("%s: %q %s | %s", c.change, at, p.Summary, p.Hint)
			}
		}
		if !found {
			t.Errorf("%s: %v", c.change, problems)
		}
	}
	sheet, files := benchSheet(asWritten)
	if _, problems := WorkWith(context.Background(), sheet, files, []Change{{"n_series=3"}, {"n_series = 4"}}); len(problems) != 1 || !strings.Contains(problems[0].Summary, "twice") {
		t.Error(problems)
	}
}

// TestChangeFails wants a value that the physics refuses told where it was typed.
func TestChangeFails(t *testing.T) {
	s := block("x.md", "x = 3\ny = sqrt(x)\nz = 2 * y")
	r, problems := WorkWith(t.Context(), s, nil, []Change{{"x=-3"}})
	if len(problems) > 0 || len(r.Errors) != 1 {
		t.Fatal(problems, r.Errors)
	}
	c := report.Compare(work(s, nil), r)
	if len(c.Failing) != 1 || c.Failing[0].Line != "y = sqrt(x)" || len(c.Changed) != 3 {
		t.Error(c)
	}
	back := report.Compare(r, work(s, nil))
	if len(back.Working) != 1 || len(back.Failing) != 0 {
		t.Error(back)
	}
}

// FuzzChange holds any text to a report or a reason, in the change's own text.
func FuzzChange(f *testing.F) {
	for _, text := range []string{"n_series=5", "cell=B60", "V_full=10.5 V ± 0.2 V", "parts.strap=2 g", "=", "x=[", "name=\"a", "taps=[1 g]", "V_full=(1 ± 2) V", "n_series=0"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		sheet, files := benchSheet(asWritten)
		r, problems := WorkWith(context.Background(), sheet, files, []Change{{text}})
		if (r == nil) == (len(problems) == 0) {
			t.Fatal(text, r, problems)
		}
		for _, p := range problems {
			if p.Span.File != "try: "+text || p.Span.Start < 0 || p.Span.End > len(text) || p.Span.Start > p.Span.End {
				t.Fatalf("%q: %v", text, p)
			}
		}
	})
}

// TestCompare wants values compared, not texts, and what turned found.
func TestCompare(t *testing.T) {
	compare := func(old, new string) *report.Comparison {
		return report.Compare(work(block("x.md", old), nil), work(block("x.md", new), nil))
	}
	if c := compare("U = 3 V\nW = 0.3 V", "# moved\nU [mV] = 3000\nW = 0.1 V + 0.2 V"); !c.Empty() {
		t.Errorf("another unit, or noise, is no change: %+v", c)
	}
	if c := compare("U = 3 V ± 0.1 V\nW = 2 * U", "U = 3 V ± 0.2 V\nW = 2 * U"); len(c.Changed) != 2 || c.Changed[1].Percent != "" {
		t.Errorf("a wider interval: %+v", c.Changed)
	}
	c := compare("a = 1 V\nb = a / 3\nT = 20 °C\nn = 0\nw = \"x\"\ngone = 1", "a = 2 V\nb = a / 3\nT = 30 °C\nn = 1\nw = \"y\"\nfresh = 1")
	var got []string
	for _, d := range c.Changed {
		got = append(got, d.New.Name+" "+d.Percent)
	}
	if strings.Join(got, ",") != "a +100 %,b +100 %,T ,n ,w " || len(c.Added) != 1 || len(c.Gone) != 1 {
		t.Error(got, c.Added, c.Gone)
	}
	c = compare("a = 1\nlimit a < 2\nlimit a > 1\nlimit a < 0", "a = 3\nlimit a < 2\nlimit a > 1\n")
	if len(c.Broken) != 1 || c.Broken[0].New.Text != "a < 2" || len(c.Mended) != 2 || c.Mended[0].New.Text != "a > 1" || c.Mended[1].New != nil {
		t.Errorf("%+v", c)
	}
	c = compare("a = 1 V ± 0.1 V\nlimit a < 2 V", "a = 1.95 V ± 0.1 V\nlimit a < 2 V")
	if len(c.Doubtful) != 1 || len(c.Broken)+len(c.Mended) != 0 {
		t.Errorf("in doubt: %+v", c)
	}
	c = compare("x = 1\nr = pack(capacitor(1 F, 3 V, resistance: 1 Ω), series: x)", "x = 0\nr = pack(capacitor(1 F, 3 V, resistance: 1 Ω), series: x)")
	if len(c.Added)+len(c.Gone) != 0 || len(c.Failing) != 1 {
		t.Errorf("a record that fails: %+v", c)
	}
}
