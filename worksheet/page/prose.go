package page

import (
	"bytes"
	"html"
	"sort"
	"strconv"
	"strings"
	"sync"
	"unicode"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	grender "github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"inkwing/worksheet/markdown"
)

func itoa(n int) string { return strconv.Itoa(n) }

// reader is built once: it holds no state between pages.
var reader = sync.OnceValue(func() goldmark.Markdown {
	return goldmark.New(goldmark.WithExtensions(
		extension.NewTable(extension.WithTableCellAlignMethod(extension.TableCellAlignAttribute)),
		extension.Strikethrough, extension.TaskList, extension.Linkify))
})

// body is the sections of prose and working blocks, in their order. A section of
// prose ends at a heading or a working block, so that a change touches few.
func (m *maker) body() (list []Section) {
	skip := m.Document.Body()
	source := m.Document.Source[skip:]
	if m.ctx.Err() != nil {
		return nil
	}
	tree := m.Memory.tree(m.Document)
	m.nameHeadings(tree, source, skip)
	m.renderer = m.newRenderer(skip)
	var run []ast.Node
	flush := func() {
		if html := m.prose(run, source); len(html) > 0 {
			id := m.id("s-" + m.section)
			list = append(list, Section{id, `<section id="` + id + `" class="prose">` + string(html) + "</section>"})
		}
		run = nil
	}
	for n := tree.FirstChild(); n != nil && m.ctx.Err() == nil; n = n.NextSibling() {
		switch x := n.(type) {
		case *ast.Heading:
			flush()
			m.section = m.slug(plain(x, source))
		case *ast.FencedCodeBlock:
			if i, ours := m.blockAt(x, skip); ours {
				flush() // it numbers ids ahead of this one
				list = append(list, m.blockSection(m.fenced(i), m.Document.Blocks[i].Word))
				continue
			}
		}
		run = append(run, n)
	}
	flush()
	return list
}

func (m *maker) blockSection(html []byte, word string) Section {
	id, class := m.id("b-"+m.section), "block"
	if Asks(word) {
		class = askedClass
	}
	return Section{id, `<section id="` + id + `" class="` + class + `">` + string(html) + "</section>"}
}

// treeOf is the Markdown of a document without its worked regions. Nobody writes to it.
func treeOf(d *markdown.Document) ast.Node {
	skip := d.Body()
	tree := reader().Parser().Parse(text.NewReader(d.Source[skip:]))
	prune(d, tree, skip)
	markCells(tree, skip)
	return tree
}

// prune takes the worked regions out of the tree: what they hold is worked anew.
func prune(d *markdown.Document, parent ast.Node, skip int) {
	for n := parent.FirstChild(); n != nil; {
		next := n.NextSibling()
		if n.Type() == ast.TypeBlock {
			if at := startOf(n); at >= 0 && d.InRegion(at+skip) {
				parent.RemoveChild(parent, n)
			} else {
				prune(d, n, skip)
			}
		}
		n = next
	}
}

// startOf is where a block's text begins, -1 for one without.
func startOf(n ast.Node) int {
	if n.Type() == ast.TypeBlock && n.Lines() != nil && n.Lines().Len() > 0 {
		return n.Lines().At(0).Start
	}
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if t, ok := c.(*ast.Text); ok {
			return t.Segment.Start
		}
		if at := startOf(c); at >= 0 {
			return at
		}
	}
	return -1
}

// fenced is a block of ours, worked. What is given is overwritten by the next one.
func (m *maker) fenced(i int) []byte {
	if Asks(m.Document.Blocks[i].Word) {
		return m.asked(i)
	}
	return m.block(i)
}

// blockAt is the number of the block that a fence opens, false for code of another kind.
// The place decides: whoever counted, or read the word again, could come to another block.
func (m *maker) blockAt(n *ast.FencedCodeBlock, skip int) (i int, ours bool) {
	if n.Info == nil {
		return 0, false
	}
	at, blocks := n.Info.Segment.Start+skip, m.Document.Blocks
	i = sort.Search(len(blocks), func(i int) bool { return blocks[i].Start > at }) - 1
	return i, i >= 0 && bytes.IndexByte(m.Document.Source[blocks[i].Start:at], '\n') < 0
}

// prose is a run of the builder's own text, made safe. What is given is overwritten by the
// next one.
func (m *maker) prose(run []ast.Node, source []byte) []byte {
	if len(run) == 0 {
		return nil
	}
	m.own = m.own[:0]
	made := m.renderedSafe(run, source)
	if !made.whole {
		m.asTyped = true
		made = m.renderedSafe(run, source)
		m.asTyped = false
	}
	return m.filled(made.pieces)
}

