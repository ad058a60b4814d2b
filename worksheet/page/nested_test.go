package page_test

import (
	"regexp"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"inkwing/worksheet/page"
)

// TestNestedBlocks shows at each block what came of it, whatever it lies in: a list, a quote,
// one right before another that lies in nothing.
func TestNestedBlocks(t *testing.T) {
	one := func(name, indent string) string {
		return indent + "```working\n" + indent + name + " = 1 V\n" + indent + "```\n"
	}
	text := "# Notes\n\n1. First\n\n" + one("a", "   ") + "\n" + one("b", "") + one("c", "") + "\n> " + strings.TrimSpace(one("d", "> ")[2:]) +
		"\n\n" + one("e", "") + "\n- then\n\n" + one("f", "  ") + "\n## Two\n\n" + one("g", "")
	p := make1(t, text, nil)
	var typed []string
	for _, s := range p.Sections {
		for _, m := range regexp.MustCompile(`<code>(\w) = `).FindAllStringSubmatch(s.HTML, -1) {
			typed = append(typed, m[1])
		}
	}
	if got := strings.Join(typed, " "); got != "a b c d e f g" {
		t.Errorf("blocks stand in the order %s", got)
	}
}

// TestOddInfo has a blank of another kind behind the word, which makes a block as any does,
// so that what stands behind it keeps its own results.
func TestOddInfo(t *testing.T) {
	p := make1(t, "# Notes\n\n```working\u00a0x\na = 1 V\n```\n\n~~~working\fx\nb = 2 V\n~~~\n\n```working\nc = 3 V\n```\n", nil)
	if len(p.Sections) != 4 {
		t.Fatalf("%d sections", len(p.Sections))
	}
	for i, want := range []string{`id="q-a"`, `id="q-b"`, `id="q-c"`} {
		if !strings.Contains(p.Sections[i+1].HTML, want) {
			t.Errorf("no %s in %s", want, p.Sections[i+1].HTML)
		}
	}
}

// TestValuesInHeadings tells in the title and the contents what values come to, and not what
// stands in the file.
func TestValuesInHeadings(t *testing.T) {
	p := make1(t, "# At `v [m/s] = 9 m/s`\n\n## A `v [m/s] = ?`\n\n## B\n\n## C\n\n```working\nv = 5 m/s\n```\n", nil)
	if p.Title != "At 5 m/s" {
		t.Errorf("the title is %q", p.Title)
	}
	if top := p.Sections[0].HTML; strings.Contains(top, ">9 m/s") || !strings.Contains(top, "A 5 m/s</a>") {
		t.Error(top)
	}
}

// TestValueInImage has a value in the words of an image.
func TestValueInImage(t *testing.T) {
	const text = "# Notes\n\n![At *full* `v [V] = 4 V` &amp; \\* \"x\"](%s \"a &lt; b\")\n\n```working\nv = 5 V\n```\n"
	p := make1(t, strings.Replace(text, "%s", "none.png", 1), nil)
	if s := p.Sections[1].HTML; !strings.Contains(s, "[image not found: At full 5 V &amp; * &#34;x&#34;]") {
		t.Error(s)
	}
	p = make1(t, strings.Replace(text, "%s", "a.png", 1), files{"a.png": "\x89PNG\r\n\x1a\n"})
	if s := p.Sections[1].HTML; !strings.Contains(s, `alt="At full 5 V &amp; * &#34;x&#34;"`) || !strings.Contains(s, `title="a &lt; b"`) {
		t.Error(s)
	}
}

// TestBrokenHTML has HTML that a browser would have swallow a block, a value or a heading,
// or put them elsewhere: it is shown as it is typed.
func TestBrokenHTML(t *testing.T) {
	for _, odd := range []string{"a <textarea> b", "a <script> b", "<!-- open\n- b", "<div title=\"open", "a <a href=\"#x\">b", "a <object> b", "<table><tr>", "a <title> b"} {
		text := "# Notes\n\n- " + odd + "\n\n  ```working\n  V = 5 V\n  limit V <= 4 V\n  ```\n\nIt has `V [V] = ?`.\n\n> ## Part\n"
		p := make1(t, text, nil)
		whole := string(p.Document(page.Frame{}))
		for _, once := range []string{"id=q-V ", "id=h-part>", "as typed<", "title=V>"} {
			if n := strings.Count(whole, once); n != 1 {
				t.Errorf("%s: %s is there %d times in %s", odd, once, n, p.Sections[1].HTML)
			}
		}
		if p.State.Limits != 1 || len(p.State.Broken) != 1 {
			t.Errorf("%s: it stands as %+v", odd, p.State)
		}
	}
}

// TestValueInLink has a value in the text of a link, which may hold no other link.
func TestValueInLink(t *testing.T) {
	p := make1(t, "# Notes\n\n[at `v [V] = ?`](#part) <a href=\"#part\">`v [V] = ?`</a> `v [V] = ?`\n\n```working\nv = 5 V\n```\n", nil)
	each(parsed(t, p), func(n *html.Node) {
		for up := n.Parent; n.Data == "a" && up != nil; up = up.Parent {
			if up.Data == "a" {
				t.Error("a link lies in a link")
			}
		}
	})
	if s := p.Sections[1].HTML; strings.Count(s, `<span class="value" title="v">`) != 2 || strings.Count(s, `<a class="value"`) != 1 {
		t.Error(s)
	}
}
