package attribute_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/attribute"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

func against(t *testing.T, old, now string) *report.Trace {
	t.Helper()
	return evaluate.Against(t.Context(), evaluate.Version{Sheet: kit.Block("x.md", old), Load: kit.Sheets{}}, evaluate.Version{Sheet: kit.Block("x.md", now), Load: kit.Sheets{}})
}

// shareText is "a 55 %, b 45 %" for a quantity.
func shareText(c *report.Trace, name string) string {
	var parts []string
	for _, d := range c.Changed {
		if d.New.Name != name {
			continue
		}
		for _, s := range d.Shares {
			parts = append(parts, s.Cause+" "+s.Shown)
		}
	}
	return strings.Join(parts, ", ")
}

// TestShares holds shares to what the averages come to by hand.
func TestShares(t *testing.T) {
	for _, c := range []struct{ name, old, now, want string }{
		// (2·5 → 3·7): a first adds 5, a last 7; b first adds 4, b last 6. So a has
		// 6 of 11 and b 5.
		{"product", "a = 2\nb = 5\nq = a * b", "a = 3\nb = 7\nq = a * b", "a 55 %, b 45 %"},
		// Alone neither adds anything; the second to come has all: half each.
		{"both needed", "a = false\nb = false\nq = if a and b then 1 else 0", "a = true\nb = true\nq = if a and b then 1 else 0", "a 50 %, b 50 %"},
		// 10 of 6 and −4 of 6.
		{"against each other", "a = 1\nb = 1\nq = a + b", "a = 11\nb = -3\nq = a + b", "a +10, b -4"},
		{"in its unit", "a = 1 g\nb = 1 g\nq [g] = a + b", "a = 5.62 g\nb = -3.93 g\nq [g] = a + b", "b -4.93 g, a +4.62 g"},
		{"on a scale", "a = 1 K\nb = 1 K\nq = 20 °C + a + b", "a = 5 K\nb = -2 K\nq = 20 °C + a + b", "a +4 K, b -3 K"},
		// 100 and −0.01: the small one is under the last place that is shown.
		{"one far smaller", "a = 1\nb = 1\nq = a + b", "a = 101\nb = 0.99\nq = a + b", "a +100, b -0.01"},
		{"one of three", "a = 1\nb = 1\nc = 1\nq = a", "a = 2\nb = 2\nc = 3\nq = a", "a 100 %"},
		// The first of three weighs 1/3, the second 1/6 after either other, the last 1/3:
		// a 1/3 + 3/6 + 4/6 + 12/3 = 5.5, b 2/3 + 4/6 + 8/6 + 16/3 = 8, c 3/3 + 6/6 + 9/6 + 18/3 = 9.5, of 23.
		{"product of three", "a = 1\nb = 1\nc = 1\nq = a * b * c", "a = 2\nb = 3\nc = 4\nq = a * b * c", "c 41 %, b 35 %, a 24 %"},
		// Of six, a first adds 1 and last 4, 2.5, so do b and c, and d, e and f add 1: 10.5
		// in all, where the whole adds 10.
		{"six, three of them together", "a = 1\nb = 1\nc = 1\nd = 0\ne = 0\nf = 0\nq = a * b * c + d + e + f",
			"a = 2\nb = 2\nc = 2\nd = 1\ne = 1\nf = 1\nq = a * b * c + d + e + f",
			"a 24 %, b 24 %, c 24 %, d 10 %, e 9 %, f 9 %"},
		{"a formula", "a = 2\nq = a + 1", "a = 4\nq = a + 2", "a 67 %, the formula of q 33 %"},
		{"a function", "f(x) = x\na = 2\nq = f(a)", "f(x) = x + 2\na = 4\nq = f(a)", "the formula of f(…) 50 %, a 50 %"},
		// A name that is new stands in every mixture: the formula that uses it has
		// changed.
		{"renamed", "a = 2\nq = 3 * a", "b = 2\nq = 4 * b", "the formula of q 100 %"},
		// One that hides a constant does not.
		{"hiding", "q = 2 * pi", "pi = 3\nq = 2 * pi", "pi 100 %"},
		// Of seven, each first adds as much as each last: 1, 2 … 7 of 28.
		{"seven", "a = 0\nb = 0\nc = 0\nd = 0\ne = 0\nf = 0\ng = 0\nq = a + b + c + d + e + f + g",
			"a = 1\nb = 2\nc = 3\nd = 4\ne = 5\nf = 6\ng = 7\nq = a + b + c + d + e + f + g",
			"g 25 %, f 21 %, e 18 %, d 14 %, c 11 %, b 7 %, a 4 %"},
		// Only b with the new a can be worked, and nothing is said of the parts.
		{"cannot be parted", "a = 4\nb = 4\nq = sqrt(a + b)", "a = -10\nb = 16\nq = sqrt(a + b)", ""},
		{"another unit", "a = 2 V\nb [V] = 1\nq = a + b", "a = 2 V\nb [mV] = 1000\nq = a + 2 * b", "the formula of q 100 %"},
	} {
		got := against(t, c.old, c.now)
		if text := shareText(got, "q"); text != c.want {
			t.Errorf("%s: %q, want %q (%v)", c.name, text, c.want, got.Causes)
		}
		for _, d := range got.Changed {
			sum, amount := 0.0, 0.0
			for _, s := range d.Shares {
				sum, amount = sum+s.Part, amount+s.Amount
			}
			if len(d.Shares) == 0 {
				continue
			}
			change := d.New.Value.(float64) - d.Old.Value.(float64)
			if math.Abs(sum-1) > 1e-12 || math.Abs(amount-change) > 1e-12 {
				t.Errorf("%s: shares of %s sum to %g, amounts to %g of %g", c.name, d.New.Name, sum, amount, change)
			}
		}
	}
}

