package worksheet

import (
	"testing"

	"inkwing/evaluate/report"
	"inkwing/worksheet/markdown"
)

// TestFault holds rewritten texts to the promises which each of them breaks in one
// way only: all else about it, such as its bytes without the region, is as it was.
func TestFault(t *testing.T) {
	const block = "```working\nrow a | 1 V\n```\n"
	region := func(content string) string { return "\n<!-- worked -->\n\n" + content + "\n\n<!-- /worked -->\n" }
	// A closing marker that stands in the list leaves the list open.
	const list = "\n<!-- worked -->\n\n- new\n\n  <!-- /worked -->\n"
	for name, c := range map[string]struct {
		text, out string
		say       []string
		at        int
		ok        bool
	}{
		"as it should be": {
			text: block + "\n`a [V] = 1 V`\n", out: block + region("new") + "\n`a [V] = 1 V`\n", say: []string{"new"}, at: -1, ok: true,
		},
		"a region that says something else": {
			text: block + "\ntail\n", out: block + region("old") + "\ntail\n", say: []string{"new"}, at: -1,
		},
		"another text around it": {
			text: block + "\ntail\n", out: block + region("new") + "\nend\n", say: []string{"new"}, at: -1,
		},
		"a block without its region": {
			text: block + "\ntail\n", out: block + "\ntail\n", say: []string{"new"}, at: 0,
		},
		"a block that became another one": {
			text: block, out: "```working\nrow b | 1 V\n```\n" + region("new"), say: []string{"new"}, at: 0,
		},
		"a table that a comment swallows": {
			text: block + "\n<!-- table: t -->\n\n| V [V] |\n| --- |\n| 1 |\n",
			out:  block + region("<!-- table: u -->") + "\n| V [V] |\n| --- |\n| 1 |\n", say: []string{"<!-- table: u -->"}, at: -1,
		},
		"code that became an inline value": {
			text: block + "\n    `a [V] = 1 V`\n", out: block + list + "\n    `a [V] = 1 V`\n", say: []string{"- new"}, at: -1,
		},
		"code that became a table": {
			text: block + "\n    <!-- table: t -->\n\n    | V [V] |\n    | --- |\n    | 1 |\n",
			out:  block + list + "\n    <!-- table: t -->\n\n    | V [V] |\n    | --- |\n    | 1 |\n", say: []string{"- new"}, at: -1,
		},
		"a value in prose that became a cell": {
			text: block + "\n    | h |\n    | - |\n`a [V] = 1 V`\n", out: block + list + "\n    | h |\n    | - |\n`a [V] = 1 V`\n",
			say: []string{"- new"}, at: -1,
		},
		"a block that became one of a list": {
			text: block + "\n  ```working\n  row b | 1 V\n  ```\n", out: block + list + "\n  ```working\n  row b | 1 V\n  ```\n",
			say: []string{"- new"}, at: 1,
		},
	} {
		doc := markdown.Parse("a.md", []byte(c.text))
		r := &report.Report{Inline: []report.InlineValue{{Shown: "1 V"}}}
		say := make([][]string, len(doc.Blocks))
		say[0] = c.say
		at, ok := fault(t.Context(), doc, []byte(c.out), r, say)
		if at != c.at || ok != c.ok {
			t.Errorf("%s: block %d, %v", name, at, ok)
		}
	}
}

// TestKeptInQuote empties a region that has nothing left to say and cannot go: the
// line that stays has the prefix of its quote, or the quote would end there.
func TestKeptInQuote(t *testing.T) {
	const head = "> - ```working\n>   none a\n>   ```\n>\n>   <!-- worked -->\n"
	const tail = ">   <!-- /worked -->\n>\n> text\n"
	doc := markdown.Parse("a.md", []byte(head+">\n>   old\n>\n"+tail))
	if len(doc.Regions) != 1 || len(doc.Blocks) != 1 {
		t.Fatalf("%d regions, %d blocks", len(doc.Regions), len(doc.Blocks))
	}
	way := kept(doc, make([][]string, 1))
	if got := string(splice(doc.Source, way.edits)); got != head+">\n"+tail {
		t.Errorf("%q", got)
	}
	again := markdown.Parse("a.md", []byte(head+">\n"+tail))
	if more := kept(again, make([][]string, 1)); len(more.edits) != 0 {
		t.Errorf("a second run edits %+v", more.edits)
	}
}
