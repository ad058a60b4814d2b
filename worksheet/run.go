package worksheet

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"inkwing/evaluate"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet/markdown"
)

// A runner works sheets with an evaluator; a test puts its own in.
type runner struct {
	work func(context.Context, *evaluate.Sheet, evaluate.Loader) *report.Report
}

// run is one file's way through: bytes, sheet, report, edits, bytes.
func (w runner) run(ctx context.Context, files Files, path string, text []byte) *Result {
	r := &Result{Path: path, Source: text, Output: text}
	near, regions := markdown.MayNearlyHold(text), markdown.MayHoldRegion(text)
	switch {
	case !near && !regions:
		return r
	case !regions && !markdown.MayHold(text):
		if len(text) <= MaxFile {
			r.Notes = markdown.Parse(path, text).Notes
		}
		return r
	}
	if len(text) > MaxFile {
		r.Blocks, r.Refused = 1, []message.Diagnostic{tooLarge(path)}
		return r
	}
	doc := markdown.Parse(path, text)
	r.Blocks = len(doc.Blocks)
	if doc.Unread {
		r.Blocks = 1
	}
	if r.Blocks == 0 {
		if len(doc.Refused) == 0 && len(doc.Regions) > 0 {
			r.edits, r.Notes = withoutOrphans(doc)
			r.Output = splice(doc.Source, r.edits)
			r.Charts = StripCharts(files, path)
		}
		r.Notes = inPlace(r.Notes, doc.Notes)
		return r
	}
	if len(doc.Refused) > 0 {
		r.Refused = message.Sort(doc.Refused, func(a, b message.Span) bool { return a.Start == b.Start })
		return r
	}
	r.Used = map[string][]byte{}
	r.Report = w.work(ctx, doc.Sheet(), &loader{files, r.Used})
	r.Charts = charts(files, path, doc.Source, r.Report)
	lines := blockLines(doc, r.Report)
	r.edits, r.Notes = rewrite(doc, r.Report, lines)
	if len(r.edits) > 0 {
		r.Changes = changes(doc, lines, r.Report)
	}
	r.Notes = inPlace(r.Notes, doc.Notes, bareNotes(doc, r.Report))
	r.Output = splice(doc.Source, r.edits)
	return r
}

// inPlace is all notes in the order of the file.
func inPlace(lists ...[]message.Diagnostic) []message.Diagnostic {
	all := slices.Concat(lists...)
	slices.SortStableFunc(all, func(a, b message.Diagnostic) int { return cmp.Compare(a.Span.Start, b.Span.Start) })
	return all
}

// bareNotes tells of the spans whose bracket is empty, though they begin with the
// name of a quantity.
func bareNotes(doc *markdown.Document, r *report.Report) (notes []message.Diagnostic) {
	for _, b := range doc.Bare {
		i := slices.IndexFunc(r.Quantities, func(q report.Quantity) bool { return q.Name == b.Name })
		if i < 0 {
			continue
		}
		notes = append(notes, message.Diagnostic{Span: b.Span, Summary: "without a unit in its bracket this is prose, and not kept up to date",
			Hint: "write `" + b.Name + " [" + bracket(r.Quantities[i]) + "] = …`, or leave the bracket out"})
	}
	return notes
}

// bracket is what the bracket of a quantity's inline value can hold.
func bracket(q report.Quantity) string {
	switch q.Value.(type) {
	case bool, string:
		return "text"
	}
	return cmp.Or(q.SIUnit, "1")
}

// rewrite brings a text up to date. Taking a region out can, in odd places, make
// other Markdown of what stands around it; the regions are then kept.
func rewrite(doc *markdown.Document, r *report.Report, lines [][]string) ([]edit, []message.Diagnostic) {
	fresh := append(regionEdits(doc, lines), inlineEdits(doc, r)...)
	gone, notes := orphanEdits(doc)
	emptied := emptiedRegions(doc, lines)
	for _, r := range emptied {
		gone = append(gone, edit{start: r.Whole.Start, end: r.Whole.End})
	}
	if len(gone) == 0 {
		return fresh, notes
	}
	if all := slices.Concat(fresh, gone); sound(doc, splice(doc.Source, all)) {
		return all, notes
	}
	for i := range notes {
		notes[i].Summary = "this worked region follows no working block"
		notes[i].Hint = "delete it; the run leaves it, since the text around it would be read otherwise"
	}
	return append(fresh, emptyEdits(doc, emptied)...), notes
}

// withoutOrphans takes the regions out of a text whose last working block is
// gone: their numbers would be left standing.
func withoutOrphans(doc *markdown.Document) ([]edit, []message.Diagnostic) {
	gone, notes := orphanEdits(doc)
	if sound(doc, splice(doc.Source, gone)) {
		return gone, notes
	}
	return nil, notes
}

// sound reports whether a rewritten text holds the same blocks and no orphan.
func sound(doc *markdown.Document, out []byte) bool {
	again := markdown.Parse(doc.Name, out)
	same := slices.EqualFunc(doc.Blocks, again.Blocks, func(a, b markdown.Block) bool {
		return a.Nested == b.Nested && slices.EqualFunc(a.Lines, b.Lines, func(a, b syntax.Line) bool { return a.Text == b.Text })
	})
	return same && len(again.Refused) == 0 && len(again.Inline) == len(doc.Inline) &&
		!slices.ContainsFunc(again.Regions, func(r markdown.Region) bool { return r.Block < 0 })
}

// tooLarge says that a file is over the bound.
func tooLarge(path string) message.Diagnostic {
	return message.Diagnostic{Span: message.Span{File: path},
		Summary: fmt.Sprintf("the file is larger than %d MiB", MaxFile>>20),
		Hint:    "split it, and let one part use the other"}
}