func TestCauses(t *testing.T) {
	got := against(t, "a = 1 V\nb = 2\nw = \"x\"\nr = [1, 2]\ngone = 1\nq = a * b\ng = 1 V ± 0.1 V",
		"a [mV] = 1000\nb = 3\nw = \"y\"\nr = [1, 3]\nfresh = 2 * b\nq = a *  # twice\n  b\ng = 1 V ± 0.2 V")
	var texts []string
	for _, c := range got.Causes {
		texts = append(texts, c.Name+": "+c.Old+" > "+c.New)
	}
	want := []string{"b: 2 > 3", "w: x > y", "r: [1, 2] > [1, 3]", "g: 1 V ± 0.1 V > 1 V ± 0.2 V", "the formula of fresh:  > 2 * b", "gone: 1 > "}
	if !slices.Equal(texts, want) {
		t.Errorf("%q\nwant %q", texts, want)
	}
}

// TestCausesInTables traces cells, whole tables, CSV and used sheets.
func TestCausesInTables(t *testing.T) {
	const text = "use \"parts.md\"\nuse \"log.csv\" as log\nq = cells[\"A\"].mass + parts.strap + mean(log.m) + rows[2].m + sum(parts.more.m)"
	head := []string{"cell", "mass [g]", "width [mm]"}
	data := func(m string) *sheet.Sheet {
		return &sheet.Sheet{Name: "log.csv", Data: true, Tables: []*syntax.Table{kit.Table("log", []string{"m [g]"}, []string{"1"}, []string{m})}}
	}
	old := evaluate.Version{Sheet: kit.BlockWith("x.md", text, kit.Table("cells", head, []string{"A", "1", "5"}, []string{"B", "2", "5"}), kit.Table("rows", []string{"m [g]"}, []string{"1"}, []string{"2"})),
		Load: kit.Sheets{"parts.md": kit.BlockWith("parts.md", "strap = 1 g", kit.Table("more", []string{"m [g]"}, []string{"1"})), "log.csv": data("3")}}
	now := evaluate.Version{Sheet: kit.BlockWith("x.md", text, kit.Table("cells", head, []string{"A", "2", "5.0"}, []string{"B", "2", "6"}), kit.Table("rows", []string{"m [g]"}, []string{"1"}, []string{"4 g"})),
		Load: kit.Sheets{"parts.md": kit.BlockWith("parts.md", "strap = 4 g", kit.Table("more", []string{"m [g]"}, []string{"1"}, []string{"1"})), "log.csv": data("11")}}
	c := evaluate.Against(t.Context(), old, now)
	var texts []string
	for _, x := range c.Causes {
		texts = append(texts, x.Name+": "+x.Old+" > "+x.New)
	}
	want := []string{`cells["A"].mass: 1 g > 2 g`, `cells["B"].width: 5 mm > 6 mm`, "rows[2].m: 2 g > 4 g", "log.csv: 2 rows > 2 rows", "parts.strap: 1 g > 4 g", "the table parts.more: 1 row > 2 rows"}
	if !slices.Equal(texts, want) {
		t.Fatalf("%q\nwant %q", texts, want)
	}
	// 1 of the cell, 3 of the strap, 4 of the mean, 2 of the row, 1 of the table: of 11.
	if got := shareText(c, "q"); got != `log.csv 37 %, parts.strap 27 %, rows[2].m 18 %, cells["A"].mass 9 %, the table parts.more 9 %` {
		t.Error(got)
	}
}

// TestManyCauses holds the shares to their bounds.
func TestManyCauses(t *testing.T) {
	for _, c := range []struct {
		n    int
		told bool
	}{{attribute.MaxAverage, true}, {attribute.MaxAverage + 1, true}, {attribute.MaxCauses, true}, {attribute.MaxCauses + 1, false}} {
		var old, now, sum strings.Builder
		for i := range c.n {
			fmt.Fprintf(&old, "a%d = 1\n", i)
			fmt.Fprintf(&now, "a%d = 2\n", i)
			fmt.Fprintf(&sum, " + a%d", i)
		}
		tail := "q = 0" + sum.String()
		got := against(t, old.String()+tail, now.String()+tail)
		if text := shareText(got, "q"); (text != "") != c.told {
			t.Errorf("%d: %q", c.n, text)
		}
	}
}

// BenchmarkAgainst compares pages of which five inputs changed, the most that
// are averaged over all orders.
func BenchmarkAgainst(b *testing.B) {
	old, now := kit.Chain(30), kit.Chain(30)
	for i := range attribute.MaxAverage {
		line := &now.Blocks[0].Lines[2*i+1]
		line.Text = strings.Replace(line.Text, "1.0001", "1.001", 1)
	}
	b.ReportAllocs()
	for b.Loop() {
		if c := evaluate.Against(b.Context(), evaluate.Version{Sheet: old, Load: nil}, evaluate.Version{Sheet: now, Load: nil}); len(c.Causes) != attribute.MaxAverage || len(c.Changed) == 0 {
			b.Fatal(c.Causes)
		}
	}
}
