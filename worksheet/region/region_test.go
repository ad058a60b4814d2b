package region

import (
	"strings"
	"testing"

	"inkwing/evaluate/report"
)

// Widths as string-width and the common formatter count them (tried with
// string-width 7 and formatter versions 2.8 to 3.10).
func TestWidth(t *testing.T) {
	for text, want := range map[string]int{
		"": 0, "abc": 3, "° µ Ω ± × · ≤ ≈ √ Δ ² ⁻¹": 24, "… — “ ” → ⇒ ✓ ① ■": 17,
		"温": 2, "한": 2, "Ａ": 2, "（": 2, "\u3000": 2, "℃ ℉": 3, "e\u0301": 1, "V\u0307": 1, "x\ty": 2,
	} {
		if got := Width(text); got != want {
			t.Errorf("%q: %d, want %d", text, got, want)
		}
	}
}

func TestTableLayout(t *testing.T) {
	table := table{
		columns: []column{{"a", false}, {"Value", true}, {"温度", false}},
		rows:    [][]string{{"", "1 V", "（x）"}, {"`long_name`", "−3", "é"}},
	}
	want := `| a           | Value | 温度  |
| :---------- | ----: | :---- |
|             |   1 V | （x） |
| ` + "`long_name`" + ` |    −3 | é     |`
	if got := strings.Join(table.lines(), "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestFree(t *testing.T) {
	for text, want := range map[string]string{
		"plain text":                       "plain text",
		" two  blanks\r\nand\tso ":         "two blanks and so",
		"a*b":                              `a\*b`,
		"see V_max, then":                  "see `V_max`, then",
		"store.r_i.":                       "`store.r_i`.",
		"x _ y":                            `x \_ y`,
		"1_000 and x_1 `V_x`":              "1_000 and `x_1` `V_x`",
		"`a|b` is `c` too":                 "`a\\|b` is `c` too",
		"`a`V_x `b`":                       "`a`V_x `b`",
		"one ` only, V_x":                  "one \\` only, V_x",
		"`` x ``":                          "\\`\\` x \\`\\`",
		"`a``b`":                           "\\`a\\`\\`b\\`",
		"[x](y) <b> a|b ~c~ $5":            `\[x\](y) \<b\> a\|b \~c\~ \$5`,
		"R & D &lt;":                       "R &amp; D &amp;lt;",
		`C:\dir`:                           `C:\\dir`,
		"see https://example.org/a_b?c=d.": "see <https://example.org/a_b?c=d>.",
		"a\u202eb\u200bc\x1b⚠ ™":           "abc",
	} {
		if got := free(text, inCell); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

func TestCode(t *testing.T) {
	for _, c := range []struct {
		text, want string
		in         where
	}{
		{"V_full", "`V_full`", inCell}, {"a || b", "`a \\|\\| b`", inCell}, {"a || b", "`a || b`", inParagraph},
		{"x`y", "x\\`y", inCell}, {`x\y|`, `x\\y\|`, inCell}, {" a  b ", "`a b`", inParagraph}, {"", "", inCell},
	} {
		if got := code(c.text, c.in); got != c.want {
			t.Errorf("%q: got %q, want %q", c.text, got, c.want)
		}
	}
}

func TestSame(t *testing.T) {
	is := []string{"| a | b |", "| :-- | --: |", "| `x_1` | 1 V |", "", "> [!NOTE]", ">", "> Note: one two.", "", "Note: a_b."}
	for name, c := range map[string]struct {
		old    string
		quotes int
		want   bool
	}{
		"padded":            {"\n|  a |   b |\n|:----|-----:|\n|`x_1`|1 V|\n\n> [!NOTE]\n>\n> Note: one\n> two.\n\nNote: a\\_b.\n", 0, true},
		"CRLF":              {strings.Join(is, "\r\n"), 0, true},
		"in a quote":        {"> " + strings.Join(is, "\n> "), 1, true},
		"in a list":         {"   " + strings.Join(is, "\n   "), 0, true},
		"other number":      {strings.Replace(strings.Join(is, "\n"), "1 V", "2 V", 1), 0, false},
		"other alignment":   {strings.Replace(strings.Join(is, "\n"), "--:", "---", 1), 0, false},
		"other kind":        {strings.Replace(strings.Join(is, "\n"), "NOTE", "WARNING", 1), 0, false},
		"out of its quote":  {strings.ReplaceAll(strings.Join(is, "\n"), "> ", ""), 0, false},
		"row gone":          {strings.Replace(strings.Join(is, "\n"), "| `x_1` | 1 V |\n", "", 1), 0, false},
		"paragraphs merged": {strings.Replace(strings.Join(is, "\n"), ">\n", "", 1), 0, false},
		"more":              {strings.Join(is, "\n") + "\n\nmine\n", 0, false},
		"empty":             {"\n", 0, false},
	} {
		if got := Same(strings.Split(c.old, "\n"), c.quotes, is); got != c.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}

func TestNothingToSay(t *testing.T) {
	if got := Lines(report.Block{}, false); got != nil {
		t.Errorf("%q", got)
	}
}

// TestStraddle wants a word at a limit whose bound lies within the interval.
func TestStraddle(t *testing.T) {
	b := report.Block{Limits: []report.Limit{
		{Text: "a <= b", Value: "1 V", Allowed: "2 V", Headroom: "50 %", Holds: true, Straddle: true},
		{Text: "b <= a", Value: "2 V", Allowed: "1 V", Headroom: "-100 %", Straddle: true},
		{Text: "a <= c", Value: "1 V", Allowed: "9 V", Headroom: "89 %", Holds: true},
		{Text: "r <= c", Holds: true, Never: true},
	}}
	want := "| Limit    | Worked | Allowed | Headroom | Verdict                                         |\n" +
		"| :------- | -----: | ------: | -------: | :---------------------------------------------- |\n" +
		"| `a <= b` |    1 V |     2 V |     50 % | kept, but not for all of the interval           |\n" +
		"| `b <= a` |    2 V |     1 V |   -100 % | **broken**, but kept for a part of the interval |\n" +
		"| `a <= c` |    1 V |     9 V |     89 % | kept                                            |\n" +
		"| `r <= c` |      — |       — |        — | does not arise                                  |"
	if got := strings.Join(Lines(b, false), "\n"); !strings.HasPrefix(got, want) {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// TestLimits leaves out of the table of limits what stands in it already: the
// verdict where all are kept, and what a limit itself allows.
func TestLimits(t *testing.T) {
	kept := func(text, value, allowed, room string) report.Limit {
		return report.Limit{Text: text, Value: value, Allowed: allowed, Headroom: room, Holds: true}
	}
	typed, named := kept("U <= 9 V", "8 V", "9 V", "11 %"), kept("U <= U_max", "8 V", "9 V", "11 %")
	for _, c := range []struct {
		list []report.Limit
		want string
	}{
		{[]report.Limit{typed, kept("4 V <= U <= 9 V", "8 V", "4 V to 9 V", "11 %"), kept("9 V > U", "8 V", "9 V", "11 %")},
			"Limit Worked Kept by;~U <= 9 V~ 8 V 11 %;~4 V <= U <= 9 V~ 8 V 11 %;~9 V > U~ 8 V 11 %"},
		{[]report.Limit{typed, named}, "Limit Worked Allowed Kept by;~U <= 9 V~ 8 V  11 %;~U <= U_max~ 8 V 9 V 11 %"},
		// A number that closes the line is no bound of its own, nor is a half of one.
		{[]report.Limit{kept("U <= 0 V + 9 V", "8 V", "9 V", "11 %")}, "Limit Worked Allowed Kept by;~U <= 0 V + 9 V~ 8 V 9 V 11 %"},
		{[]report.Limit{kept("4 V <= U <= U_max", "8 V", "4 V to 9 V", "11 %")}, "Limit Worked Allowed Kept by;~4 V <= U <= U_max~ 8 V 4 V to 9 V 11 %"},
		{[]report.Limit{typed, kept("U > 0 V", "8 V", "0 V", "—")}, "Limit Worked Headroom Verdict;~U <= 9 V~ 8 V 11 % kept;~U > 0 V~ 8 V — kept"},
		{[]report.Limit{typed, {Text: "U <= 7 V", Value: "8 V", Allowed: "7 V", Headroom: "-14 %"}},
			"Limit Worked Headroom Verdict;~U <= 9 V~ 8 V 11 % kept;~U <= 7 V~ 8 V -14 % **broken**"},
	} {
		var got []string
		for i, line := range Lines(report.Block{Limits: c.list}, false) {
			if i != 1 {
				got = append(got, strings.Join(cellsOf(line), " "))
			}
		}
		if text := strings.ReplaceAll(strings.Join(got, ";"), "`", "~"); text != c.want {
			t.Errorf("got  %s\nwant %s", text, c.want)
		}
	}
}

// TestListedLimits wants a line for the limits that an overview lists as kept, and
// every other one in full.
func TestListedLimits(t *testing.T) {
	ratio := func(x float64) *report.Margin { return &report.Margin{Ratio: &x} }
	a := report.Limit{Text: "a <= 2", Holds: true, Headroom: "20 %", Margin: ratio(0.2)}
	b := report.Limit{Text: "b <= 2", Holds: true, Headroom: "3 %", Margin: ratio(0.03)}
	none := report.Limit{Text: "c > 0", Holds: true, Headroom: "—", Margin: &report.Margin{}}
	broken := report.Limit{Text: "d <= 2", Value: "3", Allowed: "2", Headroom: "-50 %", Margin: ratio(-0.5)}
	unsure := report.Limit{Text: "e <= 2", Value: "2", Allowed: "2", Headroom: "0 %", Holds: true, Straddle: true}
	waits := report.Limit{Text: "f <= 2", State: report.Waiting}
	for _, c := range []struct {
		list []report.Limit
		want string // the sentence
		full string // the limits that stand in full
	}{
		{[]report.Limit{a}, "Limit kept, headroom 20 %.", ""},
		{[]report.Limit{a, b, none}, "3 limits kept, least headroom 3 %.", ""},
		{[]report.Limit{none}, "Limit kept.", ""},
		{[]report.Limit{none, none}, "2 limits kept.", ""},
		{[]report.Limit{a, broken}, "1 other limit kept, headroom 20 %.", "d <= 2"},
		{[]report.Limit{a, unsure, b, waits}, "2 other limits kept, least headroom 3 %.", "e <= 2,f <= 2"},
		{[]report.Limit{broken}, "", "d <= 2"},
	} {
		lines, full, said := Lines(report.Block{Limits: c.list, Listed: true}, false), []string{}, ""
		for _, v := range Values(lines, 0) {
			full = append(full, v.Name)
		}
		if last := lines[len(lines)-1]; !strings.HasPrefix(last, "|") {
			said = last
		}
		if said != c.want || strings.Join(full, ",") != c.full {
			t.Errorf("%q and in full %q, want %q and %q", said, full, c.want, c.full)
		}
		if at := Typed(lines, 0, nil); at >= 0 {
			t.Errorf("taken for a builder's own: %s", lines[at])
		}
	}
	if lines := Lines(report.Block{Limits: []report.Limit{a}, Listed: true, Overview: &report.Overview{Summary: "In short."}}, false); len(lines) != 1 {
		t.Errorf("beside the overview itself: %q", lines)
	}
}

// TestDetails wants what only has room elsewhere left out of a region.
func TestDetails(t *testing.T) {
	lines := Lines(report.Block{Tables: []report.Table{{Verb: "measured",
		Columns: []report.Column{{Head: "Measured", Code: true}, {Head: "%", Number: true, Detail: true}, {Head: "Verdict"}},
		Rows:    [][]string{{"U", "3 %", "agree"}, {"I"}}, Notes: []string{"so"}, Details: []string{"at length"}}}}, false)
	want := "| Measured | Verdict |\n| :------- | :------ |\n| `U`      | agree   |\n| `I`      |         |\n\nSo."
	if got := strings.Join(lines, "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// TestStates has rows without a value, and their notes.
func TestStates(t *testing.T) {
	b := report.Block{
		Rows: []report.Quantity{
			{Name: "a", State: report.Waiting, Waits: "V_x", Shown: "—", Note: "by hand"},
			{Name: "b", State: report.Failed, Shown: "—"},
		},
		Limits: []report.Limit{{Text: "a <= b", State: report.Waiting, Waits: "a"}},
	}
	want := "| Quantity | Value | Note                     |\n" +
		"| :------- | ----: | :----------------------- |\n" +
		"| `a`      |     — | waits for `V_x`; by hand |\n" +
		"| `b`      |     — | not worked               |\n\n" +
		"| Limit    | Worked | Allowed | Headroom | Verdict       |\n" +
		"| :------- | -----: | ------: | -------: | :------------ |\n" +
		"| `a <= b` |      — |       — |        — | waits for `a` |"
	if got := strings.Join(Lines(b, false), "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// TestWhatIfs lays out the table of a study, and one that waits.
func TestWhatIfs(t *testing.T) {
	b := report.Block{Tables: []report.Table{
		{Verb: "vary", Name: "s_1", Columns: []report.Column{{Head: "`ride.time [s]`", Number: true}, {Head: "cell", Code: true}, {Head: "Note"}},
			Rows: [][]string{{"12.5", "B50", ""}, {"—", "B_60", "breaks `a || b`"}}, Notes: []string{"each value is `x [V]`."}},
		{Verb: "adjust", State: report.Waiting, Waits: "ride"},
		{Verb: "tune", State: report.Failed},
	}}
	want := "Table `s_1`:\n\n" +
		"| `ride.time [s]` | cell   | Note              |\n" +
		"| --------------: | :----- | :---------------- |\n" +
		"|            12.5 | `B50`  |                   |\n" +
		"|               — | `B_60` | breaks `a \\|\\| b` |\n\n" +
		"Each value is `x [V]`.\n\n" +
		"What `adjust` finds waits for `ride`."
	lines := Lines(b, false)
	if got := strings.Join(lines, "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	padded := strings.Split(strings.ReplaceAll(want, " | ", "   |  "), "\n")
	if !Same(padded, 0, lines) {
		t.Error("padding made it another table")
	}
	changed := strings.Split(strings.ReplaceAll(want, "12.5", "12.6"), "\n")
	if Same(changed, 0, lines) {
		t.Error("another number made no other table")
	}
}
