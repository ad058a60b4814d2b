package syntax

import (
	"context"
	"strings"
	"testing"
)

// A countdown is done once it has been asked so often.
type countdown struct {
	context.Context
	left int
}

func (c *countdown) Err() error {
	if c.left--; c.left < 0 {
		return context.DeadlineExceeded
	}
	return nil
}

// TestParseWithin reads as many statements as there is time for, and says so once.
func TestParseWithin(t *testing.T) {
	blocks := blockOf(strings.Repeat("a = 1\n", 100))
	for _, k := range []int{0, 1, 50, 99, 100} {
		tree, problems := ParseWithin(&countdown{t.Context(), k}, "a.md", blocks)
		stopped := len(problems) == 1 && problems[0].Summary == Stopped
		if len(tree.Statements) != k || stopped != (k < 100) {
			t.Errorf("time for %d: %d statements, %v", k, len(tree.Statements), problems)
		}
	}
}
