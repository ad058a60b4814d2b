package markdown

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// TestDefinitions reads long rows of odd and plain definitions as goldmark does with
// its own transformer: the same blocks with the same lines.
func TestDefinitions(t *testing.T) {
	own := parser.NewParser(parser.WithBlockParsers(parser.DefaultBlockParsers()...), parser.WithParagraphTransformers(
		append(parser.DefaultParagraphTransformers(), util.Prioritized(extension.NewTableParagraphTransformer(), 200))...))
	part := []string{"[a]: b\n", "[a b]: b \"c\"\n", "[a]: b\n\"c\"\n", "[a]: <b>\n", "[a]:\nb\n", "[a]: b 'c\n[d]: e'\n", "[a\nb]: c\n", "[ ]: b\n", "[a]: b c\n", "  [a]: b\n", "    [a]: b\n",
		"text\n", "|a|\n|-|\n", "[a]: b \"c\" d\n", "[a](b)\n", "\"c\"\n", "(c)\n", "---\n"}
	r := rand.New(rand.NewPCG(1, 2))
	for range 600 {
		var page strings.Builder
		prefix := []string{"", "> ", "- ", "  "}[r.IntN(4)]
		for range 40 + r.IntN(120) {
			piece := part[0]
			if r.IntN(12) == 0 {
				piece = part[r.IntN(len(part))]
			}
			page.WriteString(prefix + piece)
			if prefix == "- " {
				prefix = "  "
			}
		}
		source := []byte(page.String())
		tree, _, _, _ := parseBlocks(t.Context(), source)
		if got, want := dump(tree, source), dump(own.Parse(text.NewReader(source)), source); got != want {
			a, b := strings.Split(got, "\n"), strings.Split(want, "\n")
			for i := range min(len(a), len(b)) {
				if a[i] != b[i] {
					t.Fatalf("%q: node %d of %d and %d: %s, want %s", source, i, len(a), len(b), a[i], b[i])
				}
			}
			t.Fatalf("%q: %d nodes, want %d", source, len(a), len(b))
		}
	}
}

// dump is the blocks of a tree with their lines.
func dump(tree ast.Node, source []byte) string {
	var out strings.Builder
	_ = ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering && n.Type() == ast.TypeInline {
			return ast.WalkSkipChildren, nil
		}
		if entering {
			fmt.Fprintf(&out, "%s %q\n", n.Kind(), n.Lines().Value(source))
		}
		return ast.WalkContinue, nil
	})
	return out.String()
}

// TestTooManyDefinitions refuses a page whose definitions would take long to read.
func TestTooManyDefinitions(t *testing.T) {
	row := func(n int) string { return strings.Repeat("[a]: <b>\n", n) }
	if d := Parse("a.md", []byte("```working\na\n```\n\n"+row(maxDefinitions))); len(d.Refused) > 0 {
		t.Error(d.Refused)
	}
	d := Parse("a.md", []byte("```working\na\n```\n\n"+row(maxDefinitions+1)))
	if len(d.Refused) != 1 || !d.Unread || at(d, d.Refused[0].Span.Start, d.Refused[0].Span.End) != "[a]: <b>" {
		t.Error(d.Refused)
	}
}
