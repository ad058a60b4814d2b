package region

import (
	"os"
	"strings"
	"testing"
)

// now is what a region will say; its numbers were others when it was written.
var now = strings.Split(strings.ReplaceAll(`| Quantity | Value | Note |
| :------- | ----: | :--- |
| ~E~      | 900 J |      |
| ~kind~   |  3 mm disc |   |

| Limit      | Worked | Allowed | Headroom |
| :--------- | -----: | ------: | -------: |
| ~E <= 1 kJ~ |  900 J |    1 kJ |     10 % |

Table ~ways~:

| ~n~ | ~U [V]~ |
| --: | ------: |
|   3 |      10 |

d is the difference in standard uncertainties of the two together: up to 2 they agree, up to 3 it is doubtful, beyond they disagree.

> [!CAUTION]
>
> Caution: It holds 900 J, and lets go of them at once. Short it only over a resistor.`, "~", "`"), "\n")

// TestTyped has regions of before, each with a line that is no run's, marked by ☞,
// or with none.
func TestTyped(t *testing.T) {
	for name, text := range map[string]string{
		"nothing":              "",
		"as it was":            "| Quantity | Value |\n| :- | -: |\n| ~E~ | 625 J |\n| ~gone~ | 3 V |\n| ~kind~ | 4 mm disc |",
		"in two lines":         "d is the difference in standard uncertainties of the two together: up to 2 they\nagree, up to 3 it is doubtful, beyond they disagree.",
		"in three lines":       "> [!WARNING]\n>\n> Warning: The wire carries 12 A/mm², above\n> 10 A/mm². Small enclosed coils bear 4 to 6\n> A/mm² for long.",
		"a sentence a line":    "> [!WARNING]\n>\n> Warning: The wire carries 12 A/mm², above 10 A/mm².\n> Small coils bear 4 to 6.",
		"other tables":         "| Input | Value | u |\n| :- | -: | -: |\n| ~m~ | 3 g | 1 g |\n\n| ~n~ | powered time [s] | Note |\n| -: | -: | :- |\n| 3 | 10 | breaks ~x~ |",
		"by a merge":           "<<<<<<< ours\n| ~E~ | 1 J |\n=======\n| ~E~ | 2 J |\n>>>>>>> theirs\nanything",
		"waits":                "Chart The charge: waits for ~t~.\n\nWhat ~tune~ finds waits for ~x~.\n\n![E of U](notes.charts/e.svg)",
		"in a list":            "**Caution:** It holds 625 J.",
		"a sentence":           "Table ~ways~:\n\n☞Measured again on Sunday.",
		"a heading":            "☞## Sunday",
		"a list":               "☞- check the lead\n- and the plug",
		"a rule":               "| Quantity | Value |\n| :- | -: |\n| ~E~ | 625 J |\n\n☞---",
		"a quote":              "☞> That is what he said",
		"a table":              "☞| Day | Wind |\n| :- | :- |\n| Sunday | none |",
		"a row":                "| Quantity | Value |\n| :- | -: |\n| ~E~ | 625 J |\n☞| Sunday | 630 J |",
		"a row of one":         "| Quantity | Value |\n| :- | -: |\n☞| ~E~ |",
		"a cell":               "| Quantity | Value |\n| :- | -: |\n☞| ~E~ | 625 J | Sunday |",
		"beside a value":       "| Quantity | Value |\n| :- | -: |\n☞| ~E~ | 625 J (checked) |",
		"rows without heading": "☞| 3 | 4 |\n| 5 | 6 |",
		"under a sentence":     "d is the difference in standard uncertainties of the two together: up to 2 they agree, up to 3 it is doubtful, beyond they disagree.\n☞Not so sure.",
		"in a short line":      "What ~tune~ finds waits for the store,\n☞which\nI weighed on Sunday and on Monday and again on Tuesday.",
		"in a callout":         "> [!CAUTION]\n>\n> Caution: It holds 900 J, and lets go of them at once. Short it only over a resistor.\n>\n☞> and mind the dog",
		"kept in short":        "2 limits kept, least headroom 3 %.",
		"kept, of old":         "Limit kept, headroom 12 %.",
		"kept, by hand":        "☞Limit kept, said the meter.",
		"rough":                "> [!NOTE]\n>\n> Rough intervals (most of it is the hard limits of ~C~, which no bell curve describes): ~a~ and ~b~.",
		"kept by":              "| Limit | Worked | Kept by |\n| :- | -: | -: |\n| ~E <= 2 kJ~ | 9 J | 1 % |",
		"a limit":              "| Limit | Worked | Allowed | Headroom |\n| :- | -: | -: | -: |\n☞| my own | 1 | 2 | 3 |",
	} {
		text, want := strings.ReplaceAll(text, "~", "`"), -1
		if before, _, found := strings.Cut(text, "☞"); found {
			want = strings.Count(before, "\n")
		}
		lines := strings.Split(strings.ReplaceAll(text, "☞", ""), "\n")
		if got := Typed(lines, 0, now); got != want {
			t.Errorf("%s: line %d, want %d of\n%s", name, got, want, text)
		}
		for i := range lines {
			lines[i] = "> " + lines[i]
		}
		if got := Typed(lines, 1, now); got != want {
			t.Errorf("%s, in a quote: line %d, want %d", name, got, want)
		}
	}
	if got := Typed(now, 0, now); got != -1 {
		t.Errorf("what it will say: line %d", got)
	}
	if got := Typed(now, 0, nil); got != -1 {
		t.Errorf("what it said: line %d", got)
	}
}

// TestTypedFormerly has every kind of table and paragraph that runs wrote into our
// samples since the first one.
func TestTypedFormerly(t *testing.T) {
	text, err := os.ReadFile("testdata/formerly.txt")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(text), "\n")
	if at := Typed(lines, 0, nil); at >= 0 {
		t.Errorf("line %d is taken for a builder's own: %s", at+1, lines[at])
	}
}

func FuzzTyped(f *testing.F) {
	f.Add(strings.Join(now, "\n"), 0)
	f.Add("a\n|", 2)
	f.Fuzz(func(t *testing.T, text string, quotes int) {
		lines := strings.Split(text, "\n")
		if at := Typed(lines, quotes%9, now); at < -1 || at >= len(lines) {
			t.Errorf("line %d of %d", at, len(lines))
		}
		if at := Typed(lines, quotes%9, lines); quotes%9 == 0 && at >= 0 && !strings.Contains(text, "|") && strings.Count(text, "\n") == 0 {
			t.Errorf("what it will say is taken for typed: %q", text)
		}
	})
}
