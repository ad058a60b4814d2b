package run

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"inkwing/evaluate/check"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

// apart is how far the lines of a test stand apart, in bytes.
const apart = 100_000

// machine is ready to evaluate some lines.
func machine(t testing.TB, text ...string) (*Machine, *program.Program) {
	t.Helper()
	block := syntax.Block{}
	for i, line := range text {
		block.Lines = append(block.Lines, syntax.Line{Text: line, Offset: i * apart})
	}
	tree, problems := syntax.Parse("notes.md", []syntax.Block{block})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	p := check.Check(t.Context(), check.Input{Name: "notes.md", Tree: tree}, nil)
	for _, d := range p.Problems {
		t.Fatalf("%s | %s", d.Summary, d.Hint)
	}
	return New(context.Background(), p, nil), p
}

// TestMaxSteps tries the bound and one past it: a plain number is one step.
func TestMaxSteps(t *testing.T) {
	for _, c := range []struct {
		before int
		ok     bool
	}{{MaxSteps - 1, true}, {MaxSteps, false}} {
		m, p := machine(t, "a = 3 V")
		d := p.Defs[0]
		m.steps = c.before
		m.Run()
		if ok := m.Fault(d) == nil && m.Value(d) == 3.0; ok != c.ok {
			t.Errorf("after %d steps: value %v, fault %v", c.before, m.Value(d), m.Fault(d))
		}
	}
}

// TestWhatIfsThatDouble would work 2^60 slices without a bound.
func TestWhatIfsThatDouble(t *testing.T) {
	lines := []string{"n = 1", "b0 = n + 1"}
	for i := 1; i <= 60; i++ {
		lines = append(lines, fmt.Sprintf("b%d = b%d + b%d with n = %d", i, i-1, max(i-2, 0), i))
	}
	m, p := machine(t, lines...)
	m.Bound(100_000)
	m.Run()
	if f := m.Fault(p.Defs[10]); f != nil {
		t.Errorf("nine what-ifs: %v", f)
	}
	for _, d := range p.Defs {
		if f := m.Fault(d); f != nil {
			if !strings.Contains(f.Summary, "more work") {
				t.Error(f)
			}
			return
		}
	}
	t.Error("nothing was stopped")
}

// BenchmarkExpression works ten operations again, as a what-if does.
func BenchmarkExpression(b *testing.B) {
	m, p := machine(b, "a = 2", "b = 3", "c = 5", "d = (a * b + c / a) * (b - a) + c * c - a / b + b * 2")
	m.Run()
	b.ReportAllocs()
	for b.Loop() {
		m.steps = 0
		m.define(p.Defs[3])
	}
}
