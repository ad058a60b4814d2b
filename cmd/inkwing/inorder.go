package main

import (
	"context"
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"
	"time"

	"inkwing/evaluate"
	"inkwing/evaluate/message"
)

// progressAfter is how long a run is silent before it says how far it is.
const progressAfter = time.Second

// ahead is how many things may be worked and not shown yet: whoever prints slowly
// holds up the work, and not memory.
const ahead = 64

// inOrder works n things on all cores and shows them in their order, as soon as
// all before are shown; tick is called now and then with the number worked.
// It returns early, with nothing further begun, when ctx is done.
func inOrder[T any](ctx context.Context, n int, work func(i int) T, show func(T), tick func(done int)) {
	results := make([]chan T, n)
	for i := range results {
		results[i] = make(chan T, 1)
	}
	room := make(chan struct{}, ahead+runtime.GOMAXPROCS(0))
	var next, done atomic.Int64
	var workers sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		workers.Go(func() {
			for ctx.Err() == nil {
				select {
				case room <- struct{}{}:
				case <-ctx.Done():
					return
				}
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				results[i] <- work(i)
				done.Add(1)
			}
		})
	}
	shown := func(x T) {
		show(x)
		<-room
	}
	showAll(ctx, results, shown, func() { tick(int(done.Load())) })
	// Whoever is in the middle of writing a file may finish.
	workers.Wait()
}

func showAll[T any](ctx context.Context, results []chan T, show func(T), tick func()) {
	clock := time.NewTicker(progressAfter / 4)
	defer clock.Stop()
	for i := range results {
		for waiting := true; waiting; {
			select {
			case r := <-results[i]:
				if ctx.Err() != nil {
					return
				}
				show(r)
				results[i], waiting = nil, false
			case <-clock.C:
				tick()
			case <-ctx.Done():
				return
			}
		}
	}
}

// A progress is the line on a terminal that says how far a long run is.
type progress struct {
	s      *stream
	began  time.Time
	total  int
	points evaluate.Points // of the what-ifs
	on     bool
}

func (t *tool) progress(total int) *progress {
	return &progress{s: t.err, began: time.Now(), total: total}
}

func (p *progress) tick(done int) {
	if !p.s.terminal || time.Since(p.began) < progressAfter {
		return
	}
	p.s.printf("\r\x1b[K%s", p.says(done))
	p.on = true
}

// says is how far it is: in files, in points of what-ifs, or at least in seconds.
func (p *progress) says(done int) string {
	points := inPoints(p.points.Far())
	switch {
	case p.total > 1:
		return fmt.Sprintf("worked %d of %d", done, p.total) + points
	default:
		return fmt.Sprintf("working, %d s so far", int(time.Since(p.began).Seconds())) + points + "; Ctrl-C stops it"
	}
}

func inPoints(worked, known int) string {
	switch {
	case worked == 0 && known == 0:
		return ""
	case worked < known:
		return ", " + message.Thousands(worked) + " of " + message.Thousands(known) + " points"
	}
	return ", " + message.Thousands(worked) + " points"
}

// clear makes room for what is printed next.
func (p *progress) clear() {
	if p.on {
		p.s.printf("\r\x1b[K")
		p.on = false
	}
}

// patiently does something that may take long, and says how far it is on a terminal.
func (t *tool) patiently(ctx context.Context, work func(ctx context.Context)) {
	bar := t.progress(1)
	defer bar.clear()
	done := make(chan struct{})
	go func() {
		defer close(done)
		work(evaluate.Counting(ctx, &bar.points))
	}()
	clock := time.NewTicker(progressAfter / 4)
	defer clock.Stop()
	for {
		select {
		case <-done:
			return
		case <-clock.C:
			bar.tick(0)
		}
	}
}
