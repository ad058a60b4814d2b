package sheet

import (
	"strings"
	"testing"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

// sheetOf is a sheet of blocks whose lines lie apart in the file, as in a quote:
// two bytes stand before each line.
func sheetOf(blocks ...string) *Sheet {
	s := &Sheet{Name: "notes.md"}
	at := 0
	for _, text := range blocks {
		var b syntax.Block
		for _, line := range strings.Split(text, "\n") {
			at += 2
			b.Lines = append(b.Lines, syntax.Line{Text: line, Offset: at})
			at += len(line) + 1
		}
		s.Blocks = append(s.Blocks, b)
	}
	return s
}

// TestText wants what was written between two places of a block, on one line and
// without its notes.
func TestText(t *testing.T) {
	for _, c := range []struct{ name, text, from, to, want string }{
		{"one line", "a = b + c", "b", "c", "b + c"},
		{"two lines", "a = b +  # first\n  c # second", "b", "c #", "b + c"},
		{"a sign in a text", `a = "x # y" + b # z`, `"x`, "z", `"x # y" + b`},
		{"a quote in a text", `a = "x \" # y" # z`, `"x`, "z", `"x \" # y"`},
		{"a tab", "a = b\t+\t c", "b", "c", "b + c"},
	} {
		s := sheetOf("before = 1", c.text)
		place := func(part string) int {
			for _, l := range s.Blocks[1].Lines {
				if i := strings.Index(l.Text, part); i >= 0 {
					return l.Offset + i
				}
			}
			t.Fatalf("%s: no %q", c.name, part)
			return 0
		}
		at := message.Span{Start: place(c.from), End: place(c.to) + len(c.to)}
		if got := s.Text(at); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	if got := (*Sheet)(nil).Text(message.Span{End: 3}); got != "" {
		t.Errorf("of no sheet: %q", got)
	}
}

// TestTextWith wants texts put in their places, across the lines of a statement.
func TestTextWith(t *testing.T) {
	s := sheetOf("y = a * bb +\n  a / c")
	first, second := s.Blocks[0].Lines[0], s.Blocks[0].Lines[1]
	at := func(l syntax.Line, column, length int) message.Span {
		return message.Span{Start: l.Offset + column, End: l.Offset + column + length}
	}
	list := []Replacement{{at(first, 4, 1), "2 V"}, {at(first, 8, 2), "(3 A)"}, {at(second, 2, 1), "2 V"}}
	whole := message.Span{Start: first.Offset + 4, End: second.Offset + len(second.Text)}
	if got := s.TextWith(whole, list); got != "2 V * (3 A) + 2 V / c" {
		t.Error(got)
	}
}

// TestLine wants the line on which a place stands, up to its end, and none between
// blocks.
func TestLine(t *testing.T) {
	s := sheetOf("a = 1\nb = 2", "c = 3")
	last := s.Blocks[1].Lines[0]
	for _, c := range []struct {
		at, block int
		text      string
		ok        bool
	}{{0, 0, "", false}, {2, 0, "a = 1", true}, {7, 0, "a = 1", true}, {8, 0, "", false}, {10, 0, "b = 2", true}, {last.Offset, 1, "c = 3", true}, {last.Offset + 9, 0, "", false}} {
		block, line, ok := s.Line(c.at)
		if block != c.block || line.Text != c.text || ok != c.ok {
			t.Errorf("at %d: block %d, %q, %t", c.at, block, line.Text, ok)
		}
	}
}
