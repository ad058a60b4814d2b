package worksheet

import (
	"bytes"
	"context"
	"fmt"
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/region"
)

// A rewriting is one way to bring a text up to date.
type rewriting struct {
	edits []edit
	notes []message.Diagnostic
	out   []byte
	say   [][]string // what the blocks' regions say
}

// rewrite brings a text up to date in the first way that is sound. Blanks and tabs
// mixed before a fence may make code of what is put behind it, so that a new
// region is then indented by blanks; taking a region out can, in odd places, make
// other Markdown of what stands around it, so that it is then kept. Where no way
// is sound the text stays, and why is given.
func rewrite(ctx context.Context, doc *markdown.Document, r *report.Report) (rewriting, []message.Diagnostic) {
	if tooMuch(r) {
		return rewriting{}, []message.Diagnostic{grown(doc)}
	}
	say := blockLines(ctx, doc, r)
	inline := inlineEdits(doc, r)
	worst := -1
	for _, gone := range []func(*markdown.Document, [][]string) rewriting{taken, kept} {
		for _, prefix := range []func(string) string{asItStands, inBlanks} {
			way := gone(doc, say)
			way.edits = slices.Concat(regionEdits(doc, say, prefix), inline, way.edits)
			if way.out = splice(doc.Source, way.edits); len(way.out) > MaxFile {
				return rewriting{}, []message.Diagnostic{grown(doc)}
			}
			if way.say = say; len(way.edits) == 0 && ctx.Err() == nil {
				return way, nil
			}
			at, ok := fault(ctx, doc, way.out, r, say)
			switch {
			case ctx.Err() != nil:
				return rewriting{}, []message.Diagnostic{stopped(doc.Name)}
			case ok:
				return way, nil
			case at == unread:
				return rewriting{}, []message.Diagnostic{grown(doc)}
			}
			worst = max(worst, at)
		}
	}
	return rewriting{}, []message.Diagnostic{unsound(doc, worst)}
}

// stopped says that the time was up before a text could be laid out.
func stopped(name string) message.Diagnostic {
	return message.Diagnostic{Span: message.Span{File: name}, Summary: syntax.Stopped}
}

// taken takes out the regions that follow no block, and those whose blocks have
// nothing left to say.
func taken(doc *markdown.Document, say [][]string) (way rewriting) {
	way.edits, way.notes = orphanEdits(doc)
	for _, r := range emptiedRegions(doc, say) {
		way.edits = append(way.edits, edit{start: r.Whole.Start, end: r.Whole.End})
	}
	return way
}

// kept leaves them, the latter empty.
func kept(doc *markdown.Document, say [][]string) (way rewriting) {
	_, way.notes = orphanEdits(doc)
	for i := range way.notes {
		way.notes[i].Summary = "this worked region follows no working block"
		way.notes[i].Hint = "delete it; the run leaves it, since the text around it would be read otherwise"
	}
	way.edits = emptyEdits(doc, emptiedRegions(doc, say))
	return way
}

// withoutOrphans takes the regions out of a text whose last working block is
// gone: their numbers would be left standing.
func withoutOrphans(ctx context.Context, doc *markdown.Document) rewriting {
	way := taken(doc, nil)
	if way.out = splice(doc.Source, way.edits); len(way.edits) == 0 {
		return way
	}
	if _, ok := fault(ctx, doc, way.out, &report.Report{}, nil); ok {
		return way
	}
	way = kept(doc, nil)
	way.out = doc.Source
	return way
}

// asItStands is the prefix of the closing fence.
func asItStands(prefix string) string { return prefix }

// inBlanks is a prefix with blanks for its tabs, to the same columns.
func inBlanks(prefix string) string {
	var out strings.Builder
	for i := range len(prefix) {
		if prefix[i] != '\t' {
			out.WriteByte(prefix[i])
			continue
		}
		for first := true; first || out.Len()%tabStop != 0; first = false {
			out.WriteByte(' ')
		}
	}
	return out.String()
}

// tabStop is the width of a tab in Markdown (CommonMark 0.31, section 2.2).
const tabStop = 4

// tooMuch reports whether what a report shows is too much for a file, before any
// of it is laid out.
func tooMuch(r *report.Report) bool {
	size := 0
	for _, b := range r.Blocks {
		size += region.Least(b)
	}
	return size > 2*MaxFile
}

// grown says that the results would make a file too large for the next run.
func grown(doc *markdown.Document) message.Diagnostic {
	return message.Diagnostic{Span: message.Span{File: doc.Name},
		Summary: fmt.Sprintf("with its results the file would be larger than %d MiB, or hold more than %d lines or cells", MaxFile>>20, markdown.MaxCells),
		Hint:    "work fewer values at a time, or split the file and let one part use the other"}
}

// unsound says that results can stand nowhere behind a block; behind which is not
// known where it is -1.
func unsound(doc *markdown.Document, block int) message.Diagnostic {
	d := message.Diagnostic{Span: message.Span{File: doc.Name},
		Summary: "the results cannot be put behind this block: the text around it would be read otherwise",
		Hint:    "indent both of its fences alike, with blanks, and leave a blank line below it"}
	if block < 0 {
		d.Summary = "the results cannot be put into this file: the text around them would be read otherwise"
		d.Hint = "leave a blank line above and below each block and each table"
		return d
	}
	b := doc.Blocks[block]
	first, _, _ := bytes.Cut(doc.Source[b.Start:b.End], []byte("\n"))
	d.Span.Start, d.Span.End = b.Start, b.Start+len(bytes.TrimRight(first, "\r"))
	return d
}
