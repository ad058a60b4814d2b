package worksheet

import (
	"bytes"
	"context"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet/region"
)

var update = flag.Bool("update", false, "rewrite the goldens")

// scripted stands in for evaluate, so that these tests are of the worksheet
// alone: each line of a block says by itself what it comes to.
var scripted = runner{work: script}

func script(_ context.Context, sheet *sheet.Sheet, _ sheet.Loader) *report.Report {
	r := &report.Report{Sheet: sheet.Name}
	known := map[string]string{}
	for _, b := range sheet.Blocks {
		var out report.Block
		for _, l := range b.Lines {
			play(&out, l, known)
		}
		r.Blocks = append(r.Blocks, out)
	}
	for _, v := range sheet.Inline {
		shown, ok := known[v.Name]
		if !ok {
			shown = "?"
		}
		r.Inline = append(r.Inline, report.InlineValue{Shown: shown})
	}
	return r
}

// play adds what a line like "row name | 12 V | note" says; the others are
// "limit text | worked | allowed | headroom | broken", "broken advice | limit",
// "danger finding | names | what to do", and "listed" where an overview has the limits.
func play(out *report.Block, l syntax.Line, known map[string]string) {
	verb, rest, _ := strings.Cut(strings.TrimSpace(l.Text), " ")
	part := append(strings.Split(rest, " | "), "", "", "", "", "")
	switch verb {
	case "row":
		out.Rows = append(out.Rows, report.Quantity{Name: part[0], Shown: part[1], Note: part[2]})
		known[part[0]] = part[1]
	case "given":
		known[part[0]] = part[1]
	case "wait":
		out.Rows = append(out.Rows, report.Quantity{Name: part[0], State: report.Waiting, Waits: part[1], Shown: "—"})
	case "fail":
		out.Rows = append(out.Rows, report.Quantity{Name: part[0], State: report.Failed, Shown: "—"})
		out.Errors = append(out.Errors, report.Failure{Line: part[1], Diagnostic: message.Diagnostic{Summary: part[2], Hint: part[3]}})
	case "limit":
		out.Limits = append(out.Limits, report.Limit{Text: part[0], Holds: part[4] == "", Value: part[1], Allowed: part[2], Headroom: part[3]})
	case "listed":
		out.Listed = true
	case "broken":
		out.Cautions = append(out.Cautions, report.Caution{Kind: report.OfLimit, Level: model.Warning, Names: strings.Split(part[1], ", "), Hint: part[0]})
	case "danger":
		out.Cautions = append(out.Cautions, report.Caution{Kind: report.OfStanding, Level: model.Danger, Names: strings.Split(part[1], ", "), Summary: part[0], Hint: part[2]})
	case "warning":
		out.Cautions = append(out.Cautions, report.Caution{Kind: report.OfModel, Level: model.Warning, Names: strings.Split(part[1], ", "), Summary: part[0], Hint: part[2]})
	case "advice":
		out.Cautions = append(out.Cautions, report.Caution{Kind: report.OfModel, Level: model.Advice, Names: strings.Split(part[1], ", "), Summary: part[0], Hint: part[2]})
	case "note":
		out.Notes = append(out.Notes, rest)
	case "table":
		out.Tables = append(out.Tables, report.Table{Verb: "vary", Name: part[0], Columns: []report.Column{
			{Head: part[1], Number: true}, {Head: part[2], Code: true}, {Head: part[3]}}})
	case "cells", "says", "waits":
		found(&out.Tables[len(out.Tables)-1], verb, rest, part)
	}
}

// found adds to the table begun last.
func found(t *report.Table, verb, rest string, part []string) {
	switch verb {
	case "cells":
		t.Rows = append(t.Rows, part[:3])
	case "says":
		t.Notes = append(t.Notes, rest)
	case "waits":
		t.State, t.Waits = report.Waiting, rest
	}
}

func works(t testing.TB, name string, text []byte) *Result {
	t.Helper()
	kept := bytes.Clone(text)
	r := scripted.run(t.Context(), nil, name, text)
	if !bytes.Equal(kept, text) {
		t.Fatalf("%s: the source was written to", name)
	}
	return r
}

