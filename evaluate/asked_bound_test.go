package evaluate

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"inkwing/evaluate/internal/kit"
)

// linesOf is n lines, each with its number.
func linesOf(n int, line string) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.ReplaceAll(line, "#", fmt.Sprint(i)) + "\n")
	}
	return b.String()
}

// TestAskedTooMuch holds what a page can ask for to its bounds: as much is worked,
// and one more is refused once, with what would do.
func TestAskedTooMuch(t *testing.T) {
	spread := linesOf(100, "a# = 1 V ± 0.1 V") + "b = a0" + strings.ReplaceAll(linesOf(100, " + a#"), "\n", "") + "\n"
	for says, of := range map[string]struct {
		text func(n int) string
		most int // of which as many are worked
	}{
		"more than 200,000 cells": {func(n int) string {
			return "n = 1\nm = n\nk = n\nj = n\n" + linesOf(n, "t# = vary n in 1 to 5000 by 1: m, k, j")
		}, 10},
		"more than 1000 uncertain inputs": {func(n int) string { return linesOf(n, "a# = 1 V ± 0.1 V") }, 1000},
		"more than 300,000 values":        {func(n int) string { return spread + linesOf(n, "c# = b * #") }, 2997},
		"more than 300,000 limits": {func(n int) string {
			return "a = 1\nb = 2 * a\n" + linesOf(300, "limit b > #") + linesOf(n, "t# = adjust a in 1 to 9 until b == 8")
		}, 1000},
		"more than 500,000 parts": {func(n int) string {
			return "f(x) = x" + strings.Repeat(" + x", 49) + "\n" + linesOf(n, "a# = f(#)")
		}, 5050},
		"more than 50,000 values": {func(n int) string { return linesOf(n, "a# = #") }, 50_000},
	} {
		for _, more := range []int{0, 1} {
			r := work(kit.Block("notes.md", of.text(of.most+more)), nil)
			told := 0
			for _, e := range r.Errors {
				if strings.Contains(e.Summary, says) && e.Hint != "" {
					told++
				}
			}
			if len(r.Errors) != told || (told > 0) != (more > 0) || told > more || told > 1 && says != "more than 200,000 cells" {
				t.Errorf("%s: %d more: told %d of %d: %v", says, more, told, len(r.Errors), r.Errors[:min(1, len(r.Errors))])
			}
		}
	}
}

// TestHeavyDraws says beforehand, and how many would do, where draws would take more
// than a run may.
func TestHeavyDraws(t *testing.T) {
	for text, says := range map[string]string{
		"draws 10_000_000\na = 1 V ± 0.1 V\n" + linesOf(100, "b# = # * a + a^2 / 3 V - a / 7"): "10,000,000 of them are more work than a run may do; write `draws ",
		"draws 1_000\na = 1 V ± 0.1 V\n" + linesOf(2000, "b# = # * a"):                         "numbers hang together with what is uncertain, and 2,000 is the most",
		"draws 10_000\na = 1 V ± 0.1 V\n" + linesOf(20, "b# = # * a"):                          "of 10,000 draws (JCGM 101:2008)",
	} {
		start := time.Now()
		r := work(kit.Block("notes.md", text), nil)
		notes := strings.Join(r.Blocks[0].Notes, " ")
		if !strings.Contains(notes, says) || time.Since(start) > 20*time.Second {
			t.Errorf("after %v it says %q, and not %q", time.Since(start), notes, says)
		}
	}
}

// TestCheckStopped gives up a sheet before all of it is checked, and says so once.
func TestCheckStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	files := kit.Sheets{"parts.md": kit.Block("parts.md", "n = 1")}
	r := Work(ctx, kit.Block("notes.md", "use \"parts.md\"\n"+linesOf(30_000, "a# = # + parts.n")), files)
	if len(r.Errors) == 0 || len(r.Errors) > 2 || len(r.Uses) > 0 {
		t.Errorf("%d errors, uses %v", len(r.Errors), r.Uses)
	}
}

// TestManyReplaced names what to replace in the first of many lines that replace what is
// worked; in all of them that would be a square of the sheet.
func TestManyReplaced(t *testing.T) {
	const full, general = "replace one of those that it is worked from: `a`", "replace a plain value that it is worked from"
	for n, last := range map[int]string{300: full, 1500: general} {
		var b strings.Builder
		b.WriteString("a = 1\nb0 = 2 * a\n")
		for i := range n {
			fmt.Fprintf(&b, "b%d = b%d + 1\nc%d = b0 with b%d = 2\n", i+1, i, i, i+1)
		}
		r := work(kit.Block("notes.md", b.String()), nil)
		if len(r.Errors) != n || r.Errors[0].Hint != full || r.Errors[n-1].Hint != last {
			t.Errorf("%d errors of %d, %q and %q", len(r.Errors), n, r.Errors[0].Hint, r.Errors[n-1].Hint)
		}
	}
}
