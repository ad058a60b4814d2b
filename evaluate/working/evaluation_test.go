package working

import (
	"context"
	"math"
	"strings"
	"testing"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
)

// TestSliceOfOneInput wants an input to work again what depends on it, and
// nothing else.
func TestSliceOfOneInput(t *testing.T) {
	w := Check(t.Context(), NewSource(kit.Block("notes.md", "a = 1 V ± 0.1 V\nb = 2 V ± 0.1 V\nfrom_a = 2 * a\nfrom_b = 2 * b\nfrom_both = from_a + from_b\nsure = 3 V\nlimit from_b <= 9 V"), nil))
	w.Evaluate(t.Context(), w.Shown())
	for i, want := range []string{"a from_a from_both", "b from_b from_both limit"} {
		var names []string
		for _, d := range w.Machine.Around([]*program.Def{w.Uncertainty.Inputs[i].Def}, w.Shown(), 0).Defs() {
			if program.Is[*program.Limit](d) {
				names = append(names, "limit")
			} else {
				names = append(names, d.Name)
			}
		}
		if got := strings.Join(names, " "); got != want {
			t.Errorf("input %d works %q, want %q", i, got, want)
		}
	}
}

// stateOf is how far a definition came and what it waits for, in a word.
func stateOf(w *Evaluation, name string) string {
	d, _, ok := w.Named(name)
	if !ok {
		return "unknown"
	}
	switch state, waits := w.State(d); state {
	case report.Evaluated:
		return "evaluated"
	case report.Waiting:
		return "waits for " + waits
	default:
		return "failed"
	}
}

// TestState tells what fails itself from what waits for it, and finds names in the
// sheet before those of what it uses.
func TestState(t *testing.T) {
	files := kit.Sheets{"parts.md": kit.Block("parts.md", "n = 7\nm = 1 / (n - 7)")}
	w := Check(t.Context(), NewSource(kit.Block("notes.md", "use \"parts.md\"\na = 1 / (b - 2)\nb = 2\nc = a + 1\nd = parts.m + c\ne = parts.n"), files))
	w.Evaluate(t.Context(), w.Shown())
	for name, want := range map[string]string{
		"a": "failed", "b": "evaluated", "c": "waits for a", "d": "waits for parts.m", "e": "evaluated",
		"parts.n": "evaluated", "parts.m": "failed", "n": "unknown", "parts.x": "unknown",
	} {
		if got := stateOf(w, name); got != want {
			t.Errorf("%s: %s, want %s", name, got, want)
		}
	}
}

// TestOnly evaluates what a name needs and the limits that need no more, those too
// against which the rows of a vary are held.
func TestOnly(t *testing.T) {
	w := Check(t.Context(), NewSource(kit.Block("notes.md", "n = 3\na = 2 * n\nb = 5 * n\nother = 4\nlimit a <= 7\nlimit other <= 3\nlimit b <= 11\nt = vary n in 1 to 3 by 1: a\nx = t[3].a"), nil))
	w.Only([]string{"x"})
	w.Evaluate(t.Context(), w.Shown())
	for name, want := range map[string]string{"n": "evaluated", "a": "evaluated", "b": "evaluated", "x": "evaluated", "other": "waits for what was not asked for"} {
		if got := stateOf(w, name); got != want {
			t.Errorf("%s: %s, want %s", name, got, want)
		}
	}
	var states []string
	for _, d := range w.Program.Defs {
		if program.Is[*program.Limit](d) {
			states = append(states, map[bool]string{true: "kept in mind", false: "left out"}[w.Machine.Value(d) != nil])
		}
	}
	if got := strings.Join(states, ", "); got != "kept in mind, left out, kept in mind" {
		t.Errorf("limits: %s", got)
	}
}

// TestDifference wants how sure the room of a limit is, on either side: for
// lower <= value <= upper of 0.1, 0.2 and 0.5 they are √(0.1² + 0.2²) and √(0.2² + 0.5²).
func TestDifference(t *testing.T) {
	w := Check(t.Context(), NewSource(kit.Block("notes.md", "y = 3 ± 0.2\nb = 8 ± 0.4\nx = 10 ± 1\nlimit y <= b <= x"), nil))
	w.Evaluate(t.Context(), w.Shown())
	for _, d := range w.Program.Defs {
		if !program.Is[*program.Limit](d) {
			continue
		}
		if a, b := w.Difference(d, 1, 0).U, w.Difference(d, 1, 2).U; math.Abs(a-math.Hypot(0.1, 0.2)) > 1e-9 || math.Abs(b-math.Hypot(0.2, 0.5)) > 1e-9 {
			t.Errorf("%v, %v", a, b)
		}
	}
}

// TestNotLoaded loads nothing once the run is to stop.
func TestNotLoaded(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	s := NewSource(kit.Block("notes.md", "use \"parts.md\""), kit.Sheets{"parts.md": kit.Block("parts.md", "n = 1")})
	if Check(ctx, s); len(s.Sheets) != 1 {
		t.Errorf("%d sheets", len(s.Sheets))
	}
}

// TestUnread causes no second error where a line that cannot be read, or stands in a
// merge's conflict, would have defined a name.
func TestUnread(t *testing.T) {
	for _, text := range []string{"a = 1 +\nb = a", "<<<<<<< one\na = 1\n=======\na = 2\n>>>>>>> two\nb = a"} {
		if p := Check(t.Context(), NewSource(kit.Block("notes.md", text), nil)).Program; len(p.Problems) != 1 {
			t.Errorf("%q: %v", text, p.Problems)
		}
	}
}
