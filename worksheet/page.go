package worksheet

import (
	"context"
	"path"

	"inkwing/evaluate"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/page"
)

// Page works a text and lays it out as a page. What stands in its worked regions
// does not matter: all is worked from the sources. Link is where a link from it to
// another file leads; nil leaves links as they are. A text that a run would refuse
// gives the reasons.
func Page(ctx context.Context, files Files, name string, text []byte, link func(path string) (string, bool)) (*page.Page, []message.Diagnostic) {
	doc, load, refused := Document(ctx, files, name, text)
	if doc == nil {
		return nil, refused
	}
	if doc.Dense() {
		return nil, doc.Refused
	}
	s := page.Source{Document: doc, Link: link, Image: Images(files, name)}
	s.Report, s.Lines = evaluate.Lines(ctx, doc.Sheet(), load)
	if refused := tooMuchForPage(doc, s.Report); len(refused) > 0 {
		return nil, refused
	}
	Gathered(ctx, files, doc, s.Report)
	made := page.Make(ctx, s)
	if ctx.Err() != nil {
		return nil, []message.Diagnostic{stopped(name)}
	}
	return made, nil
}

// Gathered puts into a report what the rules and searches of its page find in other
// files, which no evaluation knows of.
func Gathered(ctx context.Context, files Files, doc *markdown.Document, r *report.Report) {
	gather(ctx, runner{work: evaluate.Work}, files, doc, r)
}

// Images reads the images of a page, by their paths from its folder.
func Images(files Files, name string) func(string) ([]byte, bool) {
	return func(file string) ([]byte, bool) {
		image, err := files.Read(path.Join(path.Dir(name), file))
		return image, err == nil
	}
}

// IsSheet reports whether a text holds a working block or a table with a name.
func IsSheet(name string, text []byte) bool {
	doc := markdown.Parse(name, text)
	return len(doc.Blocks)+len(doc.Tables) > 0 || doc.Unread
}