// TestGoldens runs every input to its golden and every golden to itself.
func TestGoldens(t *testing.T) {
	inputs, err := filepath.Glob("testdata/*.input.md")
	if err != nil || len(inputs) == 0 {
		t.Fatal("no inputs", err)
	}
	for _, in := range inputs {
		golden := strings.Replace(in, ".input.", ".golden.", 1)
		for _, from := range []string{in, golden} {
			if *update && from == in {
				if err := os.WriteFile(golden, works(t, from, read(t, from)).Output, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			r := works(t, from, read(t, from))
			if want := read(t, golden); !bytes.Equal(r.Output, want) {
				t.Errorf("%s: got\n%s\nwant\n%s", from, r.Output, want)
			}
		}
	}
}

func read(t testing.TB, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// TestFixtures proves that no tool has changed what the fixtures are about.
func TestFixtures(t *testing.T) {
	crlf := read(t, "testdata/crlf.input.md")
	if n := bytes.Count(crlf, []byte("\n")); n == 0 || n != bytes.Count(crlf, []byte("\r\n")) {
		t.Error("crlf.input.md is no longer CRLF throughout")
	}
	if !bytes.HasPrefix(crlf, []byte("\ufeff")) {
		t.Error("crlf.input.md has lost its byte order mark")
	}
	if bytes.HasSuffix(crlf, []byte("\n")) {
		t.Error("crlf.input.md has got a final newline")
	}
	if bytes.Contains(bytes.ReplaceAll(read(t, "testdata/crlf.golden.md"), []byte("\r\n"), nil), []byte("\n")) {
		t.Error("crlf.golden.md has a line feed alone")
	}
}

const one = "```working\nrow a | 1 V\n```\n"

func TestRefused(t *testing.T) {
	begin, end := region.Open+"\n", region.Close+"\n"
	for name, c := range map[string]struct {
		text string
		at   string // what the diagnostic underlines
		says string
	}{
		"unclosed fence":        {"a\n\n```working\nrow a | 1\n", "```working", "not closed"},
		"fence leaves quote":    {"> ```working\n> row a | 1\n```\n", "```working", "not closed"},
		"unclosed region":       {one + "\n" + begin + "\ntext\n", region.Open, "not closed"},
		"end alone":             {one + "\n" + end, region.Close, "never began"},
		"doubled":               {one + "\n" + begin + "\n" + begin + "\n" + end, region.Open, "inside another"},
		"block inside":          {one + "\n" + begin + "\n" + one + "\n" + end, "```working", "would delete it"},
		"conflict":              {"<<<<<<< ours\na\n=======\nb\n>>>>>>> theirs\n\n" + one, "<<<<<<< ours", "conflict"},
		"conflict over a block": {"<<<<<<< ours\n" + one + "=======\n" + one + ">>>>>>> theirs\n", "<<<<<<< ours", "conflict"},
		"not UTF-8":             {"caf\xe9\n\n" + one, "\xe9", "not UTF-8"},
		"UTF-16":                {"\xff\xfe" + strings.Join(strings.Split(one, ""), "\x00") + "\x00", "\xff\xfe", "UTF-16"},
		"UTF-16, big end first": {"\xfe\xff\x00" + strings.Join(strings.Split(one, ""), "\x00"), "\xfe\xff", "UTF-16"},
		"too deep":              {strings.Repeat("> ", 101) + "a\n\n" + one, strings.Repeat("> ", 101) + "a", "too deep"},
	} {
		r := works(t, name, []byte(c.text))
		if len(r.Refused) == 0 {
			t.Errorf("%s: not refused:\n%s", name, r.Output)
			continue
		}
		d := r.Refused[0]
		if got := c.text[d.Span.Start:d.Span.End]; got != c.at || !strings.Contains(d.Summary, c.says) {
			t.Errorf("%s: %q at %q", name, d.Summary, got)
		}
		if r.Changed() || r.Report != nil || r.Blocks == 0 {
			t.Errorf("%s: touched, or worked, or no block counted", name)
		}
	}
}

// TestLeftAlone has texts with something that looks like ours and is not.
func TestLeftAlone(t *testing.T) {
	for name, text := range map[string]string{
		"word in prose":        "working on it\n",
		"other fence":          "```go working\na\n```\n",
		"longer word":          "```workings\nrow a | 1\n```\n",
		"fence in a fence":     "````\n" + one + "````\n",
		"indented code":        "    ```working\n    row a | 1\n    ```\n",
		"in a comment":         "<!--\n" + one + "-->\n",
		"front matter":         "---\ntitle: a\nworking: ```working\n---\n",
		"nothing to say":       "```working\ngiven a | 1\n```\n",
		"fence in raw HTML":    "<div>\n" + one + "</div>\n",
		"inline without block": "`a [V] = 2 V`\n",
		"formula quoted":       "```working\ngiven E | 3 J\n```\n\n`E [J] = 1/2 * C * V^2`\n",
		"no brackets":          "```working\ngiven n | 4\n```\n\n`n = 5`\n",
		"marker in a fence":    "```working\ngiven a | 1\n```\n\n```\n" + region.Open + "\n```\n",
		"own comment":          "```working\ngiven a | 1\n```\n\n<!-- worked on this until late -->\n",
		"setext heading":       "```working\ngiven a | 1\n```\n\nTitle\n=======\n",
	} {
		if r := works(t, name, []byte(text)); r.Changed() || len(r.Refused) > 0 {
			t.Errorf("%s: refused %v, output\n%s", name, r.Refused, r.Output)
		}
	}
}

// TestFresh has regions and inline values that a formatter may have made of
// ours: nothing is rewritten.
func TestFresh(t *testing.T) {
	block := "```working\nrow a | 1 V | x_1 and so on\nbroken Too high, by far. | x_1\n```\n"
	for name, text := range map[string]string{
		"compact":   block + "\n" + region.Open + "\n\n| Quantity | Value | Note |\n| :-- | --: | :-- |\n| `a` | 1 V | `x_1` and so on |\n\n> [!WARNING]\n>\n> `x_1`: Too high, by far.\n\n" + region.Close + "\n",
		"wrapped":   block + "\n" + region.Open + "\n| Quantity | Value | Note |\n| :-- | --: | :-- |\n| `a` | 1 V | `x_1` and so on |\n\n> [!WARNING]\n>\n> `x_1`: Too\n> high, by\n> far.\n\n\n" + region.Close + "\n",
		"two lines": block + "\n\n<!--  worked  -->\n\n| Quantity | Value | Note |\n|:-|-:|:-|\n|`a`|1 V|`x_1` and so on|\n\n> [!WARNING]\n>\n> `x_1`: Too high, by far.\n\n<!--/worked-->\n",
		"quote":     "> ```working\n> row a | 1 V\n> ```\n>\n> " + region.Open + "\n>\n> | Quantity | Value |\n> | :-- | --: |\n> | `a` | 1 V |\n>\n> " + region.Close + "\n",
		"re-indent": "1.  ```working\n    row a | 1 V\n    ```\n\n   " + region.Open + "\n\n    | Quantity | Value |\n    | :-- | --: |\n    | `a` | 1 V |\n\n   " + region.Close + "\n",
		"inline":    "```working\ngiven a | 1.5 V\n```\n\n> so `a [V] =\n> 1.5 V` it is\n",
	} {
		if r := works(t, name, []byte(text)); r.Changed() || len(r.Refused) > 0 {
			t.Errorf("%s: refused %v, output\n%s", name, r.Refused, r.Output)
		}
	}
}

func TestStale(t *testing.T) {
	open, shut := region.Open+"\n", region.Close+"\n"
	table := "\n| Quantity | Value |\n| :------- | ----: |\n| `a`      |   1 V |\n\n"
	old := "\n| Quantity | Value |\n| :-- | --: |\n| `a` | 2 V |\n| `b` | 3 V |\n\nTable `c`:\n\n"
	given := "```working\ngiven a | 1 V\ngiven s | a`b\n```\n"
	for name, c := range map[string]struct{ in, out string }{
		"other value":        {one + "\n" + open + old + shut, one + "\n" + open + table + shut},
		"empty region":       {one + open + shut, one + open + table + shut},
		"own marker kept":    {one + "\n<!-- worked: mine -->\n" + shut, one + "\n<!-- worked: mine -->\n" + table + shut},
		"nothing to say":     {given + "\n" + open + old + shut + "\nb\n", given + "\nb\n"},
		"orphan":             {given + "\nb\n\n" + open + old + shut + "\nc\n", given + "\nb\n\nc\n"},
		"orphan first":       {open + old + shut + "\n" + given, "\n" + given},
		"second region":      {one + "\n" + open + table + shut + "\n" + open + old + shut, one + "\n" + open + table + shut},
		"conflict within":    {one + "\n" + open + "\n<<<<<<< a\n| 1 |\n=======\n| 2 |\n>>>>>>> b\n\n" + shut, one + "\n" + open + table + shut},
		"inline stale":       {given + "\n`a [V] = 2 V`, `a [V] = …`, `a [V] =`, `a [V] = `, `` a [V] = ? ``\n", given + "\n`a [V] = 1 V`, `a [V] = 1 V`, `a [V] = 1 V`, `a [V] = 1 V`, `` a [V] = 1 V ``\n"},
		"inline unknown":     {given + "\n`b [V] = 2 V`\n", given + "\n`b [V] = ?`\n"},
		"inline text":        {given + "\n`s [text] = 2 * x`\n", given + "\n`s [text] = a'b`\n"},
		"inline wrapped":     {given + "\n> `a [V] =\n> 2 V` and\n> `a\n> [V] = 3 V`\n", given + "\n> `a [V] = 1 V` and\n> `a\n> [V] = 1 V`\n"},
		"inline, tick below": {given + "\n> `a [V] =\n> ` x\n", given + "\n> `a [V] = 1 V\n> ` x\n"},
		"inline in a cell":   {"```working\ngiven s | a|b\n```\n\n| h |\n| --- |\n| `s [text] = …` |\n", "```working\ngiven s | a|b\n```\n\n| h |\n| --- |\n| `s [text] = a\\|b` |\n"},
	} {
		r := works(t, name, []byte(c.in))
		if string(r.Output) != c.out {
			t.Errorf("%s: refused %v, got\n%s\nwant\n%s", name, r.Refused, r.Output, c.out)
		}
		if again := works(t, name, r.Output); again.Changed() {
			t.Errorf("%s: a second run gives\n%s", name, again.Output)
		}
		if strings.HasPrefix(name, "orphan") && len(r.Notes) != 1 {
			t.Errorf("%s: %d notes", name, len(r.Notes))
		}
	}
}

func TestStripRefuses(t *testing.T) {
	text := []byte(one + "\n" + region.Open + "\n")
	if out, refused := Strip(t.Context(), "a.md", text); len(refused) != 1 || !bytes.Equal(out, text) {
		t.Errorf("got %v, %q", refused, out)
	}
}

// TestMaxFile tries the bound and one past it, which counts with the results: what
// a run writes, the next run must take.
func TestMaxFile(t *testing.T) {
	text := append([]byte(one), bytes.Repeat([]byte(strings.Repeat("word ", 200)+"\n\n"), MaxFile/1000)...)[:MaxFile+1]
	if r := works(t, "a.md", text); len(r.Refused) != 1 {
		t.Error("a file over the bound was not refused")
	}
	added := len(works(t, "a.md", []byte(one)).Output) - len(one)
	if r := works(t, "a.md", text[:MaxFile-added]); len(r.Refused) != 0 || len(r.Output) != MaxFile {
		t.Error("a file at the bound was refused")
	}
	if r := works(t, "a.md", text[:MaxFile-added+1]); len(r.Refused) != 1 || r.Changed() {
		t.Error("a file that grows over the bound was not refused")
	}
}
