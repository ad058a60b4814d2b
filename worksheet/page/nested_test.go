package page_test

import (
	"regexp"
	"strings"
	"testing"
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
