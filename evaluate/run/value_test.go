package run

import (
	"context"
	"reflect"
	"strings"
	"testing"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
)

// TestValues evaluates the last line of a few, worked by hand.
func TestValues(t *testing.T) {
	for _, c := range []struct {
		lines string
		want  any
	}{
		{"a = 2 + 3 * 4 - 6 / 3", 12.0},
		{"a = -2^2", -4.0},
		{"a = (-2)^3", -8.0},
		{"a = 2^(-1)", 0.5},
		{"a = 12 V * 2 A", 24.0},
		{"a = 20 °C", 293.15},
		{"x = 3; a = -x", -3.0},
		{"a = if 1 < 2 then 3 else 1 / 0", 3.0},
		{"a = if 1 > 2 then 1 / 0 else 4", 4.0},
		{"a = 1 > 2 and 1 / 0 > 1", false},
		{"a = 1 < 2 or 1 / 0 > 1", true},
		{"a = 1 < 2 and 2 < 1", false},
		{"a = 1 > 2 or 2 > 1", true},
		{"a = not (1 < 2)", false},
		{"a = 1 < 2 <= 2", true},
		{"a = 1 < 3 <= 2", false},
		{"a = 2 >= 2", true},
		{"a = 2 > 2", false},
		{"a = \"x\" == \"x\"", true},
		{"a = \"x\" != \"x\"", false},
		{"a = [10, 20, 30][2]", 20.0},
		{"a = [1, 2] + 10", library.List{11.0, 12.0}},
		{"a = 10 - [1, 2]", library.List{9.0, 8.0}},
		{"a = [1, 2] * [3, 4]", library.List{3.0, 8.0}},
		{"a = -[1, 2]", library.List{-1.0, -2.0}},
		{"a = [1, 2] > 1", library.List{false, true}},
		{"f(x, y) = x^2 + y; a = f(y: 1, x: 3)", 10.0},
		{"f(x) = x + 1; g(x) = f(x) * f(2 * x); a = g(1)", 6.0},
		{"x = 1; y = 2 * x; z = y + x; a = z with x = 5", 15.0},
		{"x = 1; w = 2; y = x * w; a = y with x = 3, w = 4", 12.0},
		{"x = 1; y = 2 * x; b = y with x = 2; a = y + b", 6.0},
		{"x = 5 ± 1; a = 2 * x", 10.0},
		{"a = within 4 V to 8 V", 6.0},
		{"x = 2; limit x <= 3; a = x", 2.0},
	} {
		m, p := machine(t, strings.Split(c.lines, "; ")...)
		m.Run()
		d := p.Main.Names["a"]
		if got := m.Value(d); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %v, want %v (fault %v, waits %q)", c.lines, got, c.want, m.Fault(d), m.Waits(d))
		}
	}
}

// TestOperandsSideBySide wants those of a limit and of a measurement, for the
// margins and differences that are shown.
func TestOperandsSideBySide(t *testing.T) {
	m, p := machine(t, "a = 2 V", "limit 1 V <= a <= 3 V", "measured a = [1.9 V, 2.2 V]")
	m.Run()
	for i, want := range []library.List{{1.0, 2.0, 3.0}, {2.0, library.List{1.9, 2.2}}} {
		if got := m.Value(p.Defs[1+i]); !reflect.DeepEqual(got, want) {
			t.Errorf("%v, want %v", got, want)
		}
	}
}

// TestFaults wants what is wrong, at its place, and the hint.
func TestFaults(t *testing.T) {
	for _, c := range []struct{ lines, at, summary, hint string }{
		{"a = 1 / 0", "0", "this is zero, and the line divides by it", "ask first"},
		{"x = 3; y = x - 3; a = 2 * (1 / y)", "y", "this is zero, and the line divides by it", "ask first"},
		{"x = -0.5; a = 1 + x^0.5", "x^0.5", "a negative number has no such power", "only whole exponents take one"},
		{"x = -8; a = x^(1/3)", "x^(1/3)", "a negative number has no such power", "only whole exponents take one"},
		{"x = 0; a = x^-1", "x^-1", "zero has no negative power", "see that it cannot be zero"},
		{"x = 1e200; a = x * x", "x * x", "this is too large to work with: 1e200 * 1e200 in SI units", "look at the units and exponents"},
		{"x = 1e200; a = x^2", "x^2", "this is too large to work with: 1e200 ^ 2 in SI units", "look at the units and exponents"},
		{"a = [1, 2] / [1, 0]", "[1, 0]", "this is zero, and the line divides by it", "ask first"},
		{"a = [1, 2] + [1, 2, 3]", "+", "one list has 2 values, the other 3", "of one length"},
		{"x = [1, 2]; a = x[3]", "3", "there is no number 3, they go from 1 to 2", ""},
		{"x = [1, 2]; a = x[0]", "0", "there is no number 0, they go from 1 to 2", ""},
		{"x = [1, 2]; a = x[1.5]", "1.5", "1.5 is no whole number", "rows and elements are counted 1, 2, 3 …"},
		{"x = 1; y = 1 / x; a = y with x = 0", "y with x = 0", "with these values `y` cannot be worked: this is zero, and the line divides by it", "ask first"},
		{"x = 1; y = 1 / x; z = 2 * y; a = z with x = 0", "z with x = 0", "with these values `y` cannot be worked", "ask first"},
		{"x = 2; y = x; a = y with x = 1 / 0", "0", "this is zero", "ask first"},
	} {
		lines := strings.Split(c.lines, "; ")
		m, p := machine(t, lines...)
		m.Run()
		f := m.Fault(p.Main.Names["a"])
		if f == nil {
			t.Errorf("%s: no fault but %v", c.lines, m.Value(p.Main.Names["a"]))
			continue
		}
		at := lines[f.Span.Start/apart][f.Span.Start%apart : f.Span.End%apart]
		if at != c.at || !strings.Contains(f.Summary, c.summary) || !strings.Contains(f.Hint, c.hint) {
			t.Errorf("%s: at %q: %s | %s", c.lines, at, f.Summary, f.Hint)
		}
	}
}

