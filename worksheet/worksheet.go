// Package worksheet works Markdown files: it finds their working blocks, has
// them worked, and splices the results into the bytes it owns.
//
// [WorkText] and [Strip] are its verbs. Files are reached through [Files], which a
// test or a browser can stand in for. Its limit: it knows
// what a builder types between the markers by its shape, so that a word put into
// a sentence of an old result is lost at the next run.
package worksheet

import (
	"bytes"
	"context"
	"slices"
	"sort"

	"inkwing/evaluate"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/worksheet/markdown"
)

// MaxFile is the size in bytes of the largest file that is read: 16 MiB.
const MaxFile = 16 << 20

// Files is what a run reaches files through. Paths are slash-separated and
// relative to the run's root. The error's text is shown behind the path.
type Files interface {
	Read(path string) ([]byte, error)
	// List names what lies in a folder; a folder that is not there holds nothing.
	List(folder string) ([]string, error)
}

// A Result is what became of one file.
type Result struct {
	Path    string
	Source  []byte               // as read
	Output  []byte               // what the file should hold; equal to Source if nothing differs
	Report  *report.Report       // nil when refused, or when there is nothing to do
	Refused []message.Diagnostic // why the file is left as it is: markers, conflicts, not UTF-8
	Notes   []message.Diagnostic // worth saying: a region that followed no block was removed, what is nearly a block
	Changes []Change             // quantities that it showed otherwise
	Charts  []ChartFile          // chart files beside it that are not what they should be
	Kept    []ChartFile          // those that are
	Used    map[string][]byte    // the files that it uses, as they were read
	// Basis is that of the page as it stands once this is written, where it was asked for;
	// nil where it has none, or something on it is in error.
	Basis  *Basis
	Blocks int // working blocks found; 0: nothing to do. A file too large or too deep to parse counts as 1

	edits []edit // from Source to Output
	moved []int  // by how much the edits before each, and all of them, move what follows
}

// Changed reports whether something should be written: the file, or charts beside
// it.
func (r *Result) Changed() bool { return r.TextChanged() || len(r.Charts) > 0 }

// TextChanged reports whether the file itself should be written.
func (r *Result) TextChanged() bool { return !bytes.Equal(r.Source, r.Output) }

// Written is where a byte of Source stands in Output; one in a replaced range
// stands at its beginning.
func (r *Result) Written(offset int) int {
	if len(r.edits) == 0 {
		return offset
	}
	i := sort.Search(len(r.edits), func(i int) bool { return r.edits[i].end > offset })
	if i < len(r.edits) && r.edits[i].start <= offset {
		return r.edits[i].start + r.moved[i]
	}
	return offset + r.moved[i]
}

// edited keeps the edits from Source to Output.
func (r *Result) edited(edits []edit) {
	r.edits, r.moved = edits, make([]int, len(edits)+1)
	for i, e := range edits {
		r.moved[i+1] = r.moved[i] + len(e.text) - (e.end - e.start)
	}
}

// WorkText works a text that is already read, such as standard input; path is
// the name that messages give it and that its use statements are relative to.
// The text is not copied, and not changed.
func WorkText(ctx context.Context, files Files, path string, text []byte, options ...Option) *Result {
	w := runner{evaluate.Work, forced(options)}
	if slices.Contains(options, Based) {
		return w.based(ctx, files, path, text)
	}
	return w.run(ctx, files, path, text)
}

// Strip takes the regions out of a text. What a run inserted after a fence goes,
// to the byte; inline values stay as they are. A text with broken markers is
// given back whole, with the reasons, and so is one with something in a region that
// no run wrote.
func Strip(ctx context.Context, path string, text []byte, options ...Option) (out []byte, refused []message.Diagnostic) {
	if !markdown.MayHoldRegion(text) {
		return text, nil
	}
	doc := markdown.ParseWithin(ctx, path, text)
	if len(doc.Refused) > 0 {
		return text, doc.Refused
	}
	if typed := typedInside(doc, nil); len(typed) > 0 && !forced(options) {
		return text, typed
	}
	return splice(text, regionsOut(doc)), nil
}

// Sheet reads a text as a sheet, and gives the loader by which what it uses is
// reached, for those who ask more of it than a report. The sheet is nil where
// the text is refused, with the reasons.
func Sheet(ctx context.Context, files Files, path string, text []byte) (*sheet.Sheet, sheet.Loader, []message.Diagnostic) {
	doc, load, refused := Document(ctx, files, path, text)
	if doc == nil {
		return nil, nil, refused
	}
	return doc.Sheet(), load, nil
}

// Document reads a text with all that stands around its blocks, and gives the
// loader of what it uses. The document is nil where the text is refused, with the
// reasons.
func Document(ctx context.Context, files Files, path string, text []byte) (*markdown.Document, sheet.Loader, []message.Diagnostic) {
	if len(text) > MaxFile {
		return nil, nil, []message.Diagnostic{tooLarge(path)}
	}
	doc := markdown.ParseWithin(ctx, path, text)
	if len(doc.Refused) > 0 {
		return nil, nil, doc.Refused
	}
	if refused := tooMuchOf(doc); len(refused) > 0 {
		return nil, nil, refused
	}
	return doc, newLoader(ctx, files, nil), nil
}
