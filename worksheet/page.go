package worksheet

import (
	"context"
	"path"

	"inkwing/evaluate"
	"inkwing/evaluate/message"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/page"
)

// Page works a text and lays it out as a page. What stands in its worked regions
// does not matter: all is worked from the sources. Link is where a link from it to
// another file leads; nil leaves links as they are. A text that a run would refuse
// gives the reasons.
func Page(ctx context.Context, files Files, name string, text []byte, link func(path string) (string, bool)) (*page.Page, []message.Diagnostic) {
	if len(text) > MaxFile {
		return nil, []message.Diagnostic{tooLarge(name)}
	}
	doc := markdown.Parse(name, text)
	if len(doc.Refused) > 0 {
		return nil, doc.Refused
	}
	s := page.Source{Document: doc, Link: link, Image: func(file string) ([]byte, bool) {
		image, err := files.Read(path.Join(path.Dir(name), file))
		return image, err == nil
	}}
	s.Report, s.Lines = evaluate.Lines(ctx, doc.Sheet(), &loader{files: files})
	gather(ctx, runner{work: evaluate.Work}, files, doc, s.Report)
	return page.Make(s), nil
}

// IsSheet reports whether a text holds a working block or a table with a name.
func IsSheet(name string, text []byte) bool {
	doc := markdown.Parse(name, text)
	return len(doc.Blocks)+len(doc.Tables) > 0 || doc.Unread
}
