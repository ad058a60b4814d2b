package desk

import (
	"context"

	"inkwing/worksheet/reading"
)

// CarryOut writes files, all of them or none.
func (d *Desk) CarryOut(ctx context.Context, drafts []reading.Draft) error {
	return d.carryOut(ctx, drafts)
}

// Streams counts the streams that are open.
func (d *Desk) Streams() int { return d.hub.open() }

// Settle brings the open pages up to what was saved, as when it was noticed.
func (d *Desk) Settle(ctx context.Context, names ...string) {
	saved := map[string]bool{}
	for _, n := range names {
		saved[n] = true
	}
	d.settle(ctx, saved, true)
}

// Blind is the desk where the system tells nothing of what is saved.
func (d *Desk) Blind() { d.blind = true }
