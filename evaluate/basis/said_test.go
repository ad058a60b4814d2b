package basis

import (
	"strings"
	"testing"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/message"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

// TestSaid wants no two sheets written alike that say something else, wherever their lines, cells
// and numbers begin.
func TestSaid(t *testing.T) {
	table := func(rows ...[]syntax.Cell) *sheet.Sheet {
		return &sheet.Sheet{Tables: []*syntax.Table{{Rows: rows}}}
	}
	cell := func(text string) syntax.Cell { return syntax.Cell{Text: text} }
	worked := syntax.Cell{Text: "a", Worked: &syntax.Worked{Of: &syntax.Name{Ident: syntax.Ident{Name: "b"}}}}
	seen := map[Digest]int{}
	for i, s := range []*sheet.Sheet{
		{}, kit.Block("a.md", ""), kit.Block("a.md", "a = 1"), kit.Block("a.md", "a = 2"), kit.Block("a.md", "a = 1\n"), kit.Block("a.md", "a =\n1"),
		{Blocks: []syntax.Block{{}, {}}}, {Tables: []*syntax.Table{{}}}, {Tables: []*syntax.Table{{Commas: true}}}, {Tables: []*syntax.Table{{Name: syntax.Ident{Name: "t"}}}},
		table([]syntax.Cell{cell("ab")}), table([]syntax.Cell{cell("a"), cell("b")}), table([]syntax.Cell{cell("a")}, []syntax.Cell{cell("b")}), table([]syntax.Cell{worked}),
		table([]syntax.Cell{cell("a")}),
	} {
		d := said(s, nil)
		if first, known := seen[d]; known {
			t.Errorf("sheets %d and %d are written alike", first, i)
		}
		seen[d] = i
	}
}

// TestSaidWithout leaves numbers out, and nothing that stands around them.
func TestSaidWithout(t *testing.T) {
	places := func(s *sheet.Sheet) (list []message.Span) {
		for _, l := range s.Blocks[0].Lines {
			for i, c := range l.Text {
				if strings.ContainsRune("123", c) {
					list = append(list, message.Span{Start: l.Offset + i, End: l.Offset + i + 1})
				}
			}
		}
		return list
	}
	of := func(text string) Digest {
		s := kit.Block("a.md", text)
		return said(s, places(s))
	}
	if of("a = 1 V + 2 V\nb = 3") != of("a = 3 V + 1 V\nb = 2") {
		t.Error("the numbers still count")
	}
	all := map[Digest]string{}
	for _, text := range []string{"a = 1 V + 2 V", "a = V + 2 V", "a = 1 V + V", "a = 1 A + 2 V", "a = 1 V + 2 V1", "a = 1\n V + 2 V", "a = 12 V + V"} {
		if other, known := all[of(text)]; known {
			t.Errorf("%q is written like %q", text, other)
		}
		all[of(text)] = text
	}
}
