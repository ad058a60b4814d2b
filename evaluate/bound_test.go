package evaluate

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"inkwing/evaluate/check"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

func work(s *sheet.Sheet, files kit.Sheets) *report.Report {
	return Work(context.Background(), s, files)
}

// TestUseDepth holds a chain of worksheets to its bound.
func TestUseDepth(t *testing.T) {
	for _, c := range []struct {
		depth int
		ok    bool
	}{{check.MaxUseDepth, true}, {check.MaxUseDepth + 1, false}} {
		files := kit.Sheets{}
		for i := 1; i <= c.depth; i++ {
			text := "n = 1"
			if i < c.depth {
				text = fmt.Sprintf("use \"s%d.md\"\nn = s%d.n", i+1, i+1)
			}
			files[fmt.Sprintf("s%d.md", i)] = kit.Block(fmt.Sprintf("s%d.md", i), text)
		}
		r := work(kit.Block("notes.md", "use \"s1.md\"\na = s1.n"), files)
		if ok := len(r.Errors) == 0; ok != c.ok {
			t.Errorf("depth %d: %v", c.depth, r.Errors)
		}
	}
}

// TestUseCircle names the path of worksheets that use each other.
func TestUseCircle(t *testing.T) {
	main := kit.Block("notes.md", "use \"a.md\"\nn = a.n")
	files := kit.Sheets{
		"a.md":     kit.Block("a.md", "use \"b.md\"\nn = b.n"),
		"b.md":     kit.Block("b.md", "use \"notes.md\"\nn = notes.n"),
		"notes.md": main,
	}
	r := work(main, files)
	if len(r.Errors) != 1 || !strings.Contains(r.Errors[0].Summary, "notes.md → a.md → b.md → notes.md") {
		t.Errorf("errors: %v", r.Errors)
	}
}

// TestUsedOnce sees that a sheet used twice is loaded and worked once.
func TestUsedOnce(t *testing.T) {
	files := kit.Sheets{
		"a.md": kit.Block("a.md", "use \"c.md\"\nn = c.n"), "b.md": kit.Block("b.md", "use \"c.md\"\nn = c.n"),
		"c.md": kit.Block("c.md", "n = 3"),
	}
	r := work(kit.Block("notes.md", "use \"a.md\"\nuse \"b.md\"\nn = a.n + b.n"), files)
	if len(r.Errors) != 0 || len(r.Uses) != 3 {
		t.Errorf("errors %v, uses %v", r.Errors, r.Uses)
	}
}

// TestTableRows holds a table to its bound.
func TestTableRows(t *testing.T) {
	for _, c := range []struct {
		rows int
		ok   bool
	}{{program.MaxRows, true}, {program.MaxRows + 1, false}} {
		s := kit.Block("notes.md", "a = t.x[1]")
		table := &syntax.Table{Name: syntax.Ident{Name: "t"}, Head: []syntax.Cell{{Text: "x [V]"}}}
		for range c.rows {
			table.Rows = append(table.Rows, []syntax.Cell{{Text: "1"}})
		}
		s.Tables = []*syntax.Table{table}
		if r := work(s, nil); (len(r.Errors) == 0) != c.ok {
			t.Errorf("%d rows: %v", c.rows, r.Errors)
		}
	}
}

// TestFunctionsThatDouble would be 2^40 terms if they were put in without a
// bound.
func TestFunctionsThatDouble(t *testing.T) {
	var b strings.Builder
	b.WriteString("f0(x) = x + 1\n")
	for i := 1; i <= 40; i++ {
		fmt.Fprintf(&b, "f%d(x) = f%d(x) + f%d(x)\n", i, i-1, i-1)
	}
	b.WriteString("a = f40(1)\nb = f3(1)")
	r := work(kit.Block("notes.md", b.String()), nil)
	if len(r.Errors) == 0 {
		t.Fatal("no error")
	}
	if q := kit.Quantity(r, "b"); q == nil || q.Shown != "16" {
		t.Errorf("b is %+v", q)
	}
}

// TestDeadline stops a run that was cancelled, and says so.
func TestDeadline(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	r := Work(ctx, kit.Block("notes.md", "a = 1\nb = a + 1"), kit.Sheets{})
	if len(r.Errors) == 0 {
		t.Error("nothing said")
	}
}

