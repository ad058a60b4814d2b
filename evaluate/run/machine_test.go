package run

import (
	"context"
	"testing"

	"inkwing/evaluate/check"
	"inkwing/evaluate/syntax"
)

// machine works one line.
func machine(t *testing.T, line string) (*Machine, *check.Def) {
	tree, problems := syntax.Parse("notes.md", []syntax.Block{{Lines: []syntax.Line{{Text: line}}}})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	p := check.Check(check.Input{Name: "notes.md", Tree: tree}, nil)
	return New(context.Background(), p, nil), p.Defs[0]
}

// TestMaxSteps tries the bound and one past it: a plain number is one step.
func TestMaxSteps(t *testing.T) {
	for _, c := range []struct {
		before int
		ok     bool
	}{{MaxSteps - 1, true}, {MaxSteps, false}} {
		m, d := machine(t, "a = 3 V")
		m.steps = c.before
		m.Run()
		if ok := m.Fault(d) == nil && m.Value(d) == 3.0; ok != c.ok {
			t.Errorf("after %d steps: value %v, fault %v", c.before, m.Value(d), m.Fault(d))
		}
	}
}

// BenchmarkExpression works ten operations again, as a what-if does.
func BenchmarkExpression(b *testing.B) {
	tree, _ := syntax.Parse("notes.md", []syntax.Block{{Lines: []syntax.Line{
		{Text: "a = 2"}, {Text: "b = 3", Offset: 6}, {Text: "c = 5", Offset: 12},
		{Text: "d = (a * b + c / a) * (b - a) + c * c - a / b + b * 2", Offset: 18},
	}}})
	p := check.Check(check.Input{Name: "notes.md", Tree: tree}, nil)
	m := New(context.Background(), p, nil)
	m.Run()
	b.ReportAllocs()
	for b.Loop() {
		m.steps = 0
		m.define(p.Defs[3])
	}
}
