package handbook

import (
	"context"
	"errors"
	"html"
	"strings"

	"inkwing/evaluate"
	"inkwing/evaluate/sheet"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/page"
)

// example is a working block, as it is typed and as a page shows it worked.
func (c *chapter) example(ctx context.Context, name, text string) {
	if text == "" {
		return
	}
	text = strings.Trim(text, "\n")
	c.body.WriteString(`<h3>Example</h3><pre tabindex="0"><code>` + html.EscapeString(text) + "</code></pre>" + worked(ctx, name, text))
}

// worked is the example as a page shows it; nothing for one that needs other files.
func worked(ctx context.Context, name, text string) string {
	doc := markdown.Parse("example.md", []byte("```working\n"+text+"\n```\n"))
	s := page.Source{Document: doc, Prefix: name + "-", Short: true}
	s.Report, s.Lines = evaluate.Lines(ctx, doc.Sheet(), alone{})
	if len(s.Report.Errors) > 0 {
		return ""
	}
	var out strings.Builder
	for _, section := range page.Make(ctx, s).Sections {
		if section.ID != "top" {
			out.WriteString(section.HTML)
		}
	}
	return out.String()
}

// alone is an example's folder, in which nothing else lies.
type alone struct{}

func (alone) Load(string, string) (*sheet.Sheet, error) { return nil, errors.New("is not there") }
