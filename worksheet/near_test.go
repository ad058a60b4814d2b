package worksheet

import (
	"slices"
	"testing"

	"inkwing/worksheet/markdown"
)

// TestNearMisses wants what is nearly ours told at its place, and nothing else.
func TestNearMisses(t *testing.T) {
	const cells = "\n\n| cell | mass [g] |\n| --- | --- |\n| A | 3 |\n"
	const block = "```working\nb = 2 V * 3\ns = \"x\"\nn = 3\nT = 20 °C\nlist = [1, 2]\n```\n\n"
	for _, c := range []struct {
		text string
		want []string // the text at each note, and what mends it
	}{
		{"```Working\na = 1\n```\n", []string{"```Working", "write `working`, in small letters, behind the ticks"}},
		{"> - ~~~ WORKINGS x\n>   a = 1\n>   ~~~\n", []string{"~~~ WORKINGS x", "write `working`, in small letters, behind the ticks"}},
		{"```workings\n```\n\n" + block + "```wOrking", []string{"```workings", "write `working`, in small letters, behind the ticks", "```wOrking", "write `working`, in small letters, behind the ticks"}},
		{"````md\n```Working\n```\n````\n", nil},
		{"```workingss\n```\n\n``` go Working\n```\n\nWorking ```Worker``` `Working`\n", nil},
		{block + "<!-- table cells -->" + cells, []string{"<!-- table cells -->", "write `<!-- table: cells -->`, with a colon and in small letters"}},
		{block + "<!-- Table: cells-->" + cells, []string{"<!-- Table: cells-->", "write `<!-- table: cells -->`, with a colon and in small letters"}},
		{block + "<!-- table: cells -->" + cells, nil},
		{block + "<!-- table of cells -->" + cells + "\n<!-- tables -->" + cells + "\n<!-- tablecells -->" + cells, nil},
		{block + "<!-- table cells -->\n\ntext" + cells, nil},
		{"<!-- table cells -->" + cells, nil},
		{block + "a `b [] = ?` and\n`s[ ]=`", []string{"b [] = ?", "write `b [V] = …`, or leave the bracket out", "s[ ]=", "write `s [text] = …`, or leave the bracket out"}},
		{block + "`n [] = 3`, `T [] = 20 °C`", []string{"n [] = 3", "write `n [1] = …`, or leave the bracket out", "T [] = 20 °C", "write `T [K] = …`, or leave the bracket out"}},
		{block + "`b = ?`, `b[mV]=…`, `b/2 [V] = ?`, `c = ?`", []string{"b = ?", "write `b [V] = …`", "b[mV]=…", "write `b [mV] = …`",
			"b/2 [V] = ?", "write `b [V] = …` of a quantity that a block defines so"}},
		{block + "`b = 6 V`, `b [V] = 6 V`, `c [] = 3`, `b [] = 2 * n`, `b []`, `list [] = []`", nil},
	} {
		r := WorkText(t.Context(), nil, "a.md", []byte(c.text))
		var got []string
		for _, n := range r.Notes {
			got = append(got, c.text[n.Span.Start:n.Span.End], n.Hint)
		}
		if len(r.Refused) > 0 || !slices.Equal(got, c.want) {
			t.Errorf("%q: %q %v, want %q", c.text, got, r.Refused, c.want)
		}
		if r.Report == nil && r.Changed() {
			t.Errorf("%q was changed", c.text)
		}
	}
}

// TestMayNearlyHold wants only files read as Markdown that may hold a near miss.
func TestMayNearlyHold(t *testing.T) {
	for text, want := range map[string]bool{
		"```Working": true, "~~~~ \tworkings\n": true, "a ``` Working x": true, "```go\n```WORKING\r\n": true,
		"```working\n": true, "``Working": false, "```workingss": false, "Working": false, "```": false, "": false,
		"```\nWorking\n": false, "~~~work": false,
	} {
		if got := markdown.MayNearlyHold([]byte(text)); got != want {
			t.Errorf("%q: %t", text, got)
		}
	}
}
