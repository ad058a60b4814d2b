package worksheet

import (
	"bytes"
	"context"
	"slices"

	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet/markdown"
)

// fault holds a rewritten text to the promises before it is written: it reads as
// the same sheet, another run would find nothing to do, and what strip gives back
// is what stood there without regions. If not, block is the first block that reads
// otherwise or has no region of its own, -1 for none. A text that the next run would
// not read at all has too much of something.
func fault(ctx context.Context, doc *markdown.Document, out []byte, r *report.Report, say [][]string) (block int, ok bool) {
	again := markdown.ParseWithin(ctx, doc.Name, out)
	if again.Unread {
		return unread, false
	}
	if i := otherBlock(doc, again, say); i >= 0 {
		return i, false
	}
	same := len(again.Refused) == 0 && len(again.Blocks) == len(doc.Blocks) &&
		slices.EqualFunc(doc.Tables, again.Tables, sameTable) && slices.EqualFunc(doc.Inline, again.Inline, sameInline)
	return -1, same && settled(again, r, say) && bytes.Equal(bare(doc, r), bare(again, r))
}

// unread stands for no block, where a text would not be read.
const unread = -2

// otherBlock is the first block that again reads otherwise, or without the region
// that it should have.
func otherBlock(doc, again *markdown.Document, say [][]string) int {
	for i, b := range doc.Blocks {
		if i >= len(again.Blocks) || !sameBlock(b, again.Blocks[i]) || len(say[i]) > 0 && again.Blocks[i].Region < 0 {
			return i
		}
	}
	return -1
}

// settled reports whether another run would leave all regions and inline values
// as they are.
func settled(doc *markdown.Document, r *report.Report, say [][]string) bool {
	return len(regionEdits(doc, say, asItStands)) == 0 && len(inlineEdits(doc, r)) == 0
}

// bare is a text up to date, without its regions.
func bare(doc *markdown.Document, r *report.Report) []byte {
	return splice(doc.Source, append(regionsOut(doc), inlineEdits(doc, r)...))
}

// regionsOut takes all regions out.
func regionsOut(doc *markdown.Document) (edits []edit) {
	for _, r := range doc.Regions {
		edits = append(edits, edit{start: r.Whole.Start, end: r.Whole.End})
	}
	return edits
}

func sameBlock(a, b markdown.Block) bool {
	return a.Word == b.Word && a.Nested == b.Nested && slices.EqualFunc(a.Lines, b.Lines, func(a, b syntax.Line) bool { return a.Text == b.Text })
}

func sameInline(a, b markdown.Inline) bool {
	return a.Name == b.Name && a.Unit.Text == b.Unit.Text && a.InCell == b.InCell
}

func sameTable(a, b *syntax.Table) bool {
	return a.Name.Name == b.Name.Name && len(a.Problems) == len(b.Problems) && sameCells(a.Head, b.Head) && slices.EqualFunc(a.Rows, b.Rows, sameCells)
}

func sameCells(a, b []syntax.Cell) bool {
	return slices.EqualFunc(a, b, func(a, b syntax.Cell) bool { return a.Text == b.Text })
}
