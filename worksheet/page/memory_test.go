package page_test

import (
	"context"
	"reflect"
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/page"
)

// sourceOf is what a page is made from.
func sourceOf(t *testing.T, text string, f files) page.Source {
	t.Helper()
	doc := markdown.Parse("notes.md", []byte(text))
	if len(doc.Refused) > 0 {
		t.Fatal(doc.Refused)
	}
	s := page.Source{Document: doc, Image: f.image}
	s.Report, s.Lines = evaluate.Lines(context.Background(), doc.Sheet(), f)
	return s
}

const remembered = `# Notes

Of V is ` + "`= V`" + `, see [there](#part), [a](other.md) and ![a picture](p.png).

| mass [g] | of |
| -------: | :- |
| 5        | a  |

## Part

` + "```working" + `
use "parts.md"
V = 5 V
k = 2
E = k * V
curve = vary k in 1 to 3 by 1: E, parts.m
chart "A curve": E against k from curve
` + "```" + `
`

// TestMemory changes one thing after the other of a page, and lays it out with what is
// remembered of the one before.
func TestMemory(t *testing.T) {
	f := files{"parts.md": block("m = 3 g"), "p.png": "\x89PNG\r\n\x1a\nfirst"}
	memory := page.NewMemory()
	made := func(what, text string, change func(*page.Source)) {
		t.Helper()
		for range 2 {
			s := sourceOf(t, text, f)
			change(&s)
			want := page.Make(context.Background(), s)
			s.Memory = memory
			if got := page.Make(context.Background(), s); !reflect.DeepEqual(got, want) {
				t.Errorf("%s: it is laid out as\n%+v\nin place of\n%+v", what, got, want)
			}
		}
	}
	as := func(*page.Source) {}
	made("the page", remembered, as)
	for _, c := range [][2]string{
		{"V = 5 V", "V = 6 V"}, {"mass [g]", "mass [kg]"}, {"## Part", "## Another"}, {"see [there]", "see [where]"}, {"by 1", "by 0.5"},
		{"use \"parts.md\"\n", "use \"parts.md\" as other\n"}, {"Of V is", "Of `= k` is"}, {"# Notes", "# Notes of old"}, {"(#part)", "(#q-V)"},
		{"E = k * V", "E = k * V - 1 V"}, {"\"A curve\"", "\"Another\""}, {"E against k", "E, m against k"}, {"2\n", "2 # a note\n"},
	} {
		made(c[1], strings.Replace(remembered, c[0], c[1], 1), as)
		made("back", remembered, as)
	}
	made("another prefix", remembered, func(s *page.Source) { s.Prefix = "x-" })
	made("short", remembered, func(s *page.Source) { s.Short = true })
	made("a link", remembered, func(s *page.Source) { s.Link = func(path string) (string, bool) { return "to/" + path, true } })
	made("no link", remembered, func(s *page.Source) { s.Link = func(path string) (string, bool) { return "", false } })
	made("names of no sheet", remembered, func(s *page.Source) { s.Lines[0] = s.Lines[0][1:] })
	f["p.png"] = "\x89PNG\r\n\x1a\nsecond"
	made("another image", remembered, as)
	delete(f, "p.png")
	made("no image", remembered, as)
}
