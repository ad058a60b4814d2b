package worksheet

import (
	"context"
	"fmt"

	"inkwing/evaluate"
	"inkwing/evaluate/message"
	"inkwing/worksheet/markdown"
)

// A runner works sheets with an evaluator; a test puts its own in.
type runner struct {
	work func(context.Context, *evaluate.Sheet, evaluate.Loader) *evaluate.Report
}

// run is one file's way through: bytes, sheet, report, edits, bytes.
func (w runner) run(ctx context.Context, files Files, path string, text []byte) *Result {
	r := &Result{Path: path, Source: text, Output: text}
	if !markdown.MayHold(text) {
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
		return r
	}
	if len(doc.Refused) > 0 {
		r.Refused = message.Sort(doc.Refused, func(a, b message.Span) bool { return a.Start == b.Start })
		return r
	}
	r.Report = w.work(ctx, doc.Sheet(), &loader{files})
	edits := append(regionEdits(doc, r.Report), inlineEdits(doc, r.Report)...)
	orphans, notes := orphanEdits(doc)
	r.Output, r.Notes = splice(text, append(edits, orphans...)), notes
	return r
}

// tooLarge says that a file is over the bound.
func tooLarge(path string) message.Diagnostic {
	return message.Diagnostic{Span: message.Span{File: path},
		Summary: fmt.Sprintf("the file is larger than %d MiB", MaxFile>>20),
		Hint:    "split it, and let one part use the other"}
}
