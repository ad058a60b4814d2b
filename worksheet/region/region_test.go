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
