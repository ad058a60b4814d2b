package study_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"inkwing/evaluate/check"
	"inkwing/evaluate/program"
	"inkwing/evaluate/run"
	"inkwing/evaluate/study"
	"inkwing/evaluate/syntax"
)

// checked checks one block of text.
func checked(t testing.TB, text string) *program.Program {
	t.Helper()
	return checkedInput(t, check.Input{Name: "notes.md"}, text)
}

// checkedInput checks one block of text beside tables.
func checkedInput(t testing.TB, in check.Input, text string) *program.Program {
	t.Helper()
	var b syntax.Block
	offset := 0
	for _, line := range strings.Split(text, "\n") {
		b.Lines = append(b.Lines, syntax.Line{Text: line, Offset: offset})
		offset += len(line) + 1
	}
	in.Tree, in.Problems = syntax.Parse("notes.md", []syntax.Block{b})
	p := check.Check(t.Context(), in, func(string, string) (*check.Input, error) { return nil, errors.New("no files") })
	for _, d := range p.Problems {
		t.Fatalf("%s | %s", d.Summary, d.Hint)
	}
	return p
}

func ran(t testing.TB, text string) (*run.Machine, *program.Program) {
	p := checked(t, text)
	m := run.New(context.Background(), p, study.Work)
	m.Run()
	return m, p
}

// TestOnlyThePart counts what is worked again: what depends on the variable
// and is asked for, and nothing else.
func TestOnlyThePart(t *testing.T) {
	const text = "x = 1\nbase = 7\nlong = base * base\na = x + long\nb = 2 * a\nelse_where = x * 3\ns = vary x in 1 to 3: b"
	m, p := ran(t, text)
	part := m.Subgraph([]*program.Def{p.Main.Names["x"]}, []int{p.Main.Names["b"].ID})
	var names []string
	for _, d := range part.Defs() {
		names = append(names, d.Name)
	}
	if got := strings.Join(names, " "); got != "a b" {
		t.Errorf("worked again: %s", got)
	}
	// Three rows, each two operations with two operands and the output itself.
	quiet, _ := ran(t, strings.Replace(text, "\ns = vary x in 1 to 3: b", "", 1))
	if work := steps(m) - steps(quiet); work > 3*(3+3+1)+10 {
		t.Errorf("three rows took %d steps", work)
	}
}

// steps is the work that a machine has been charged with.
func steps(m *run.Machine) int { return m.Subgraph(nil, nil).Steps() }

// TestRowsInOrder sees that rows come out alike however many cores there are.
func TestRowsInOrder(t *testing.T) {
	m, p := ran(t, "x = 1\ny = x^2\ns = vary x in 0 to 999: y")
	table := m.Value(p.Main.Names["s"]).(*study.Table)
	if table.Len() != 1000 {
		t.Fatalf("%d rows", table.Len())
	}
	for i := range table.Len() {
		if x := float64(i); table.Cell(i, 0) != x || table.Cell(i, 1) != x*x {
			t.Errorf("row %d: %v %v", i, table.Cell(i, 0), table.Cell(i, 1))
		}
	}
}

// TestMostRows holds a study to its bound, and not under it.
func TestMostRows(t *testing.T) {
	for n, want := range map[int]bool{program.MaxPoints: true, program.MaxPoints + 1: false} {
		m, p := ran(t, fmt.Sprintf("x = 1\ny = 2 * x\ns = vary x in 1 to %d: y", n))
		if ok := m.Fault(p.Main.Names["s"]) == nil; ok != want {
			t.Errorf("%d rows: %v", n, ok)
		}
	}
}

// TestStopped sees that a study looks at the deadline.
func TestStopped(t *testing.T) {
	for _, text := range []string{
		"s = vary x in 1 to 9000: y", "s = adjust x in 1 to 9 until y == 9",
		"s = adjust x in 1 to 9 by 1 until y >= 90", "s = tune x in 1 to 9 for least y",
	} {
		p := checked(t, "x = 1\ny = x^2\n"+text)
		ctx, cancel := context.WithCancel(context.Background())
		m := run.New(ctx, p, func(m *run.Machine, n program.Node) (any, *run.Fault) {
			cancel()
			return study.Work(m, n)
		})
		m.Run()
		f := m.Fault(p.Main.Names["s"])
		if f == nil || !strings.Contains(f.Summary, "took too long") {
			t.Errorf("%s: %v", text, f)
		}
	}
}

// TestNestedWork holds studies of studies to the bound on the work of a run.
func TestNestedWork(t *testing.T) {
	text := "x = 1\ny0 = x + 1\n"
	for i := 1; i <= 4; i++ {
		text += fmt.Sprintf("x%d = 1\nt%d = vary x%d in 1 to 1000, x in [1, 2]: y%d\ny%d = max(t%d.y%d) + x%d\n", i, i, i, i-1, i, i, i-1, i)
	}
	p := checked(t, text+"z = y4")
	m := run.New(context.Background(), p, study.Work)
	m.Bound(50_000)
	m.Run()
	if f := m.Fault(p.Main.Names["t1"]); f != nil {
		t.Errorf("one study: %v", f)
	}
	for i := 1; i <= 4; i++ {
		if f := m.Fault(p.Main.Names[fmt.Sprintf("t%d", i)]); f != nil {
			if !strings.Contains(f.Summary, "more work") {
				t.Errorf("%v", f.Summary)
			}
			return
		}
	}
	t.Error("no study was stopped")
}
