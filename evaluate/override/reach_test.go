package override_test

import (
	"fmt"
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
)

// reachText is a sheet whose numbers stand in calls and in a table.
const reachText = `use "parts.md" as spare
box(a [V], n) = a * n
inner = sqrt(stored_energy(12 F, 3 V) / (2 J))
outer = box(3 V, 2) + 1 V
twice = box(1 V, n: 2) + box(2 V, n: 3)
mix = max(2 V, 3 V) + box(1 V, inner)
pick = list[2]
list = [1 V, 2 V]
light = sum(parts.mass)
glue = spare.parts[1].mass
other = spare.box2
noted = box(5 V ± 0.2 V, n: 2)`

func reachSheet() (*sheet.Sheet, kit.Sheets) {
	table := func(file string, at int) *kit.Cells { return &kit.Cells{File: file, At: at} }
	s := kit.Block("reach.md", reachText)
	s.Tables = append(s.Tables, table("reach.md", 5000).Table("parts", []string{"part", "mass [g]", "kind"}, []string{"wing", "40", "balsa"}, []string{"tail", "?", "foam"}))
	used := kit.Block("parts.md", "box2 = sqrt(9 V^2)\nparts_total = sum(parts.mass)")
	used.Tables = append(used.Tables, table("parts.md", 6000).Table("parts", []string{"mass [g]"}, []string{"7"}))
	return s, kit.Sheets{"parts.md": used}
}

// TestReach tries numbers in calls and in cells, by hand worked.
func TestReach(t *testing.T) {
	for _, c := range []struct{ change, name, shown string }{
		{"outer(a)=4 V", "outer", "9 V"},
		{"outer(box.n)=5", "outer", "16 V"},
		{"inner(voltage) = 2 V", "inner", "3.464"},
		{"inner(stored_energy.capacitance)=48 F", "inner", "10.39"},
		{`parts["wing"].mass=44`, "parts", ""},
		{`parts["tail"].mass=2 g`, "light", "42 g"},
		{"spare.parts[1].mass=0.009 kg", "glue", "9 g"},
		{"mix(n)=3", "mix", "6 V"},
		{"noted(a)=6 V", "noted", "12 V"},
		{"noted(a)=6 V ± 0.4 V", "noted", "(12.00 ± 0.80) V"},
	} {
		s, files := reachSheet()
		r, problems := evaluate.WorkWith(t.Context(), s, files, []evaluate.Change{{Text: c.change}})
		if len(problems) > 0 {
			t.Errorf("%s: %v", c.change, problems)
			continue
		}
		if q := kit.Quantity(r, c.name); c.shown != "" && (q == nil || q.Shown != c.shown) {
			t.Errorf("%s: %+v, want %s", c.change, q, c.shown)
		}
	}
}

// TestReachTogether changes a row's cells, its column and a call at once.
func TestReachTogether(t *testing.T) {
	s, files := reachSheet()
	r, problems := evaluate.WorkWith(t.Context(), s, files, []evaluate.Change{
		{Text: "parts[wing].mass=30"}, {Text: "parts[2].mass=4"}, {Text: "outer(n)=3"}, {Text: "parts[2].kind=ply"}})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if got := kit.Quantity(r, "light").Shown + ", " + kit.Quantity(r, "outer").Shown; got != "34 g, 10 V" {
		t.Error(got)
	}
	again, files := reachSheet()
	if q := kit.Quantity(evaluate.Work(t.Context(), again, files), "outer"); q.Shown != "7 V" {
		t.Error("the sheet that was tried did not stay as it is:", q.Shown)
	}
}

// TestReachRefused wants told how what cannot be reached can be.
func TestReachRefused(t *testing.T) {
	for _, c := range []struct{ change, at, summary, hint string }{
		{"outer(m)=3", "outer(m)", "no call in `outer` is given `m`", "outer(a), outer(n)"},
		{"inner(capacitanc)=3", "", "no call", "did you mean `inner(capacitance)`"},
		{"twice(n)=3", "", "several calls in `twice` are given `n`", "a name of its own"},
		{"mix(n)=3 V", "3 V", "a voltage (V) in place of a pure number", ""},
		{"mix(values)=3 V", "", "is a list", "a name of its own"},
		{"list(x)=3", "", "`list` is no call", "write `list`"},
		{"pick(x)=3", "", "`pick` is no call", ""},
		{"outr(n)=3", "outr", "no quantity `outr`", "did you mean `outer`"},
		{"outer(n)=2 V", "2 V", "a voltage (V)", ""},
		{"outer()=2 V", "", "the name of an argument", ""},
		{"outer(n=2 V", "(", "", ""},
		{"outer(n) x=2", "x", "cannot stand", "`store(series)`"},
		{"outer(n).x=2", "", "", ""},
		{"parts[\"wing\"]=3", "parts[\"wing\"]", "not changed as a whole", "`parts[\"wing\"].mass`"},
		{"parts[\"wign\"].mass=3", "", "no row \"wign\" in `parts`", "did you mean `wing`"},
		{"parts[3].mass=3", "", "no row 3", ""},
		{"parts[1].mas=3", "", "no column `mas`", "did you mean `mass`"},
		{"parts[1].part=fin", "", "found by its first cell", ""},
		{"parts[1].mass=3 V", "3 V", "a voltage (V) where a mass", ""},
		{"parts[1].mass=many", "many", "", ""},
		{"light[1].mass=3", "", "`light` is no table", ""},
		{"spare.parts[2].mass=3", "", "no row 2", ""},
		{"light=3", "", "worked from others", ""},
	} {
		s, files := reachSheet()
		_, problems := evaluate.WorkWith(t.Context(), s, files, []evaluate.Change{{Text: c.change}})
		if len(problems) != 1 {
			t.Errorf("%s: %v", c.change, problems)
			continue
		}
		p := problems[0]
		if p.Span.File != "try: "+c.change || p.Span.Start < 0 || p.Span.End > len(c.change) {
			t.Errorf("%s: told at %v", c.change, p.Span)
			continue
		}
		at := c.change[p.Span.Start:p.Span.End]
		if c.at != "" && at != c.at || !strings.Contains(p.Summary, c.summary) || !strings.Contains(p.Hint, c.hint) {
			t.Errorf("%s: %q %s | %s", c.change, at, p.Summary, p.Hint)
		}
	}
}

