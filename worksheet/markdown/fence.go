package markdown

import (
	"bytes"
	"context"
	"sync"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// The first words of the info strings of our blocks: one that is worked, one that
// holds rules for journals, and one that gathers rows of journals.
const (
	Working = "working"
	Keeping = "keeping"
	Gather  = "gather"
)

// ours reports whether a word makes a block ours.
func ours(word []byte) bool {
	switch string(word) {
	case Working, Keeping, Gather:
		return true
	}
	return false
}

// A fence is one fenced code block of any kind. Offsets are into the text that
// was parsed, without what was skipped before it.
type fence struct {
	node   *ast.FencedCodeBlock
	start  int // of the opening fence's first character
	closer int // of the closing fence's first character, if closed
	closed bool
	word   string // one of ours, empty for any other
}

var fencesKey = parser.NewContextKey()

// fenceParser is goldmark's own, and keeps what the tree forgets: where the
// closing fence is, and whether there is one. Looking for it afterwards, line by
// line, goes wrong where a block ends by leaving its quote.
type fenceParser struct{ parser.BlockParser }

func (p fenceParser) Open(parent ast.Node, reader text.Reader, pc parser.Context) (ast.Node, parser.State) {
	_, segment := reader.PeekLine()
	node, state := p.BlockParser.Open(parent, reader, pc)
	if node == nil {
		return node, state
	}
	f := &fence{node: node.(*ast.FencedCodeBlock), start: segment.Start - segment.Padding + pc.BlockOffset()}
	if word := infoWord(f.node, reader.Source()); ours(word) {
		f.word = string(word)
	}
	list, _ := pc.Get(fencesKey).([]*fence)
	pc.Set(fencesKey, append(list, f))
	return node, state
}

func (p fenceParser) Continue(node ast.Node, reader text.Reader, pc parser.Context) parser.State {
	line, segment := reader.PeekLine()
	before := node.Lines().Len()
	state := p.BlockParser.Continue(node, reader, pc)
	if state&parser.Continue == 0 && node.Lines().Len() == before {
		list := pc.Get(fencesKey).([]*fence)
		f := list[len(list)-1] // no other fence opens inside one
		f.closed = true
		f.closer = segment.Start - segment.Padding + len(line) - len(bytes.TrimLeft(line, " \t"))
	}
	return state
}

// infoWord is the first word of a fence's info string, nil for none.
func infoWord(n *ast.FencedCodeBlock, source []byte) []byte {
	if n.Info == nil {
		return nil
	}
	words := bytes.Fields(n.Info.Segment.Value(source))
	if len(words) == 0 {
		return nil
	}
	return words[0]
}

// newParser is built once: a parser holds no state between runs. Links and
// emphasis are left out, since a code span binds tighter than either, and with
// them go the inputs on which inline parsing takes seconds.
var newParser = sync.OnceValue(func() parser.Parser {
	blocks := append(parser.DefaultBlockParsers(),
		util.Prioritized(fenceParser{parser.NewFencedCodeBlockParser()}, 699))
	return parser.NewParser(
		parser.WithBlockParsers(blocks...),
		parser.WithParagraphTransformers(
			util.Prioritized(definitions{}, 100),
			util.Prioritized(tables{extension.NewTableParagraphTransformer()}, 200)),
		parser.WithInlineParsers(
			util.Prioritized(timedInline{parser.NewCodeSpanParser()}, 100),
			util.Prioritized(timedInline{parser.NewAutoLinkParser()}, 300),
			util.Prioritized(timedInline{parser.NewRawHTMLParser()}, 400)),
	)
})

// parseBlocks gives the tree and all its fences, and where a row of definitions or a
// table is too long to be read, -1 for none. The tree is nil if the context was done
// before.
func parseBlocks(ctx context.Context, source []byte) (tree ast.Node, fences []*fence, definitions, table int) {
	pc := parser.NewContext()
	tree = parsedWithin(ctx, source, pc)
	fences, _ = pc.Get(fencesKey).([]*fence)
	return tree, fences, placeIn(pc, definitionsKey), placeIn(pc, manyKey)
}

// placeIn is a place that was noted while parsing, -1 for none.
func placeIn(pc parser.Context, key parser.ContextKey) int {
	if at, found := pc.Get(key).(int); found {
		return at
	}
	return -1
}

// MayHold reports whether a text has a line that could open one of our blocks. It
// reads no Markdown, so that a folder of other files costs next to nothing.
func MayHold(source []byte) bool {
	if isUTF16(source) {
		return bytes.Contains(source, wide("`"+Working)) || bytes.Contains(source, wide("`"+Keeping)) || bytes.Contains(source, wide("`"+Gather))
	}
	return mayOpen(source, ours)
}

// mayOpen reports whether a fence's ticks could stand before such a word.
func mayOpen(source []byte, such func(word []byte) bool) bool {
	for _, mark := range []string{"```", "~~~"} {
		for rest := source; ; {
			i := bytes.Index(rest, []byte(mark))
			if i < 0 {
				break
			}
			rest = rest[i+len(mark):]
			for len(rest) > 0 && rest[0] == mark[0] {
				rest = rest[1:]
			}
			if word := firstWord(rest); word != nil && such(word) {
				return true
			}
		}
	}
	return false
}

// longest is the length of the longest of our words.
const longest = len(Working)

// firstWord is the first word of a line as far as it is of interest; nil for one
// that does not begin as ours does.
func firstWord(text []byte) []byte {
	text = bytes.TrimLeftFunc(text, func(r rune) bool { return r != '\n' && unicode.IsSpace(r) })
	if len(text) == 0 || bytes.IndexByte([]byte("wkg"), text[0]|' ') < 0 {
		return nil
	}
	text = text[:min(len(text), longest+utf8.UTFMax)]
	if end := bytes.IndexFunc(text, unicode.IsSpace); end >= 0 { // as infoWord has it
		text = text[:end]
	}
	return text
}

// isUTF16 reports whether a text begins with the byte order mark of UTF-16.
func isUTF16(source []byte) bool {
	return bytes.HasPrefix(source, []byte("\xff\xfe")) || bytes.HasPrefix(source, []byte("\xfe\xff"))
}

// wide is what an ASCII text has in common in both byte orders of UTF-16.
func wide(text string) []byte {
	var out []byte
	for i := range len(text) {
		out = append(out, text[i], 0)
	}
	return out[:len(out)-1]
}

// MayHoldRegion reports whether a text could hold a worked region.
func MayHoldRegion(source []byte) bool {
	return bytes.Contains(source, []byte("worked")) && bytes.Contains(source, []byte("<!--"))
}
