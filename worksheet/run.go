package worksheet

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/worksheet/markdown"
)

// A runner works sheets with an evaluator; a test puts its own in.
type runner struct {
	work  func(context.Context, *sheet.Sheet, sheet.Loader) *report.Report
	force bool // take out what was typed inside of regions
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
			r.Notes = markdown.ParseWithin(ctx, path, text).Notes
		}
		return r
	}
	if len(text) > MaxFile {
		r.Blocks, r.Refused = 1, []message.Diagnostic{tooLarge(path)}
		return r
	}
	doc := markdown.ParseWithin(ctx, path, text)
	r.Blocks = len(doc.Blocks)
	if doc.Unread {
		r.Blocks = 1
	}
	if r.Blocks == 0 {
		if len(doc.Refused) == 0 && len(doc.Regions) > 0 {
			if r.Refused = w.typed(doc, nil); len(r.Refused) > 0 {
				return r
			}
			way := withoutOrphans(ctx, doc)
			r.edited(way.edits)
			r.Notes, r.Output = way.notes, way.out
			r.Charts = StripCharts(files, path)
		}
		r.Notes = inPlace(r.Notes, doc.Notes)
		return r
	}
	if len(doc.Refused) > 0 {
		r.Refused = message.Sort(doc.Refused, func(a, b message.Span) bool { return a.Start == b.Start })
		return r
	}
	if r.Refused = tooMuchOf(doc); len(r.Refused) > 0 {
		return r
	}
	r.Used = map[string][]byte{}
	r.Report = w.work(ctx, doc.Sheet(), newLoader(ctx, files, r.Used))
	gather(ctx, w, files, doc, r.Report)
	r.Charts, r.Kept = charts(files, path, doc.Source, r.Report)
	way, refused := rewrite(ctx, doc, r.Report)
	if len(refused) > 0 {
		return &Result{Path: path, Source: text, Output: text, Blocks: r.Blocks, Refused: refused}
	}
	if refused = w.typed(doc, way.say); len(refused) > 0 {
		return &Result{Path: path, Source: text, Output: text, Blocks: r.Blocks, Refused: refused}
	}
	r.edited(way.edits)
	r.Output = way.out
	if len(r.edits) > 0 {
		r.Changes = changes(doc, way.say, r.Report)
	}
	r.Notes = inPlace(way.notes, doc.Notes, bareNotes(doc, r.Report))
	return r
}

// typed is what stands in regions and would be lost, unless that is wanted.
func (w runner) typed(doc *markdown.Document, say [][]string) []message.Diagnostic {
	if w.force {
		return nil
	}
	return typedInside(doc, say)
}

// inPlace is all notes in the order of the file.
func inPlace(lists ...[]message.Diagnostic) []message.Diagnostic {
	all := slices.Concat(lists...)
	slices.SortStableFunc(all, func(a, b message.Diagnostic) int { return cmp.Compare(a.Span.Start, b.Span.Start) })
	return all
}

// bareNotes tells of the spans that are nearly inline values and begin with the name
// of a quantity.
func bareNotes(doc *markdown.Document, r *report.Report) (notes []message.Diagnostic) {
	if len(doc.Bare) == 0 {
		return nil
	}
	named := map[string]int{}
	for i, q := range slices.Backward(r.Quantities) {
		named[q.Name] = i
	}
	for _, b := range doc.Bare {
		i, ok := named[b.Name]
		if !ok {
			continue
		}
		notes = append(notes, message.Diagnostic{Span: b.Span, Summary: b.Summary,
			Hint: "write `" + b.Name + " [" + cmp.Or(b.Unit, bracket(r.Quantities[i])) + "] = …`" + b.Else})
	}
	return notes
}

// bracket is what the bracket of a quantity's inline value can hold.
func bracket(q report.Quantity) string {
	switch q.Value.(type) {
	case bool, string:
		return "text"
	}
	return cmp.Or(q.SIUnit(), "1")
}

// tooLarge says that a file is over the bound.
func tooLarge(path string) message.Diagnostic {
	return message.Diagnostic{Span: message.Span{File: path},
		Summary: fmt.Sprintf("the file is larger than %d MiB", MaxFile>>20),
		Hint:    "split it, and let one part use the other"}
}