// TestInputs wants each listed input to change by its address, and its place to be
// what stands there.
func TestInputs(t *testing.T) {
	s, files := reachSheet()
	var addresses []string
	for _, in := range evaluate.Inputs(t.Context(), s, files) {
		addresses = append(addresses, in.Address+" "+in.Text)
		if digits := in.Digits; digits != (message.Span{}) && in.Kind != report.InCell && in.Path == s.Name {
			if got := s.Text(digits); !strings.Contains(in.Text, got) || strings.Trim(got, "-0123456789.") != "" {
				t.Errorf("%s: digits %q of %q", in.Address, got, in.Text)
			}
		}
		text := in.Text
		if text == "?" {
			text = "1"
		}
		again, files := reachSheet()
		if _, problems := evaluate.WorkWith(t.Context(), again, files, []evaluate.Change{{Text: in.Address + "=" + text}}); len(problems) > 0 {
			t.Errorf("%s=%s: %v", in.Address, text, problems)
		}
	}
	want := "inner(capacitance) 12 F, inner(voltage) 3 V, outer(a) 3 V, outer(n) 2, " +
		"mix(a) 1 V, list [1 V, 2 V], noted(a) 5 V ± 0.2 V, noted(n) 2, " +
		`parts["wing"].mass 40, parts["wing"].kind balsa, parts["tail"].mass ?, parts["tail"].kind foam, ` +
		"spare.box2(x) 9 V^2, spare.parts[1].mass 7"
	if got := strings.Join(addresses, ", "); got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
}

// TestManyChanges helps with the first of many unknown names and of many that are worked
// from others; with all of them that would be a square of the sheet.
func TestManyChanges(t *testing.T) {
	const n = 1000
	var text strings.Builder
	text.WriteString("quantity0 = 1\nworked0 = quantity0 + 1\n")
	for i := 1; i < n; i++ {
		fmt.Fprintf(&text, "quantity%d = 1\nworked%d = worked%d + 1\n", i, i, i-1)
	}
	var changes []evaluate.Change
	for i := range n {
		changes = append(changes, evaluate.Change{Text: fmt.Sprintf("quantitty%d=2", i)}, evaluate.Change{Text: fmt.Sprintf("worked%d=2", n-1-i)})
	}
	_, problems := evaluate.WorkWith(t.Context(), kit.Block("many.md", text.String()), nil, changes)
	if len(problems) != len(changes) {
		t.Fatalf("%d problems of %d changes", len(problems), len(changes))
	}
	for i, want := range map[int]string{
		0:       "did you mean `quantity0`?",
		1:       "replace one of those that it is worked from: quantity0",
		2*n - 2: "its plain values are quantity0, quantity1, quantity2",
		2*n - 1: "replace a plain value that it is worked from",
	} {
		if got := problems[i].Hint; !strings.HasPrefix(got, want) {
			t.Errorf("%d: %q, want %q", i, got, want)
		}
	}
}

// TestManyWays lists the first of many calls that are given an argument.
func TestManyWays(t *testing.T) {
	var text strings.Builder
	sum := "q = 1"
	for i := range 20 {
		fmt.Fprintf(&text, "f%d(x) = x\n", i)
		sum += fmt.Sprintf(" + f%d(1)", i)
	}
	_, problems := evaluate.WorkWith(t.Context(), kit.Block("many.md", text.String()+sum), nil, []evaluate.Change{{Text: "q(x)=2"}, {Text: "q(zzzzzz)=2"}})
	want := []string{
		"say which: `q(f0.x)` or `q(f1.x)` or `q(f2.x)` or `q(f3.x)` or `q(f4.x)` or `q(f5.x)` or `q(f6.x)` or `q(f7.x)` or …",
		"what can be changed in it is q(f0.x), q(f1.x), q(f2.x), q(f3.x), q(f4.x), q(f5.x), q(f6.x), q(f7.x), …",
	}
	for i, p := range problems {
		if i < len(want) && p.Hint != want[i] {
			t.Errorf("%q, want %q", p.Hint, want[i])
		}
	}
	if len(problems) != len(want) {
		t.Errorf("%v", problems)
	}
}
