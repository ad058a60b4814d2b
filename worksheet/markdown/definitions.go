package markdown

import (
	"bytes"
	"regexp"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
)

const (
	// definitionLines is how many lines of a paragraph are read for definitions at
	// a time.
	definitionLines = 32
	// maxDefinitions is how many of another form than the plain one may stand in a
	// row.
	maxDefinitions = 1000
)

// plainDefinition is a link definition of one line, as change logs end with
// thousands of.
var plainDefinition = regexp.MustCompile(`^ {0,3}\[[^\[\]\\\s][^\[\]\\]*\]: *[^\s<>()\[\]"'\\]+(?: +"[^"\\]*")? *\r?\n?$`)

// definitionsKey holds where a row of definitions is too long, if one is.
var definitionsKey = parser.NewContextKey()

// definitions takes the link definitions off the beginning of a paragraph, as
// goldmark's own transformer does, which takes time that grows with the square of
// how many stand in a row. So it is given a few lines at a time, as long as each is
// a whole definition and the next line cannot belong to it.
type definitions struct{}

func (definitions) Transform(node *ast.Paragraph, reader text.Reader, pc parser.Context) {
	source := reader.Source()
	// That blank lines were above belongs to the first definition, and to the rest.
	defer node.SetBlankPreviousLines(node.HasBlankPreviousLines())
	for node.Lines().Len() > definitionLines {
		n := wholeDefinitions(node.Lines(), source)
		if n == 0 || !takeSome(node, n, reader, pc) {
			break
		}
	}
	if tooManyDefinitions(node.Lines(), source) {
		if pc.Get(definitionsKey) == nil {
			pc.Set(definitionsKey, node.Lines().At(0).Start)
		}
		return
	}
	parser.LinkReferenceParagraphTransformer.Transform(node, reader, pc)
}

// wholeDefinitions is how many of the first lines are plain definitions with
// another line in brackets behind them, up to a bound.
func wholeDefinitions(lines *text.Segments, source []byte) int {
	for i := range min(definitionLines, lines.Len()-1) {
		line, next := lines.At(i), lines.At(i+1)
		if !plainDefinition.Match(line.Value(source)) || !bytes.HasPrefix(bytes.TrimLeft(next.Value(source), " "), []byte("[")) {
			return i
		}
	}
	return min(definitionLines, lines.Len()-1)
}

// takeSome takes the definitions off the first lines of a paragraph; false if any
// turned out to be none.
func takeSome(node *ast.Paragraph, n int, reader text.Reader, pc parser.Context) bool {
	first, lines := ast.NewParagraph(), text.NewSegments()
	lines.AppendAll(node.Lines().Sliced(0, n))
	first.SetLines(lines)
	first.SetPos(node.Pos())
	first.SetBlankPreviousLines(node.HasBlankPreviousLines())
	node.Parent().InsertBefore(node.Parent(), node, first)
	parser.LinkReferenceParagraphTransformer.Transform(first, reader, pc)
	if first.Parent() != nil {
		first.Parent().RemoveChild(first.Parent(), first)
		return false
	}
	node.Lines().SetSliced(n, node.Lines().Len())
	node.SetBlankPreviousLines(false)
	return true
}

// tooManyDefinitions reports whether more lines than that may be definitions.
func tooManyDefinitions(lines *text.Segments, source []byte) bool {
	if lines.Len() <= maxDefinitions || !bytes.HasPrefix(bytes.TrimLeft(source[lines.At(0).Start:lines.At(0).Stop], " \t"), []byte("[")) {
		return false
	}
	n := 0
	for i := range lines.Len() {
		if seg := lines.At(i); bytes.Contains(source[seg.Start:seg.Stop], []byte("]:")) {
			n++
		}
	}
	return n > maxDefinitions
}
