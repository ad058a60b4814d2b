package evaluate

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"inkwing/evaluate/message"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

// The suite is data: see testdata/conformance/README.md for its form.
const suite = "../testdata/conformance/*.txt"

// announced is an error, a note of one, or a caution that a case expects.
type announced struct {
	mark          byte // ! & ~
	start, end    int  // in the case's text
	summary, hint string
	met           bool
}

// conformanceCase is one case of the suite.
type conformanceCase struct {
	name    string
	sheet   *sheet.Sheet
	files   caseFiles
	wanted  []*announced
	results []string
	lines   []syntax.Line // of the sheet's blocks
	offset  int           // next free offset of the sheet's text
}

type caseFiles map[string]*sheet.Sheet

func (f caseFiles) Load(from, path string) (*sheet.Sheet, error) {
	if s := f[path]; s != nil {
		return s, nil
	}
	return nil, errors.New("does not exist")
}

func TestConformance(t *testing.T) {
	cases := readSuite(t)
	mistakes := 0
	for _, c := range cases {
		if c.announces('!') {
			mistakes++
		}
		t.Run(c.name, func(t *testing.T) { c.run(t) })
	}
	// The language's promise is held by at least so many cases.
	const least, leastMistakes = 320, 180
	if len(cases) < least || mistakes < leastMistakes {
		t.Errorf("%d cases, %d of them mistakes; want %d and %d", len(cases), mistakes, least, leastMistakes)
	}
}

func readSuite(t testing.TB) []*conformanceCase {
	paths, err := filepath.Glob(suite)
	if err != nil || len(paths) == 0 {
		t.Fatal("no conformance suite", err)
	}
	var cases []*conformanceCase
	for _, p := range paths {
		text, err := os.ReadFile(p)
		if err != nil {
			t.Fatal(err)
		}
		stem := strings.TrimSuffix(filepath.Base(p), ".txt")
		for _, part := range strings.Split("\n"+string(text), "\n== ")[1:] {
			cases = append(cases, readCase(stem, part))
		}
	}
	return cases
}

func (c *conformanceCase) run(t *testing.T) {
	r := Work(context.Background(), c.sheet, c.files)
	for _, d := range r.Errors {
		c.expect(t, '!', d.Span, d.Summary, d.Hint)
		for _, n := range d.Notes {
			if c.announces('&') && n.Span.File == c.sheet.Name {
				c.expect(t, '&', n.Span, n.Text, "")
			}
		}
	}
	for _, x := range r.Cautions {
		if c.announces('~') {
			c.expect(t, '~', x.Span, x.ID, x.Text)
		}
	}
	for _, e := range c.wanted {
		if !e.met {
			t.Errorf("nothing came at %d–%d: %c %s | %s", e.start, e.end, e.mark, e.summary, e.hint)
		}
	}
	for _, line := range c.results {
		if problem := c.result(r, line); problem != "" {
			t.Errorf("%s: %s", line, problem)
		}
	}
}

// announces reports whether a case announces something of a kind: then it
// announces all of that kind.
func (c *conformanceCase) announces(mark byte) bool {
	return slices.ContainsFunc(c.wanted, func(e *announced) bool { return e.mark == mark })
}

// expect finds what was announced at a place and holds it against what came.
func (c *conformanceCase) expect(t *testing.T, mark byte, at message.Span, summary, hint string) {
	for _, e := range c.wanted {
		if e.met || e.mark != mark || e.start != at.Start || e.end != at.End {
			continue
		}
		e.met = true
		if !strings.Contains(summary, e.summary) || !strings.Contains(hint, e.hint) {
			t.Errorf("%c said %q | %q, want %q | %q", mark, summary, hint, e.summary, e.hint)
		}
		return
	}
	t.Errorf("not announced, at %d–%d: %c %s | %s", at.Start, at.End, mark, summary, hint)
}

// textAt is what a case writes at a place, empty for a place in another file.
func (c *conformanceCase) textAt(at message.Span) string {
	for _, l := range c.lines {
		if at.File == c.sheet.Name && l.Offset <= at.Start && at.End <= l.Offset+len(l.Text) {
			return l.Text[at.Start-l.Offset : at.End-l.Offset]
		}
	}
	return ""
}
