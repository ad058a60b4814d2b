package report_test

import (
	"fmt"
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
)

// TestCompare wants values compared, not texts, and what turned found.
func TestCompare(t *testing.T) {
	compare := func(old, new string) *report.Comparison {
		return report.Compare(evaluate.Work(t.Context(), kit.Block("x.md", old), nil), evaluate.Work(t.Context(), kit.Block("x.md", new), nil))
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
	c = compare("n = 2\nx = stored_energy(5 F, n * -1 V)", "n = 3\nx = stored_energy(5 F, n * -1 V)")
	if len(c.Failing)+len(c.Working) != 0 {
		t.Errorf("what fails with another number fails still: %+v", c)
	}
}

// TestTablesCompared wants verdicts told that turn, and the rows that differ of
// what has a name.
func TestTablesCompared(t *testing.T) {
	const text = `m = 30 g ± 1 g
k = 2 ± 0.1
t = m * k
measured t = 61 g ± 1 g
measured k = [2 ± 0.02, 2.3 ± 0.02]
budget t
curve = vary k in 0 to 4 by 2: t
vary k in 1 to 2: t`
	for _, c := range []struct{ name, change, verdicts, tables string }{
		// 70 g lie 9 g above 61 g, with u = √(1.75² + 1² + 0.5²) g = 2.1 g. At k = 0
		// the row stays.
		{"a heavier one", "m = 35 g ± 1 g", "[{t agree disagree}]", "[{budget t 2 2} {vary curve 2 3}]"},
		// With u = √(0.05² + 0.01²) = 0.051, 0.3 are 5.9 of them and 0.15 are 2.9. For t,
		// 69 g lie 8 g above with u = 2 g, 64.5 g lie 3.5 g above.
		{"one trial for another", "k = 2.3 ± 0.1", "[{t agree disagree} {k, trial 1 agree disagree} {k, trial 2 disagree agree}]", "[{budget t 2 2}]"},
		{"between the trials", "k = 2.15 ± 0.1", "[{k, trial 1 agree doubtful} {k, trial 2 disagree doubtful}]", "[{budget t 2 2}]"},
		{"another unit", "m = 30_000 mg ± 1_000 mg", "[]", "[]"},
	} {
		sheet := kit.Block("x.md", text)
		now, problems := evaluate.WorkWith(t.Context(), sheet, nil, []evaluate.Change{{Text: c.change}})
		if len(problems) > 0 {
			t.Fatal(c.name, problems)
		}
		got := report.Compare(evaluate.Work(t.Context(), sheet, nil), now)
		if v, x := fmt.Sprint(got.Verdicts), fmt.Sprint(got.Tables); v != c.verdicts || x != c.tables {
			t.Errorf("%s: %s %s, want %s %s", c.name, v, x, c.verdicts, c.tables)
		}
		if got.Empty() != (c.tables == "[]") {
			t.Errorf("%s: empty %t", c.name, got.Empty())
		}
	}
}

// TestRowsCome wants rows that are new or gone told, and a new reading only
// where it does not agree.
func TestRowsCome(t *testing.T) {
	for _, c := range []struct{ name, old, now, want string }{
		{"a row more", "s = vary n in 1 to 3: m", "s = vary n in 1 to 4: m", "[] [{vary s 1 4}]"},
		{"a row fewer", "s = vary n in 1 to 3: m", "s = vary n in 1 to 2: m", "[] [{vary s 1 3}]"},
		{"a table more", "a = 1", "s = vary n in 1 to 3: m", "[] []"},
		{"agreeing", "a = 1", "measured n = 2 ± 1", "[] []"},
		{"disagreeing", "a = 1", "measured n = 2 ± 0.1", "[{n  disagree}] []"},
		{"unjudged", "a = 1", "measured n = 2", "[] []"},
		{"a spread more", "measured n = 1", "measured n = 1 ± 0.1", "[{n — agree}] []"},
	} {
		reported := func(line string) *report.Report {
			return evaluate.Work(t.Context(), kit.Block("x.md", "n = 1\nm = 2 * n\n"+line), nil)
		}
		got := report.Compare(reported(c.old), reported(c.now))
		if text := fmt.Sprint(got.Verdicts, got.Tables); text != c.want {
			t.Errorf("%s: %s, want %s", c.name, text, c.want)
		}
	}
}