// renderedSafe is a run of prose made safe, with its gaps.
func (m *maker) renderedSafe(run []ast.Node, source []byte) safeHTML {
	m.placed = 0
	m.rendered.Reset()
	for _, n := range run {
		_ = m.renderer.Render(m.writes, source, n) // a buffer takes everything
	}
	return remembered(m.Memory, "prose", m.rendered.String(), safe)
}

// newRenderer renders the builder's text, of which so much stands ahead of the Markdown.
func (m *maker) newRenderer(skip int) renderer.Renderer {
	return renderer.NewRenderer(renderer.WithNodeRenderers(
		util.Prioritized(&writer{m, skip}, 100),
		util.Prioritized(grender.NewRenderer(grender.WithUnsafe()), 1000),
		util.Prioritized(extension.NewTableHTMLRenderer(extension.WithTableCellAlignMethod(extension.TableCellAlignAttribute)), 500),
		util.Prioritized(extension.NewStrikethroughHTMLRenderer(), 500),
		util.Prioritized(extension.NewTaskCheckBoxHTMLRenderer(), 500)))
}

// marker begins the names of our own places in the builder's HTML. It is a byte that no
// file has, being UTF-8, so that nobody can write such a name.
const marker = "\xff"

// place puts something of ours into the builder's text: a mark that is replaced
// once the rest is made safe. It is made once, however often that text is rendered: making it
// counts what is broken, and gives ids.
func (m *maker) place(element string, html func() string) string {
	if m.placed == len(m.own) {
		m.own = append(m.own, html())
	}
	m.placed++
	return "<" + element + ` class="` + marker + "-" + itoa(m.placed-1) + `"></` + element + ">"
}

// nameHeadings gives each heading its id, before any link asks for one.
func (m *maker) nameHeadings(tree ast.Node, source []byte, skip int) {
	_ = ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		h, ok := n.(*ast.Heading)
		if !ok || !entering {
			return ast.WalkContinue, nil
		}
		slug := m.slug(plain(h, source))
		says := m.valued(h, source, skip)
		id := m.id("h-" + slug)
		m.headingIDs[h] = id
		if m.slugs[slug] == "" {
			m.slugs[slug] = id
		}
		if h.Level == 1 && m.title == "" {
			m.title, m.titleID = says, id
		} else if says != "" {
			m.headings = append(m.headings, heading{h.Level, id, html.EscapeString(says)})
		}
		return ast.WalkSkipChildren, nil
	})
}

// heading puts a heading's id on it; the page's title stands at its top already.
func (w *writer) heading(out util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	h := n.(*ast.Heading)
	id, level := w.headingIDs[h], itoa(h.Level)
	switch {
	case id == w.titleID:
		return ast.WalkSkipChildren, nil
	case entering:
		out.WriteString("<h" + level + ` class="` + marker + "-" + id + `">`)
	default:
		out.WriteString("</h" + level + ">\n")
	}
	return ast.WalkContinue, nil
}

// plain is a node's text without marks.
func plain(n ast.Node, source []byte) string {
	return plainWith(n, source, func(*ast.CodeSpan) (string, bool) { return "", false })
}

// valued is plain, with what values in the prose come to.
func (m *maker) valued(n ast.Node, source []byte, skip int) string {
	return plainWith(n, source, func(c *ast.CodeSpan) (string, bool) { return m.valueIn(c, skip) })
}

// plainWith is plain, with another text for some code.
func plainWith(n ast.Node, source []byte, code func(*ast.CodeSpan) (string, bool)) string {
	var out strings.Builder
	_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch x := n.(type) {
		case *ast.Text:
			out.Write(x.Segment.Value(source))
			if x.SoftLineBreak() || x.HardLineBreak() {
				out.WriteByte('\n')
			}
		case *ast.CodeSpan:
			if text, ok := code(x); ok {
				out.WriteString(text)
				return ast.WalkSkipChildren, nil
			}
		case *ast.String:
			out.Write(x.Value)
		case *extast.TaskCheckBox:
			return ast.WalkSkipChildren, nil
		}
		return ast.WalkContinue, nil
	})
	return out.String()
}

// slug is a text as an address has it: as the common hosts make them.
func (m *maker) slug(text string) string {
	var out strings.Builder
	for _, r := range strings.ToLower(strings.TrimSpace(text)) {
		switch {
		case unicode.IsLetter(r), unicode.IsDigit(r), r == '-', r == '_':
			out.WriteRune(r)
		case r == ' ', r == '\n':
			out.WriteByte('-')
		}
	}
	if out.Len() == 0 {
		return "part"
	}
	return out.String()
}
