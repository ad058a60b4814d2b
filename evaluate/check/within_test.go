package check

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"inkwing/evaluate/syntax"
)

// A countdown is done once it has been asked so often.
type countdown struct {
	context.Context
	left, asked int
}

func (c *countdown) Err() error {
	c.asked++
	if c.left--; c.left < 0 {
		return context.DeadlineExceeded
	}
	return nil
}

// TestCheckWithin gives a check time for some of its sheet, at every stage: it looks at
// the time for each statement, comes to an end whenever that is up, and says so.
func TestCheckWithin(t *testing.T) {
	const parts = 300
	var text strings.Builder
	for i := range parts {
		fmt.Fprintf(&text, "a%d = %d V ± 0.1 V\nb%d = 2 * a%d\nlimit b%d < 3 V\nf%d(x) = x + a%d\nt%d = vary a%d in 1 V to 2 V by 1 V: b%d\n", i, i, i, i, i, i, i, i, i, i)
	}
	in := parsed(text.String())
	full := &countdown{t.Context(), 1 << 30, 0}
	Check(full, in, noFiles)
	if full.asked < 4*5*parts {
		t.Errorf("a check of %d statements asks %d times", 5*parts, full.asked)
	}
	for k := 0; k < full.asked; k += 1 + full.asked/40 {
		ctx := &countdown{t.Context(), k, 0}
		p := Check(ctx, in, noFiles)
		said := 0
		for _, d := range p.Problems {
			if d.Summary == syntax.Stopped {
				said++
			}
		}
		if said > 1 || ctx.asked > full.asked {
			t.Errorf("time for %d of %d: said %d times, asked %d times", k, full.asked, said, ctx.asked)
		}
	}
}
