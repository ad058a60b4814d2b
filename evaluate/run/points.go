package run

import (
	"context"
	"sync/atomic"
)

// Points count how far the what-ifs of a run are: the points that they have worked,
// and those that they know they will. Several runs may share them; nil counts nothing.
type Points struct{ worked, known atomic.Int64 }

type pointsKey struct{}

// Counting is a context whose runs count their points there, for whoever waits.
func Counting(ctx context.Context, p *Points) context.Context {
	return context.WithValue(ctx, pointsKey{}, p)
}

// Points are those that the machine's run counts in.
func (m *Machine) Points() *Points {
	p, _ := m.ctx.Value(pointsKey{}).(*Points)
	return p
}

// Begin adds points that are going to be worked.
func (p *Points) Begin(n int) {
	if p != nil {
		p.known.Add(int64(n))
	}
}

// Worked adds one that was.
func (p *Points) Worked() {
	if p != nil {
		p.worked.Add(1)
	}
}

// Far is how many points are worked, and of how many: a search, which does not know how
// many it takes, counts each as it comes.
func (p *Points) Far() (worked, known int) {
	if p == nil {
		return 0, 0
	}
	n := int(p.worked.Load())
	return n, max(n, int(p.known.Load()))
}