// TestLongChain is one name after another, far more than a stack would bear if
// it were followed by recursion, in the worst order.
func TestLongChain(t *testing.T) {
	const n = 20_000
	var b strings.Builder
	for i := n; i > 0; i-- {
		fmt.Fprintf(&b, "a%d = a%d + 1\n", i, i-1)
	}
	b.WriteString("a0 = 0")
	r := work(kit.Block("notes.md", b.String()), nil)
	if q := kit.Quantity(r, "a20000"); len(r.Errors) != 0 || q.Value != float64(n) {
		t.Errorf("errors %v, a20000 %+v", r.Errors, q)
	}
}

// FuzzWork works anything: it never panics, errors stand in the text, a second
// working says the same, and turning the order of the lines round changes no
// value.
func FuzzWork(f *testing.F) {
	for _, c := range readSuite(f) {
		var text []string
		for _, b := range c.sheet.Blocks {
			for _, l := range b.Lines {
				text = append(text, l.Text)
			}
		}
		f.Add(strings.Join(text, "\n"))
	}
	f.Fuzz(func(t *testing.T, text string) {
		s := kit.Block("notes.md", text)
		r := work(s, kit.Sheets{})
		for _, d := range r.Errors {
			if d.Span.Start < 0 || d.Span.End < d.Span.Start || d.Span.End > len(text)+1 {
				t.Fatalf("an error outside of the text: %+v", d)
			}
			if d.Summary == "" {
				t.Fatal("an error that says nothing")
			}
		}
		if again := work(s, kit.Sheets{}); values(again) != values(r) {
			t.Fatalf("first %s\nthen %s", values(r), values(again))
		}
	})
}

// values is all that a report shows, as a text to compare.
func values(r *report.Report) string {
	var b strings.Builder
	for _, q := range r.Quantities {
		fmt.Fprintln(&b, q.Name, q.State, q.Waits, q.Shown)
	}
	for _, e := range r.Errors {
		fmt.Fprintln(&b, e.Span.Start, e.Summary, e.Hint)
	}
	return b.String()
}

// TestOrderChangesNothing works the suite's blocks with their statements turned
// round: definitions depend on names, not on lines.
func TestOrderChangesNothing(t *testing.T) {
	for _, c := range readSuite(t) {
		if c.announces('!') || len(c.sheet.Blocks) != 1 {
			continue
		}
		r := Work(context.Background(), c.sheet, c.files)
		turned := &sheet.Sheet{Name: c.sheet.Name, Tables: c.sheet.Tables, Inline: c.sheet.Inline,
			Blocks: []syntax.Block{{Lines: turnRound(c.sheet.Blocks[0].Lines)}}}
		back := Work(context.Background(), turned, c.files)
		for _, q := range r.Quantities {
			if other := kit.Quantity(back, q.Name); other == nil || other.Shown != q.Shown {
				t.Errorf("%s: %s is %s, turned round %+v", c.name, q.Name, q.Shown, other)
			}
		}
	}
}

// turnRound puts the last statement first, each with its continuations.
func turnRound(lines []syntax.Line) []syntax.Line {
	var statements [][]syntax.Line
	for _, l := range lines {
		if len(statements) > 0 && l.Text != "" && strings.ContainsAny(l.Text[:1], " ])}") {
			last := len(statements) - 1
			statements[last] = append(statements[last], l)
			continue
		}
		statements = append(statements, []syntax.Line{l})
	}
	var out []syntax.Line
	for i := len(statements) - 1; i >= 0; i-- {
		out = append(out, statements[i]...)
	}
	return out
}

// TestMaxExpression tries the bound and one past it: n ones joined by + are
// 2n-1 nodes, and a bracket is one more.
func TestMaxExpression(t *testing.T) {
	const ones = check.MaxExpression / 2
	sum := strings.Repeat("1 + ", ones-2)
	for text, ok := range map[string]bool{sum + "1 + (1)": true, sum + "(1) + (1)": false} {
		r := work(kit.Block("notes.md", "a = "+text), nil)
		if got := len(r.Errors) == 0 && r.Quantities[0].Value == float64(ones); got != ok {
			t.Errorf("%d bytes: %v", len(text), r.Errors)
		}
	}
}
