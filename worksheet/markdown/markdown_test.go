package markdown

import (
	"fmt"
	"strings"
	"testing"
)

// at is the text that a place of the document covers.
func at(d *Document, start, end int) string { return string(d.Source[start:end]) }

// TestLines proves that every byte of a block's line stands where its offset
// says, in every kind of container.
func TestLines(t *testing.T) {
	for name, c := range map[string]struct {
		text   string
		lines  string
		prefix string
		nested bool
	}{
		"bare":           {"```working\na = 1\n\n  b\n```\n", "a = 1||  b", "", false},
		"tildes":         {"~~~~ working more words\na\n~~~\nb\n~~~~~\n", "a|~~~|b", "", false},
		"indented fence": {"  ```working\n  a\n   b\nc\n  ```\n", "a| b|c", "  ", false},
		"quote":          {"> ```working\n> a\n>b\n>\n> ```\n", "a|b|", "> ", true},
		"list":           {"- x\n\n  ```working\n  a\n    b\n  ```\n", "a|  b", "  ", true},
		"quote in list":  {"1. > ```working\n   > a\n   > ```\n", "a", "   > ", true},
		"tab in list":    {"-\t```working\n\ta\n\t```\n", "a", "\t", true},
		"tab in quote":   {">\t```working\n>\ta\n>\t```\n", "a", ">\t", true},
		"CRLF":           {"```working\r\na\r\n\r\n```\r\n", "a|", "", false},
		"BOM":            {"\ufeff```working\na\n```", "a", "", false},
		"front matter":   {"---\na: b\n---\n```working\na\n```\n", "a", "", false},
		"TOML":           {"+++\na = 1\n+++\n```working\na\n```\n", "a", "", false},
		"a rule only":    {"---\n\n```working\na\n```\n\n---\n", "a", "", false},
		"other scripts":  {"```working\nη = 0.8 # Wirkungsgrad, 効率\n```\n", "η = 0.8 # Wirkungsgrad, 効率", "", false},
		"lone CR":        {"x\ry\n\n```working\na\rb\n```\n", "a\rb", "", false},
	} {
		d := Parse(name, []byte(c.text))
		if len(d.Blocks) != 1 || len(d.Refused) > 0 {
			t.Errorf("%s: %d blocks, refused %v", name, len(d.Blocks), d.Refused)
			continue
		}
		b := d.Blocks[0]
		var texts []string
		for _, l := range b.Lines {
			texts = append(texts, l.Text)
			if l.Text != "" && at(d, l.Offset, l.Offset+len(l.Text)) != l.Text {
				t.Errorf("%s: %q is not at its offset", name, l.Text)
			}
		}
		if got := strings.Join(texts, "|"); got != c.lines || b.Prefix != c.prefix || b.Nested != c.nested {
			t.Errorf("%s: lines %q, prefix %q, nested %v", name, got, b.Prefix, b.Nested)
		}
		if !strings.HasSuffix(at(d, b.Start, b.End), "```") && name != "tildes" {
			t.Errorf("%s: block is %q", name, at(d, b.Start, b.End))
		}
	}
}

// TestPadding has a tab of which the container takes a part: the rest is spaces
// in the line, and its offset points before them.
func TestPadding(t *testing.T) {
	d := Parse("a", []byte("- ```working\n\ta\n  ```\n"))
	l := d.Blocks[0].Lines[0]
	k := strings.Index(l.Text, "a")
	if k < 1 || at(d, l.Offset+k, l.Offset+k+1) != "a" {
		t.Errorf("%q at %d", l.Text, l.Offset)
	}
}

