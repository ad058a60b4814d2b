package page

import (
	"bytes"
	"html"
	"regexp"
	"strings"

	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	grender "github.com/yuin/goldmark/renderer/html"
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
	r.Register(ast.KindRawHTML, w.raw)
	r.Register(ast.KindImage, w.picture)
	r.Register(kindCell, w.cell)
}

// A cellText is the text of a cell that begins with plain text: one that a reader may be able
// to change.
type cellText struct {
	ast.BaseInline
	at int // in the file
}

var kindCell = ast.NewNodeKind("CellText")

// Kind is that of the texts of cells.
func (*cellText) Kind() ast.NodeKind { return kindCell }

// Dump prints the node, for goldmark's own use.
func (c *cellText) Dump(source []byte, level int) { ast.DumpHelper(c, source, level, nil, nil) }

// markCells finds the cells of tables that begin with plain text.
func markCells(tree ast.Node, skip int) {
	_ = ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		cell, ok := n.(*extast.TableCell)
		if !ok || !entering {
			return ast.WalkContinue, nil
		}
		if t, ok := cell.FirstChild().(*ast.Text); ok {
			c := &cellText{at: t.Segment.Start + skip}
			for cell.FirstChild() != nil {
				c.AppendChild(c, cell.FirstChild())
			}
			cell.AppendChild(cell, c)
		}
		return ast.WalkSkipChildren, nil
	})
}

// cell is what stands in a cell, or is tried there, if it is within reach.
func (w *writer) cell(out util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	at := n.(*cellText).at
	name, ok := w.reached(message.Span{File: w.Document.Name, Start: at, End: at})
	if !ok {
		return ast.WalkContinue, nil
	}
	text := orElse(w.Tried[name], plain(n, source))
	out.WriteString(w.place("span", func() string {
		return `<span data-name="` + html.EscapeString(name) + `">` + html.EscapeString(text) + "</span>"
	}))
	return ast.WalkSkipChildren, nil
}

// fence is a working block inside a list or a quote, or code of another kind.
func (w *writer) fence(out util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	f := n.(*ast.FencedCodeBlock)
	if i, ours := w.blockAt(f, w.skip); ours {
		out.WriteString(w.place("div", func() string { return `<div class="block">` + string(w.fenced(i)) + "</div>" }))
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
	if i, ok := w.inlineAt(n, w.skip); ok {
		out.WriteString(w.place("span", func() string { return w.inline(i) }))
		return ast.WalkSkipChildren, nil
	}
	out.WriteString("<code>" + html.EscapeString(strings.ReplaceAll(plain(n, source), "\n", " ")) + "</code>")
	return ast.WalkSkipChildren, nil
}

// picture is an image, whose words may hold values too.
func (w *writer) picture(out util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	x := n.(*ast.Image)
	out.WriteString(`<img src="` + string(util.EscapeHTML(util.URLEscape(x.Destination, true))) + `" alt="`)
	grender.DefaultWriter.Write(out, []byte(w.valued(x, source, w.skip)))
	if x.Title != nil {
		out.WriteString(`" title="`)
		grender.DefaultWriter.Write(out, x.Title)
	}
	out.WriteString(`">`)
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
	switch {
	case !w.asTyped:
		out.Write(text)
	case !isComment(text):
		out.WriteString("<p>" + html.EscapeString(string(text)) + "</p>\n")
	}
	return ast.WalkContinue, nil
}

// raw is HTML within a paragraph.
func (w *writer) raw(out util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	text := n.(*ast.RawHTML).Segments.Value(source)
	switch {
	case !entering:
	case !w.asTyped:
		out.Write(text)
	case !isComment(text):
		out.WriteString(html.EscapeString(string(text)))
	}
	return ast.WalkSkipChildren, nil
}

// isComment reports whether HTML is one comment, which nobody is to see.
func isComment(text []byte) bool {
	text = bytes.TrimSpace(text)
	return bytes.HasPrefix(text, []byte("<!--")) && bytes.Index(text, []byte("-->")) == len(text)-len("-->")
}
