package layout

import (
	"strings"
	"testing"

	"inkwing/evaluate/message"
)

var rows = []Change{
	{Name: "n_series", Old: "4", New: "5", Share: "+25 %"},
	{Name: "E_full", Old: "0.1736 Wh", New: "0.1389 Wh", Share: "-20 %"},
	{Name: "store", Old: "worked", New: "—", Aside: "(waits for cells)"},
	{Name: "a_very_long_name.of_a.field_in_it", Old: "(0.1736 ± 0.0035) Wh", New: "(0.2000 ± 0.0050) Wh", Share: "+15 %", Under: "n_series 80 %, V_full 20 %, and whatever else there was"},
	{Name: "fresh", New: "1 s", Aside: "(new)"},
}

// TestChanges sets one table at three widths.
func TestChanges(t *testing.T) {
	for width, want := range map[int]string{
		80: `  n_series          4 → 5          +25 %
  E_full    0.1736 Wh → 0.1389 Wh  -20 %
  store        worked → —  (waits for cells)
  a_very_long_name.of_a.field_in_it  (0.1736 ± 0.0035) Wh → (0.2000 ± 0.0050) Wh
    +15 %
    n_series 80 %, V_full 20 %, and whatever else there was
  fresh           1 s  (new)
`,
		60: `  n_series          4 → 5          +25 %
  E_full    0.1736 Wh → 0.1389 Wh  -20 %
  store        worked → —  (waits for cells)
  a_very_long_name.of_a.field_in_it
    (0.1736 ± 0.0035) Wh → (0.2000 ± 0.0050) Wh  +15 %
    n_series 80 %, V_full 20 %, and whatever else there was
  fresh           1 s  (new)
`,
		40: `  n_series          4 → 5          +25 %
  E_full    0.1736 Wh → 0.1389 Wh  -20 %
  store  worked → —  (waits for cells)
  a_very_long_name.of_a.field_in_it
    (0.1736 ± 0.0035) Wh
    → (0.2000 ± 0.0050) Wh  +15 %
    n_series 80 %, V_full 20 %, and
    whatever else there was
  fresh           1 s  (new)
`,
	} {
		if got := Changes(rows, width); got != want {
			t.Errorf("at %d:\n%s\nwant\n%s", width, got, want)
		}
	}
}

// TestColoured holds that colours move nothing.
func TestColoured(t *testing.T) {
	bare := strings.NewReplacer("\x1b[2m", "", "\x1b[0m", "")
	var painted []Change
	for _, row := range rows {
		row.Name, row.Share, row.Aside = "\x1b[2m"+row.Name+"\x1b[0m", "\x1b[2m"+row.Share+"\x1b[0m", "\x1b[2m"+row.Aside+"\x1b[0m"
		painted = append(painted, row)
	}
	for i := range painted {
		if rows[i].Share == "" {
			painted[i].Share = ""
		}
		if rows[i].Aside == "" {
			painted[i].Aside = ""
		}
	}
	if got := bare.Replace(Changes(painted, Most)); got != Changes(rows, Most) {
		t.Errorf("got\n%s", got)
	}
}

func TestNames(t *testing.T) {
	list := [][2]string{{"a", "first of all, and then some more of it"}, {"a_long_name_here", "second"}, {"bare", ""}}
	want := "  a     first of all, and then some more\n        of it\n  a_long_name_here\n        second\n  bare\n"
	if got := Names(list, 40); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// FuzzWidth holds every line to the width, unless a single word is longer.
func FuzzWidth(f *testing.F) {
	f.Add("a limit that does not hold", "worked 3.333 V", "漢字 μ", 40)
	f.Fuzz(func(t *testing.T, a, b, c string, width int) {
		a, b, c = message.Visible(a), message.Visible(b), message.Visible(c)
		width = Least + (width%41+41)%41
		out := Wrap(a+" "+b, "  ", width) + Flow([]string{a, b, c}, "  ", "    ", width) +
			Names([][2]string{{"name", a + " " + b + " " + c}}, width) +
			Changes([]Change{{Name: a, Old: b, New: c, Share: "+1 %", Aside: a}, {Name: "x", Old: "1", New: "2"}}, width)
		for line := range strings.Lines(out) {
			line = strings.TrimRight(line, "\n")
			if message.Columns(line) > width && len(strings.Fields(line)) > 1 && !strings.Contains(line, "name") {
				t.Errorf("%d columns of %d: %q", message.Columns(line), width, line)
			}
		}
	})
}