// TestWaiting sees that what follows from a fault waits for it, and what does not
// goes on.
func TestWaiting(t *testing.T) {
	m, p := machine(t, "a = 1 / 0", "b = 2 * a", "c = b + 1", "d = 4", "f(x) = x + d", "e = f(1)")
	m.Run()
	for name, want := range map[string]string{"a": "", "b": "a", "c": "b", "d": "", "e": ""} {
		if got := m.Waits(p.Main.Names[name]); got != want {
			t.Errorf("%s waits for %q", name, got)
		}
	}
	if m.Value(p.Main.Names["e"]) != 5.0 || m.Fault(p.Main.Names["b"]) != nil {
		t.Errorf("e is %v, b has %v", m.Value(p.Main.Names["e"]), m.Fault(p.Main.Names["b"]))
	}
}

// TestWithLeavesAllElse evaluates what a with does not touch as before, and all
// of it afterwards.
func TestWithLeavesAllElse(t *testing.T) {
	m, p := machine(t, "x = 1", "y = 2 * x", "z = y + 1", "a = z with x = 10", "b = z", "c = y with x = 1 / (x - 1)", "d = y")
	m.Run()
	for name, want := range map[string]float64{"a": 21, "b": 3, "d": 2, "y": 2, "x": 1} {
		if got := m.Value(p.Main.Names[name]); got != want {
			t.Errorf("%s is %v, want %v", name, got, want)
		}
	}
}

// TestWithMissesALimit sees that a limit which the new values leave without an
// answer does not stop the study that would have looked at it.
func TestWithMissesALimit(t *testing.T) {
	m, p := machine(t, "x = 1", "n = 1", "goal = n + x", "limit n / x <= 5", "t = adjust n in 0 to 9 until goal == 5", "a = t with x = 0")
	m.study = func(*Machine, program.Node) (any, *Fault) { return 7.0, nil }
	m.Run()
	a := p.Main.Names["a"]
	if len(p.Main.Names["t"].Body.(*program.Study).Limits) != 1 {
		t.Fatal("the study looks at no limit")
	}
	if m.Value(a) != 7.0 {
		t.Errorf("a is %v: %v", m.Value(a), m.Fault(a))
	}
}

// A stopping context is over when its function reports so.
type stopping struct {
	context.Context
	over func() bool
}

func (s stopping) Err() error {
	if s.over() {
		return context.Canceled
	}
	return nil
}

// TestStoppedWithinALine wants the deadline looked at inside one long expression,
// not only between definitions.
func TestStoppedWithinALine(t *testing.T) {
	m, p := machine(t, "a = 1"+strings.Repeat(" + 1", askEvery))
	looks := 0
	m.ctx = stopping{m.ctx, func() bool { looks++; return looks > 1 }}
	m.Run()
	if f := m.Fault(p.Defs[0]); f == nil || !strings.Contains(f.Summary, "took too long") {
		t.Errorf("%v after %d looks: %v", f, looks, m.Value(p.Defs[0]))
	}
}

// TestStoppedBetweenLines wants nothing evaluated once the run is stopped.
func TestStoppedBetweenLines(t *testing.T) {
	m, p := machine(t, "a = 1", "b = 2")
	m.ctx = stopping{m.ctx, func() bool { return true }}
	m.Run()
	if m.Value(p.Defs[0]) != nil || m.Fault(p.Defs[1]) == nil {
		t.Errorf("%v, %v", m.Value(p.Defs[0]), m.Fault(p.Defs[1]))
	}
}
