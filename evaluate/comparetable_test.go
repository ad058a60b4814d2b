package evaluate

import (
	"fmt"
	"testing"

	"inkwing/evaluate/report"
)

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
		sheet := block("x.md", text)
		now, problems := WorkWith(t.Context(), sheet, nil, []Change{{c.change}})
		if len(problems) > 0 {
			t.Fatal(c.name, problems)
		}
		got := report.Compare(Work(t.Context(), sheet, nil), now)
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
		got := against(t, "n = 1\nm = 2 * n\n"+c.old, "n = 1\nm = 2 * n\n"+c.now)
		if text := fmt.Sprint(got.Verdicts, got.Tables); text != c.want {
			t.Errorf("%s: %s, want %s", c.name, text, c.want)
		}
	}
}
