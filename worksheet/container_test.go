package worksheet

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
)

// TestContainers puts a block into every kind of list and quote, with every odd
// mixture of blanks and tabs before its fences that an editor may leave, and holds
// the runner to goldmark's own reading of it, which is the parser as it comes.
func TestContainers(t *testing.T) {
	became := map[string]int{}
	for _, first := range openers {
		for _, body := range []string{"", "  ", "\t", " \t", "> ", ">\t", ">  ", "> \t"} {
			for _, close := range closers {
				for _, tail := range []string{"", "tail\n", "\n| a |\n| - |\n| b |\n", "- b\n\n  c\n"} {
					text := first + "```working\n" + body + "row a | 1 V\n" + close + "```\n" + tail
					became[holdsTo(t, []byte(text))]++
				}
			}
		}
	}
	t.Log(became)
	if became[worked] < 1300 || became["the results cannot"] > 60 {
		t.Errorf("read and worked or refused: %v", became)
	}
}

var (
	openers = []string{"", " ", "- ", "-\t", " - ", "1. ", "10)\t", "> ", ">", ">\t", "- > ", "> - ", "> > ", "- - ", "1. -\t", "> 1. ", ">\t-\t",
		"a\n\n", "- a\n\n  ", "- a\n\t", "> a\n>\n> ", "1. a\n   - b\n\n\t "}
	closers = []string{"", " ", "  ", "   ", "    ", "     ", "\t", " \t", "  \t", "   \t", "\t ", "\t  ", "\t\t", "> ", ">", ">\t", "> \t", ">  ", ">   ", "  > ",
		"  >\t", " > ", "  >", "\t> ", ">\t\t", "> >\t", "> > ", ">    ", ">     ", ">\t "}
)

const worked = "worked"

// holdsTo says what became of a text, by the first words of why it was refused.
func holdsTo(t *testing.T, text []byte) string {
	want := ownReading(text)
	if len(want) != 1 || want[0] == "" {
		return "holds no block"
	}
	once := works(t, "a.md", text)
	if len(once.Refused) > 0 {
		if !bytes.Equal(once.Output, text) {
			t.Errorf("%q is refused and changed", text)
		}
		return strings.Join(strings.Fields(once.Refused[0].Summary)[:3], " ")
	}
	if got := ownReading(once.Output); fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%q became %q:\nblocks %q, want %q", text, once.Output, got, want)
	}
	if once.Blocks != 1 {
		t.Errorf("%q: %d blocks", text, once.Blocks)
	}
	if twice := works(t, "a.md", once.Output); twice.Changed() {
		t.Errorf("%q: a second run gives\n%q after\n%q", text, twice.Output, once.Output)
	}
	if back, _ := Strip(t.Context(), "a.md", once.Output); !bytes.Equal(back, text) {
		t.Errorf("%q: strip gives back %q of\n%q", text, back, once.Output)
	}
	return worked
}

// ownReading is what working blocks hold as goldmark reads them.
func ownReading(source []byte) (list []string) {
	tree := parser.NewParser(parser.WithBlockParsers(parser.DefaultBlockParsers()...),
		parser.WithParagraphTransformers(parser.DefaultParagraphTransformers()...)).Parse(text.NewReader(source))
	_ = ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if f, ok := n.(*ast.FencedCodeBlock); ok && entering && string(f.Language(source)) == "working" {
			list = append(list, string(f.Lines().Value(source)))
		}
		return ast.WalkContinue, nil
	})
	return list
}
