package evaluate

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

// The suite is data: see testdata/conformance/README.md for its form.
const suite = "../testdata/conformance/*.txt"

// announced is an error that a case expects.
type announced struct {
	start, end    int // in the case's text
	summary, hint string
	met           bool
}

// conformanceCase is one case of the suite.
type conformanceCase struct {
	name    string
	sheet   *sheet.Sheet
	files   caseFiles
	errors  []*announced
	results []string
	offset  int // next free offset of the sheet's text
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
		if len(c.errors) > 0 {
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

func readCase(stem, part string) *conformanceCase {
	name, body, _ := strings.Cut(part, "\n")
	c := &conformanceCase{name: stem + "/" + name, sheet: &sheet.Sheet{Name: "notes.md"}, files: caseFiles{}}
	section := "block"
	var lines []string
	flush := func() { c.section(section, lines); lines = nil }
	for _, line := range strings.Split(body, "\n") {
		if head, ok := strings.CutPrefix(line, "-- "); ok {
			flush()
			section = head
			continue
		}
		lines = append(lines, line)
	}
	flush()
	return c
}

func (c *conformanceCase) section(head string, lines []string) {
	kind, arg, _ := strings.Cut(head, " ")
	for len(lines) > 0 && lines[len(lines)-1] == "" {
		lines = lines[:len(lines)-1]
	}
	switch kind {
	case "block":
		c.sheet.Blocks = append(c.sheet.Blocks, c.block(lines))
	case "results":
		c.results = append(c.results, lines...)
	case "table":
		c.sheet.Tables = append(c.sheet.Tables, c.table("notes.md", arg, lines))
	case "file":
		c.files[arg] = &sheet.Sheet{Name: arg, Blocks: []syntax.Block{plainBlock(lines)}}
	case "data":
		c.files[arg] = &sheet.Sheet{Name: arg, Data: true, Tables: []*syntax.Table{c.table(arg, "", lines)}}
	default:
		panic("conformance: no section " + head)
	}
}

// block takes the announcements out and gives the rest its offsets.
func (c *conformanceCase) block(lines []string) syntax.Block {
	var b syntax.Block
	for _, line := range lines {
		if strings.HasPrefix(line, "!") {
			c.announce(line, b.Lines[len(b.Lines)-1])
			continue
		}
		b.Lines = append(b.Lines, syntax.Line{Text: line, Offset: c.offset})
		c.offset += len(line) + 1
	}
	return b
}

func plainBlock(lines []string) syntax.Block {
	var c conformanceCase
	return c.block(lines)
}

// announce reads "!    ^^^^ summary | hint" under a line. The ! stands for the
// first column where carets follow it at once, or none at all.
func (c *conformanceCase) announce(line string, above syntax.Line) {
	rest := strings.TrimLeft(line[1:], " ")
	carets := len(rest) - len(strings.TrimLeft(rest, "^"))
	from, to := len(line)-len(rest), len(line)-len(rest)+carets
	if carets == 0 {
		from, to = 0, 1
	} else if from == 1 {
		from = 0
	}
	summary, hint, _ := strings.Cut(rest[carets:], " | ")
	c.errors = append(c.errors, &announced{
		start: above.Offset + byteColumn(above.Text, from), end: above.Offset + byteColumn(above.Text, to),
		summary: strings.TrimSpace(summary), hint: strings.TrimSpace(hint),
	})
}

// byteColumn is the byte at which a rune column begins.
func byteColumn(text string, column int) int {
	at := 0
	for range column {
		if at >= len(text) {
			break
		}
		_, size := utf8.DecodeRuneInString(text[at:])
		at += size
	}
	return at
}

func (c *conformanceCase) table(file, name string, lines []string) *syntax.Table {
	t := &syntax.Table{Name: syntax.Ident{Name: name, At: syntax.At{Span: message.Span{File: file, Start: c.offset, End: c.offset}}}}
	var last syntax.Line
	for _, line := range lines {
		if strings.HasPrefix(line, "!") {
			c.announce(line, last)
			continue
		}
		last = syntax.Line{Text: line, Offset: c.offset}
		row := cells(file, last)
		c.offset += len(line) + 1
		if t.Head == nil {
			t.Head = row
			continue
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func cells(file string, line syntax.Line) []syntax.Cell {
	var row []syntax.Cell
	at := line.Offset
	for _, text := range strings.Split(line.Text, "|") {
		trimmed := strings.TrimSpace(text)
		start := at + strings.Index(text, trimmed)
		row = append(row, syntax.Cell{At: syntax.At{Span: message.Span{File: file, Start: start, End: start + len(trimmed)}}, Text: trimmed})
		at += len(text) + 1
	}
	return row
}

func (c *conformanceCase) run(t *testing.T) {
	r := Work(context.Background(), c.sheet, c.files)
	for _, d := range r.Errors {
		c.expect(t, d)
	}
	for _, e := range c.errors {
		if !e.met {
			t.Errorf("no error at %d–%d: %s | %s", e.start, e.end, e.summary, e.hint)
		}
	}
	for _, line := range c.results {
		if problem := expectResult(r, line); problem != "" {
			t.Errorf("%s: %s", line, problem)
		}
	}
}

func (c *conformanceCase) expect(t *testing.T, d message.Diagnostic) {
	for _, e := range c.errors {
		if e.met || e.start != d.Span.Start || e.end != d.Span.End {
			continue
		}
		e.met = true
		if !strings.Contains(d.Summary, e.summary) || !strings.Contains(d.Hint, e.hint) {
			t.Errorf("said %q | %q, want %q | %q", d.Summary, d.Hint, e.summary, e.hint)
		}
		return
	}
	t.Errorf("not announced, at %d–%d: %s | %s", d.Span.Start, d.Span.End, d.Summary, d.Hint)
}

// expectResult holds one line of -- results against the report.
func expectResult(r *report.Report, line string) string {
	line = strings.TrimSpace(line)
	if line == "" || strings.HasPrefix(line, "#") {
		return ""
	}
	if rest, ok := strings.CutPrefix(line, "limit "); ok {
		return expectLimit(r, rest)
	}
	if rest, ok := strings.CutPrefix(line, "table "); ok {
		return expectTable(r, rest)
	}
	if rest, ok := strings.CutPrefix(line, "note of "); ok {
		name, note, _ := strings.Cut(rest, " : ")
		if q := kit.Quantity(r, name); q == nil || q.Note != note {
			return fmt.Sprintf("is %+v", q)
		}
		return ""
	}
	if name, other, ok := strings.Cut(line, " waits for "); ok {
		q := kit.Quantity(r, name)
		if q == nil || q.State != report.Waiting || q.Waits != other {
			return fmt.Sprintf("is %+v", q)
		}
		return ""
	}
	name, shown, _ := strings.Cut(line, " = ")
	q := kit.Quantity(r, name)
	if q == nil {
		return "no such quantity"
	}
	if q.Shown != strings.TrimSpace(shown) {
		return "is " + q.Shown
	}
	return ""
}

func expectLimit(r *report.Report, rest string) string {
	var n int
	if _, err := fmt.Sscanf(rest, "%d", &n); err != nil || n < 1 || n > len(r.Limits) {
		return "no such limit"
	}
	l := r.Limits[n-1]
	said, numbers, _ := strings.Cut(rest, " : ")
	if l.State != report.Evaluated || l.Holds == strings.Contains(said, "not hold") {
		return fmt.Sprintf("is %+v", l)
	}
	if numbers != "" && numbers != l.Value+", "+l.Allowed+", "+l.Headroom {
		return "is " + l.Value + ", " + l.Allowed + ", " + l.Headroom
	}
	return ""
}

// expectTable holds "N head : a | b", "N row K : a | b", "N rows : K",
// "N says : sentence" or "N waits for name" against the N-th table.
func expectTable(r *report.Report, rest string) string {
	var tables []report.Table
	for _, b := range r.Blocks {
		tables = append(tables, b.Tables...)
	}
	words, want, _ := strings.Cut(rest, " : ")
	var n, k int
	if _, err := fmt.Sscanf(words, "%d", &n); err != nil || n < 1 || n > len(tables) {
		return "no such table"
	}
	t, got := tables[n-1], ""
	switch _, what, _ := strings.Cut(words, " "); {
	case what == "head":
		for _, c := range t.Columns {
			got += " | " + c.Head
		}
	case what == "rows":
		got = " | " + fmt.Sprint(len(t.Rows))
	case what == "says":
		got = " | " + strings.Join(t.Notes, " ")
	case strings.HasPrefix(what, "waits for "):
		got, want = " | "+t.Waits, strings.TrimPrefix(what, "waits for ")
	default:
		if _, err := fmt.Sscanf(what, "row %d", &k); err != nil || k < 1 || k > len(t.Rows) {
			return "no such row"
		}
		got = " | " + strings.Join(t.Rows[k-1], " | ")
	}
	if got = strings.TrimRight(strings.TrimPrefix(got, " | "), " |"); got != want {
		return "is " + got
	}
	return ""
}
