package syntax

import (
	"strings"
	"testing"

	"inkwing/evaluate/message"
)

// inside fails unless a place lies within another.
func inside(t *testing.T, what string, in, out message.Span) {
	t.Helper()
	if in.Start > in.End || in.Start < out.Start || in.End > out.End || in.File != out.File {
		t.Fatalf("%s at %d-%d is not inside %d-%d", what, in.Start, in.End, out.Start, out.End)
	}
}

// nest checks the places of an expression and of all that is in it.
func nest(t *testing.T, x Expr, out message.Span) {
	t.Helper()
	inside(t, printed(x), x.Place(), out)
	for _, child := range Children(x) {
		nest(t, child, x.Place())
	}
}

// valueOf is the expression of a statement that has one.
func valueOf(s Statement) Expr {
	switch s := s.(type) {
	case *Definition:
		return s.Value
	case *Function:
		return s.Body
	case *Measured:
		return s.Value
	case *Limit:
		return s.Bound
	case *Study:
		return s.What
	}
	return nil
}

// again writes an expression and reads it back.
func again(t *testing.T, x Expr) {
	t.Helper()
	source := "x = " + Source(x)
	if len(source) > MaxStatement {
		return // the blanks that Source adds can make a statement too long
	}
	tree, problems := Parse("a.md", blockOf(source))
	if len(problems) > 0 {
		t.Fatalf("%q, written from %s: %v", source, printed(x), problems)
	}
	if got := printed(valueOf(tree.Statements[0])); got != printed(x) {
		t.Fatalf("%q is read as %s, was %s", source, got, printed(x))
	}
}

func TestRoundTrip(t *testing.T) {
	for _, c := range accepted {
		tree, _ := Parse("a.md", blockOf(c.text))
		if x := valueOf(tree.Statements[0]); x != nil {
			nest(t, x, message.Span{File: "a.md", End: len(c.text)})
			again(t, x)
		}
	}
}

// Whatever is read: no panic, every place lies in the file and inside what it
// is part of, and a tree that is written is read as the same tree.
func FuzzParse(f *testing.F) {
	for _, c := range accepted {
		f.Add(c.text)
	}
	for _, c := range mistakes {
		f.Add(strings.NewReplacer("«", "", "»", "").Replace(c.text))
	}
	f.Fuzz(func(t *testing.T, text string) {
		whole := message.Span{File: "a.md", End: len(text)}
		tree, problems := Parse("a.md", blockOf(text))
		for _, p := range problems {
			inside(t, p.Summary, p.Span, whole)
		}
		for _, s := range tree.Statements {
			inside(t, "statement", s.Place(), whole)
			if x := valueOf(s); x != nil {
				nest(t, x, s.Place())
				again(t, x)
			}
		}
	})
}

// A cell is a number or nothing.
func FuzzParseValue(f *testing.F) {
	for _, text := range []string{"12", "47 mF", "(12.50 ± 0.25) F", "within 45 F to 65 F", "80 % ± 4 %", "1,5", "-2^2"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		x, problem := ParseValue("a.md", text, 0)
		if (x == nil) == (problem == nil) {
			t.Fatalf("%q: %v and %v", text, x, problem)
		}
		whole := message.Span{File: "a.md", End: len(text)}
		if problem != nil {
			inside(t, problem.Summary, problem.Span, whole)
			return
		}
		nest(t, x, whole)
		again(t, x)
	})
}

// BenchmarkParse reads the statements of a usual block.
func BenchmarkParse(b *testing.B) {
	blocks := blockOf(strings.Join([]string{
		`cell = cells["B50"]`,
		`n_series = 4                                # straps fit four in the nose`,
		`store = pack(cell, series: n_series)`,
		`V_full [V] = 10 V ± 0.1 V                   # read on the bench meter`,
		`E_full [Wh] = 1/2 * store.capacitance * V_full^2`,
		`limit V_full / n_series <= cell.rated_voltage "Charge to a lower voltage or add a cell."`,
		`f(x [m/s], n) [W] = if x > 3 m/s then x * n else 0`,
		`vary n_series in 3 to 6 by 1: E_full [Wh], store.mass [g]`,
	}, "\n"))
	statements := len(blocks[0].Lines)
	b.ReportAllocs()
	for b.Loop() {
		if _, problems := Parse("a.md", blocks); len(problems) > 0 {
			b.Fatal(problems)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*statements), "ns/statement")
}
