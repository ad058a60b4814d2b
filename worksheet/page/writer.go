package page

import (
	"html"
	"regexp"
	"strings"

	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/util"

	"inkwing/evaluate/message"
)

// writer renders what is not as Markdown has it: our own places.
type writer struct {
	*maker
	skip int
}

// RegisterFuncs names the kinds of nodes that are rendered here.
func (w *writer) RegisterFuncs(r renderer.NodeRendererFuncRegisterer) {
	r.Register(ast.KindFencedCodeBlock, w.fence)
	r.Register(ast.KindCodeSpan, w.code)
	r.Register(ast.KindHeading, w.heading)
	r.Register(ast.KindHTMLBlock, w.comment)
	r.Register(kindCell, w.cell)
}

// A cellText is what stands in a cell that a reader may change.
type cellText struct {
	ast.BaseInline
	name, text string
}

var kindCell = ast.NewNodeKind("CellText")

// Kind is that of the texts of cells.
func (*cellText) Kind() ast.NodeKind { return kindCell }

// Dump prints the node, for goldmark's own use.
func (c *cellText) Dump(source []byte, level int) { ast.DumpHelper(c, source, level, nil, nil) }

// markCells finds the cells of tables that are within reach and hold plain text.
func (m *maker) markCells(tree ast.Node, source []byte, skip int) {
	if m.Reach == nil {
		return
	}
	_ = ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		cell, ok := n.(*extast.TableCell)
		if !ok || !entering {
			return ast.WalkContinue, nil
		}
		if t, ok := cell.FirstChild().(*ast.Text); ok {
			at := t.Segment.Start + skip
			if name, ok := m.Reach(message.Span{File: m.Document.Name, Start: at, End: at}); ok {
				c := &cellText{name: name, text: orElse(m.Tried[name], plain(cell, source))}
				cell.RemoveChildren(cell)
				cell.AppendChild(cell, c)
			}
		}
		return ast.WalkSkipChildren, nil
	})
}

func (w *writer) cell(out util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		c := n.(*cellText)
		out.WriteString(w.place("span", `<span data-name="`+html.EscapeString(c.name)+`">`+html.EscapeString(c.text)+"</span>"))
	}
	return ast.WalkSkipChildren, nil
}

// fence is a working block inside a list or a quote, or code of another kind.
func (w *writer) fence(out util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	f := n.(*ast.FencedCodeBlock)
	if html, ours := w.fenced(f, source); ours {
		out.WriteString(w.place("div", `<div class="block">`+string(html)+"</div>"))
		return ast.WalkSkipChildren, nil
	}
	out.WriteString("<pre><code>")
	for i := range f.Lines().Len() {
		seg := f.Lines().At(i)
		out.WriteString(html.EscapeString(string(seg.Value(source))))
	}
	out.WriteString("</code></pre>\n")
	return ast.WalkSkipChildren, nil
}

// code is an inline value, or code.
func (w *writer) code(out util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	if first, ok := n.FirstChild().(*ast.Text); ok {
		if i, ok := w.codes[first.Segment.Start+w.skip]; ok {
			out.WriteString(w.place("span", w.inline(i)))
			return ast.WalkSkipChildren, nil
		}
	}
	out.WriteString("<code>" + html.EscapeString(strings.ReplaceAll(plain(n, source), "\n", " ")) + "</code>")
	return ast.WalkSkipChildren, nil
}

// tableName is the comment over a table that gives it a name.
var tableName = regexp.MustCompile(`^<!--[ \t]*table:[ \t]*(.*?)[ \t]*-->\s*$`)

// comment is raw HTML; the name of a table goes to its caption.
func (w *writer) comment(out util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	b := n.(*ast.HTMLBlock)
	var text []byte
	for i := range b.Lines().Len() {
		seg := b.Lines().At(i)
		text = append(text, seg.Value(source)...)
	}
	if b.HasClosure() {
		text = append(text, b.ClosureLine.Value(source)...)
	}
	if m := tableName.FindSubmatch(text); m != nil && n.NextSibling() != nil && n.NextSibling().Kind() == extast.KindTable {
		out.WriteString(`<p class="` + marker + `-caption">` + html.EscapeString(strings.ReplaceAll(string(m[1]), "_", " ")) + "</p>\n")
		return ast.WalkContinue, nil
	}
	out.Write(text)
	return ast.WalkContinue, nil
}