func TestMayHold(t *testing.T) {
	for text, want := range map[string]bool{
		"```working\n": true, "~~~ \tworking x": true, "> - `````working": true,
		"working": false, "``` workings\n": false, "`` working\n": false, "``` x working\n": false, "": false,
		"a working ```working\n": true, "```working\u00a0x\n": true, "```\u00a0working\n": true, "```\nworking\n": false,
	} {
		if got := MayHold([]byte(text)); got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
}

func TestTables(t *testing.T) {
	text := "<!-- table: cells -->\n| cell | C \\[F\\] | `mass` [g] |\n| --- | --: | --- |\n| `B50` | 50 | a \\| b |\n|B60|60|\n| `x\\|y` | &lt; 5 | \\*6\\* | 7 |\n\n" +
		"> <!-- table: inner -->\n>\n> a | b\n> --|--\n> 1 | 2\n\n<!-- table: none -->\n\ntext\n"
	d := Parse("t", []byte(text))
	if len(d.Tables) != 3 {
		t.Fatal(len(d.Tables), "tables")
	}
	var got []string
	cells := d.Tables[0]
	for _, row := range append(cells.Rows, d.Tables[1].Rows...) {
		for _, c := range row {
			got = append(got, c.Text+"="+at(d, c.Span.Start, c.Span.End))
		}
		got = append(got, "/")
	}
	want := "B50=`B50` 50=50 a | b=a \\| b / B60=B60 60=60 / x|y=`x\\|y` < 5=&lt; 5 *6*=\\*6\\* 7=7 / 1=1 2=2 /"
	if s := strings.Join(got, " "); s != want {
		t.Errorf("got  %s\nwant %s", s, want)
	}
	head := cells.Head
	if head[0].Text != "cell" || head[1].Text != "C [F]" || head[2].Text != "mass [g]" {
		t.Errorf("head %v", head)
	}
	if name := cells.Name; name.Name != "cells" || at(d, name.Span.Start, name.Span.End) != "cells" {
		t.Errorf("name %v", name)
	}
	var problems []string
	for _, table := range d.Tables {
		for _, p := range table.Problems {
			problems = append(problems, at(d, p.Span.Start, p.Span.End)+": "+p.Summary)
		}
	}
	says := []string{"|B60|60|: this row has 2 cells, its table 3 columns",
		"| `x\\|y` | &lt; 5 | \\*6\\* | 7 |: this row has 4 cells, its table 3 columns",
		"<!-- table: none -->: no table follows this comment"}
	if fmt.Sprint(problems) != fmt.Sprint(says) {
		t.Errorf("problems %q", problems)
	}
}

// TestWorked finds the cells that are inline values, whole and not in part, at their
// places, and reads their text without the value.
func TestWorked(t *testing.T) {
	text := "<!-- table: parts -->\n\n| part | mass [g] | kind |\n| - | -: | - |\n| pack | `store.mass [g] = 100 g` | ``  kind [text] = a \\| b  `` |\n| wing | 12 | `m [g] = 2` and `m [g] = b` |\n> x\n"
	d := Parse("t", []byte(text))
	if len(d.Tables) != 1 {
		t.Fatal(len(d.Tables), "tables")
	}
	var got []string
	for _, row := range d.Tables[0].Rows {
		for _, c := range row {
			if w := c.Worked; w != nil {
				of, unit := w.Of.Place(), w.Unit.Span
				got = append(got, c.Text+"="+at(d, of.Start, of.End)+","+at(d, unit.Start, unit.End))
			}
		}
	}
	if s := strings.Join(got, " "); s != "store.mass [g]=store.mass,g kind [text]=kind,text" {
		t.Error(s)
	}
}

func TestInline(t *testing.T) {
	block := "```working\na\n```\n\n"
	for text, want := range map[string]string{
		"`a [V] = 1 V`":                                     "a|V|1 V| 1 V",
		"`store.capacitance [mF]=`":                         "store.capacitance|mF||",
		"`a [V] = …`":                                       "a|V|…| …",
		"`a [ m/s² ] = (1.0 ± 0.1) m/s²`":                   "a|m/s²|(1.0 ± 0.1) m/s²| (1.0 ± 0.1) m/s²",
		"`a [1] = 0.040 ± 0.005`":                           "a|1|0.040 ± 0.005| 0.040 ± 0.005",
		"`a [mg] = 1.23 mg (1.08 to 1.38 mg)`":              "a|mg|1.23 mg (1.08 to 1.38 mg)| 1.23 mg (1.08 to 1.38 mg)",
		"`η [%] = 74.2 %`":                                  "η|%|74.2 %| 74.2 %",
		"`α [deg] = 90°`":                                   "α|deg|90°| 90°",
		"`a [1] = -1.2e-05`":                                "a|1|-1.2e-05| -1.2e-05",
		"`a [text] = B50, the first`":                       "a|text|B50, the first| B50, the first",
		"`xs [V] = [1 V, 2 V]`":                             "xs|V|[1 V, 2 V]| [1 V, 2 V]",
		"``  a [V] = 1 V  ``":                               "a|V|1 V| 1 V",
		"*x* [`a [V] = 1 V`](y)":                            "a|V|1 V| 1 V",
		"# `a [V] = 1 V`":                                   "a|V|1 V| 1 V",
		"> `a\n> [V] =\n> 1\n> V`":                          "a|V|1 V|\n> 1\n> V",
		"`a = 1 V`":                                         "",
		"`E [J] = 1/2 * C * V^2`":                           "",
		"`a [V] = b`":                                       "",
		"`f(x [m/s]) [W] = 1 W`":                            "",
		"`a[V] = 1 V`":                                      "",
		"`a [V] == 1 V`":                                    "",
		"    `a [V] = 1 V`":                                 "",
		"<a href=\"`a [V] = 1 V`\">":                        "",
		"<!-- table: t -->\n\n| `a [V] = 1 V` |\n| --- |\n": "",
		"| x |\n| --- |\n| `a [V] = 1 V` |\n":               "a|V|1 V| 1 V",
		"<!-- table: t -->\n\n| x |\n| - |\n| `a [V] = 1 V` |\n| b `a [V] = 1 V` |\n": "a|V|1 V| 1 V",
	} {
		d := Parse("i", []byte(block+text))
		got := ""
		for _, v := range d.Inline {
			got += v.Name + "|" + v.Unit.Text + "|" + v.Shown + "|" + at(d, v.Value.Start, v.Value.End)
			if at(d, v.At.Start, v.At.End) != v.Name || at(d, v.Unit.Span.Start, v.Unit.Span.End) != v.Unit.Text {
				t.Errorf("%q: name or unit is not at its place", text)
			}
		}
		if got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

// TestNesting tries the bound and one past it.
func TestNesting(t *testing.T) {
	for n, unread := range map[int]bool{maxNesting: false, maxNesting + 1: true} {
		for _, mark := range []string{">", "> ", "- ", "1. "} {
			text := strings.Repeat(mark, n) + "a" + strings.Repeat(" b", 50) + "\n"
			if d := Parse("n", []byte(text)); d.Unread != unread {
				t.Errorf("%d times %q: unread is %v", n, mark, d.Unread)
			}
		}
	}
	if d := Parse("n", []byte(strings.Repeat("-", 500)+"\n")); d.Unread {
		t.Error("a long rule is taken for nesting")
	}
}

// TestNearly tells of a block and a table whose word has a slip, and of no other program's.
func TestNearly(t *testing.T) {
	notes := func(text string) int { return len(Parse("notes.md", []byte(text)).Notes) }
	for _, word := range []string{"workng", "wroking", "Working", "workings", "keepng", "gathr"} {
		if n := notes("```" + word + "\nx = 1\n```\n"); n != 1 {
			t.Errorf("%s: %d notes", word, n)
		}
	}
	for _, word := range []string{"working", "warning", "go", "sh", "markdown", "", "walking"} {
		if n := notes("```" + word + "\nx = 1\n```\n"); n != 0 {
			t.Errorf("%s: %d notes", word, n)
		}
	}
	const table = "\n\n| a |\n| :- |\n| 1 |\n\n```working\nx = 1\n```\n"
	for comment, want := range map[string]int{"tabel: parts": 1, "tables: parts": 1, "table parts": 1, "Table: parts": 1, "title: parts": 0, "table: parts": 0, "todo parts": 0} {
		if n := notes("<!-- " + comment + " -->" + table); n != want {
			t.Errorf("%s: %d notes", comment, n)
		}
	}
}
