package override_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
)

// TestTriedAsTyped wants a trial to come to what a worksheet comes to that has
// the values typed in.
func TestTriedAsTyped(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 2))
	for range 200 {
		values := map[string]string{}
		for name, value := range kit.AsWritten {
			values[name] = value
		}
		var changes []evaluate.Change
		try := func(name, change, value string) {
			if random.IntN(2) == 0 {
				values[name[strings.IndexByte(name, '.')+1:]] = value
				changes = append(changes, evaluate.Change{name + change})
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
		sheet, files := kit.Bench(kit.AsWritten)
		got, problems := evaluate.WorkWith(t.Context(), sheet, files, changes)
		if len(problems) > 0 {
			t.Fatal(changes, problems)
		}
		typed, files := kit.Bench(values)
		sameReport(t, fmt.Sprint(changes), got, evaluate.Work(t.Context(), typed, files))
		// The sheet that was tried comes to what it came to.
		plain, files := kit.Bench(kit.AsWritten)
		sameReport(t, "afterwards", evaluate.Work(t.Context(), sheet, files), evaluate.Work(t.Context(), plain, files))
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
		sheet, files := kit.Bench(kit.AsWritten)
		// Another mistake beside it is told too, and hides none.
		r, problems := evaluate.WorkWith(context.Background(), sheet, files, []evaluate.Change{{c.change}, {"taps=[1 g, 2 V]"}})
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
	sheet, files := kit.Bench(kit.AsWritten)
	if _, problems := evaluate.WorkWith(context.Background(), sheet, files, []evaluate.Change{{"n_series=3"}, {"n_series = 4"}}); len(problems) != 1 || !strings.Contains(problems[0].Summary, "twice") {
		t.Error(problems)
	}
}

// TestChangeFails wants a value that the physics refuses told where it was typed.
func TestChangeFails(t *testing.T) {
	s := kit.Block("x.md", "x = 3\ny = sqrt(x)\nz = 2 * y")
	r, problems := evaluate.WorkWith(t.Context(), s, nil, []evaluate.Change{{"x=-3"}})
	if len(problems) > 0 || len(r.Errors) != 1 {
		t.Fatal(problems, r.Errors)
	}
	c := report.Compare(evaluate.Work(t.Context(), s, nil), r)
	if len(c.Failing) != 1 || c.Failing[0].Line != "y = sqrt(x)" || len(c.Changed) != 3 {
		t.Error(c)
	}
	back := report.Compare(r, evaluate.Work(t.Context(), s, nil))
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
		sheet, files := kit.Bench(kit.AsWritten)
		r, problems := evaluate.WorkWith(context.Background(), sheet, files, []evaluate.Change{{text}})
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

// TestSamePlace changes a value of one worksheet, and not the one that stands at the
// same place in another.
func TestSamePlace(t *testing.T) {
	files := kit.Sheets{"parts.md": kit.Block("parts.md", "a = 2 V")}
	s := kit.Block("notes.md", "a = 1 V\nuse \"parts.md\"\nb = a + parts.a")
	for change, want := range map[string]float64{"a=5 V": 7, "parts.a=5 V": 6} {
		r, problems := evaluate.WorkWith(t.Context(), s, files, []evaluate.Change{{change}})
		if len(problems) > 0 || kit.Number(r, "b") != want {
			t.Errorf("%s: %v, %v", change, kit.Number(r, "b"), problems)
		}
	}
}

// TestNothingToReplace says so where a worksheet has no plain value.
func TestNothingToReplace(t *testing.T) {
	_, problems := evaluate.WorkWith(t.Context(), kit.Block("notes.md", "a = 1 V + 1 V"), nil, []evaluate.Change{{"b=2"}})
	if len(problems) != 1 || problems[0].Hint != "it has no plain values to replace" {
		t.Errorf("%v", problems)
	}
}
