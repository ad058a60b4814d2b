package worksheet

import (
	"math"
	"slices"
	"strings"
	"testing"

	"inkwing/evaluate/report"
)

// shownBefore has old results in a region, in a quote, in the prose and in an
// example of a region inside a fence, which is no region.
const shownBefore = `The pack holds ~E [J] = 625 J~, its half ~half [J] = 313 J~, its wings ~w [J] = ?~.

~~~working
V = 12 V
C = 12.5 F
E [J] = 1/2 * C * V^2
half [J] = E / 2
w [J] = E / 9
~~~

<!-- worked: rewritten by every run -->

| Quantity | Value |
| :- | -: |
| ~E~ | 625 J |
| ~gone~ | 1 V |

<!-- /worked -->

> ~~~working
> kind = E > 1 J
> zero [°C] = 20 °C + C / 1.25 F * 1 K
> ~~~
>
> <!-- worked: rewritten by every run -->
>
> | Quantity | Value |
> | :- | -: |
> | ~kind~ | no |
> | ~zero~ | 20 °C |
>
> <!-- /worked -->

A region looks like this:

~~~markdown
<!-- worked: rewritten by every run -->

| Quantity | Value |
| :- | -: |
| ~E~ | 3 J |

<!-- /worked -->
~~~
`

// TestChanges takes what changed from the regions of the file and the numbers of
// the report; an example of a region in a fence is none.
func TestChanges(t *testing.T) {
	text := strings.NewReplacer("~~~", "```", "~", "`").Replace(shownBefore)
	r := WorkText(t.Context(), nil, "notes.md", []byte(text))
	if len(r.Refused) > 0 || len(r.Report.Errors) > 0 {
		t.Fatal(r.Refused, r.Report.Errors)
	}
	var got []string
	for _, c := range r.Changes {
		got = append(got, c.Name+" "+c.Old+" → "+c.New+" "+report.Percent(c.Share))
	}
	want := []string{"kind no → yes ", "zero 20 °C → 30 °C ", "E 625 J → 900 J +44 %", "half 313 J → 450 J +44 %"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if again := WorkText(t.Context(), nil, "notes.md", r.Output); len(again.Changes) > 0 || again.Changed() {
		t.Errorf("a second run changes %v", again.Changes)
	}
}

// TestShare compares a text with a number: from zero, on a temperature scale and
// between dimensions there is none.
func TestShare(t *testing.T) {
	worked := func(x float64) *report.Quantity { return &report.Quantity{Value: x} }
	for _, test := range []struct {
		old, now string
		q        *report.Quantity
		want     float64
	}{
		{"625 J", "900 J", nil, 0.44}, {"12.5 F", "14 F", worked(14), 0.12}, {"950 mF", "1.2 F", nil, 1.2/0.95 - 1},
		{"12.5 F", "13 F", worked(13.04), 13.04/12.5 - 1}, {"-2 V", "1 V", nil, 1.5}, {"1 J", "1 Wh", nil, 3599},
		{"(0.1736 ± 0.0035) Wh", "0.2 Wh", nil, 0.2/0.1736 - 1},
		{"20 °C", "30 °C", worked(303.15), math.NaN()}, {"0 V", "1 V", nil, math.NaN()}, {"yes", "no", nil, math.NaN()},
		{"—", "4 V", nil, math.NaN()}, {"4 V", "5 A", nil, math.NaN()}, {"4 V", "—", nil, math.NaN()},
	} {
		got := share(test.old, test.now, test.q)
		if math.IsNaN(got) != math.IsNaN(test.want) || math.Abs(got-test.want) > 1e-9 {
			t.Errorf("%s → %s: %v, want %v", test.old, test.now, got, test.want)
		}
	}
}

// TestChangesOfLimits tells what a limit came to where an overview that is new lists
// it, and its block said it before.
func TestChangesOfLimits(t *testing.T) {
	const block = "```working\nU = 8 V\nlimit U <= 9 V\n```\n"
	old := string(WorkText(t.Context(), nil, "notes.md", []byte(block)).Output)
	text := "```working\noverview\n```\n\n" + strings.Replace(old, "8 V", "7 V", 1)
	r := WorkText(t.Context(), nil, "notes.md", []byte(text))
	if len(r.Changes) != 1 || r.Changes[0].Name != "U <= 9 V" || r.Changes[0].Old != "8 V" || r.Changes[0].New != "7 V" || !r.Changes[0].Limit {
		t.Errorf("%v of\n%s", r.Changes, r.Output)
	}
	if text := string(r.Output); strings.Count(text, "| `U <= 9 V` |") != 1 || !strings.Contains(text, "\nLimit kept, headroom 22 %.\n") {
		t.Error(text)
	}
}
