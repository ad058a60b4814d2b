package markdown

import (
	"bytes"
	"cmp"
	"regexp"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"inkwing/evaluate/message"
)

// A marker counts only if it is a comment of one line with nothing beside it.
// A word behind "worked" other than after a colon makes it the builder's own.
var (
	openMarker  = regexp.MustCompile(`^<!--[ \t]*worked[ \t]*(:.*)?-->$`)
	closeMarker = regexp.MustCompile(`^<!--[ \t]*/worked[ \t]*-->$`)
)

// A marker is one marker comment, start to end without blanks around it.
type marker struct {
	start, end int
	opens      bool
}

// markers lists the marker comments of a tree.
func markers(tree ast.Node, source []byte, skip int) (list []marker) {
	eachComment(tree, source, func(_ *ast.HTMLBlock, start int, comment []byte) {
		opens := openMarker.Match(comment)
		if opens || closeMarker.Match(comment) {
			list = append(list, marker{start + skip, start + skip + len(comment), opens})
		}
	})
	return list
}

// eachComment calls f for the comment blocks of one line, blanks trimmed.
func eachComment(tree ast.Node, source []byte, f func(n *ast.HTMLBlock, start int, comment []byte)) {
	if !bytes.Contains(source, []byte("<!--")) {
		return // most files: spares the walk
	}
	_ = ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if n.Type() == ast.TypeInline {
			return ast.WalkSkipChildren, nil
		}
		h, ok := n.(*ast.HTMLBlock)
		if !entering || !ok || h.HTMLBlockType != ast.HTMLBlockType2 || h.Lines().Len() != 1 || h.HasClosure() {
			return ast.WalkContinue, nil
		}
		seg := h.Lines().At(0)
		raw := source[seg.Start:seg.Stop]
		left := len(raw) - len(bytes.TrimLeft(raw, " \t"))
		f(h, seg.Start+left, bytes.TrimRight(raw[left:], " \t\r\n"))
		return ast.WalkContinue, nil
	})
}

// addRegions pairs the markers and finds the block that each pair belongs to.
func (d *Document) addRegions(list []marker) {
	var open *marker
	for i, m := range list {
		switch {
		case m.opens && open != nil:
			d.refuse(m.start, m.end, "a worked region begins inside another one",
				"close the one above with <!-- /worked -->, or delete its marker")
		case m.opens:
			open = &list[i]
		case open == nil:
			d.refuse(m.start, m.end, "a worked region ends here that never began",
				"delete this marker, or put <!-- worked --> where the region begins")
		default:
			d.addRegion(*open, m)
			open = nil
		}
	}
	if open != nil {
		d.refuse(open.start, open.end, "this worked region is not closed",
			"put <!-- /worked --> behind it, or delete this marker")
	}
}

func (d *Document) addRegion(open, shut marker) {
	first, last := lineAt(d.Source, open.start), lineAt(d.Source, shut.start)
	r := Region{
		Open: d.span(open.start, open.end), Close: d.span(shut.start, shut.end),
		Inner:  d.span(first.next, last.start),
		Prefix: string(d.Source[first.start:open.start]), EOL: first.eol,
	}
	r.Block = d.blockBefore(first.start)
	if r.Block >= 0 {
		d.Blocks[r.Block].Region = len(d.Regions)
		r.Whole = d.span(d.inserted(first), last.text)
	} else {
		r.Whole = d.orphan(r, first, last)
	}
	if n := len(d.Regions); n > 0 {
		r.Whole.Start = max(r.Whole.Start, d.Regions[n-1].Whole.End)
	}
	if i := d.firstBlock(open.start); i < len(d.Blocks) && d.Blocks[i].Start < shut.start {
		b := d.Blocks[i]
		d.refuse(b.Start, lineAt(d.Source, b.Start).text, "a working block stands inside a worked region, where the next run would delete it",
			"move it above the region's first marker")
	}
	d.Regions = append(d.Regions, r)
}

// inserted is where the bytes of a block's region begin: the end of the text
// above, one blank line between them taken along. That is what a run inserts.
func (d *Document) inserted(first line) int {
	above := lineAt(d.Source, first.start-1)
	if above.start > 0 && blank(d.Source[above.start:above.text]) {
		return lineAt(d.Source, above.start-1).text
	}
	return above.text
}

// orphan is what goes with a region that follows no block. As many blank lines
// stay as it takes to keep what is above apart from what is below.
func (d *Document) orphan(r Region, first, last line) message.Span {
	prefix := bytes.TrimSpace(d.Source[first.start:r.Open.Start])
	empty := func(at line) bool {
		return bytes.Equal(bytes.TrimSpace(d.Source[at.start:at.text]), prefix)
	}
	top := first.start <= bodyStart(d.Source)
	above := top || empty(lineAt(d.Source, first.start-1))
	below := last.next == len(d.Source) || empty(lineAt(d.Source, last.next))
	switch {
	case !blank(prefix) || !above && !below:
		return d.span(r.Open.Start, r.Close.End)
	case above && below && !top:
		return d.span(d.inserted(first), last.text)
	}
	return d.span(first.start, last.next)
}

// blockBefore is the block that ends above an offset with only blank lines
// between, or -1. Bytes decide, not the tree: a formatter that re-indents a list
// leaves comments where they were, and so outside of it.
func (d *Document) blockBefore(at int) int {
	i := d.firstBlock(at) - 1
	if i < 0 {
		return -1
	}
	if end := d.Blocks[i].End; end == 0 || end > at || !blank(d.Source[end:at]) {
		return -1
	}
	return i
}

// firstBlock is the index of the first block that begins at or behind a place.
func (d *Document) firstBlock(at int) int {
	i, _ := slices.BinarySearchFunc(d.Blocks, at, func(b Block, at int) int { return cmp.Compare(b.Start, at) })
	return i
}

// blank reports whether bytes are only white space and quote marks.
func blank(b []byte) bool {
	// From behind: what stands above a place has been looked at for the one before.
	for _, c := range slices.Backward(b) {
		if strings.IndexByte(" \t\r\n>", c) < 0 {
			return false
		}
	}
	return true
}
