package main

import (
	"bytes"
	"context"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

func TestInOrder(t *testing.T) {
	const n = 100
	var got []int
	inOrder(context.Background(), n,
		func(i int) int { time.Sleep(time.Duration((n-i)%7) * time.Microsecond); return i },
		func(i int) { got = append(got, i) }, func(int) {})
	if len(got) != n || !slices.IsSorted(got) {
		t.Errorf("shown as %v", got)
	}
	inOrder(context.Background(), 0, func(i int) int { return i }, func(int) { t.Error("something of nothing") }, func(int) {})
}

// TestAllCores makes each piece of work wait for as many others as there are
// cores: it ends only if all run at once.
func TestAllCores(t *testing.T) {
	cores := runtime.GOMAXPROCS(0)
	var together sync.WaitGroup
	together.Add(cores)
	inOrder(context.Background(), cores,
		func(i int) int { together.Done(); together.Wait(); return i },
		func(int) {}, func(int) {})
}

// TestStopped holds that after Ctrl-C what is begun ends and nothing follows.
func TestStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	var mu sync.Mutex
	begun, ended := 0, 0
	count := func(n *int) { mu.Lock(); *n++; mu.Unlock() }
	inOrder(ctx, 1000, func(i int) int {
		count(&begun)
		switch {
		case i == 5:
			cancel()
		case i > 5: // a fast core waits for the one that stops all
			<-ctx.Done()
		}
		count(&ended)
		return i
	}, func(int) {}, func(int) {})
	if begun != ended || begun >= 6+runtime.GOMAXPROCS(0) {
		t.Errorf("%d begun, %d ended", begun, ended)
	}
}

func TestProgress(t *testing.T) {
	var out bytes.Buffer
	long := time.Now().Add(-2 * progressAfter)
	for _, test := range []struct {
		terminal bool
		began    time.Time
		want     bool
	}{{true, long, true}, {true, time.Now(), false}, {false, long, false}} {
		out.Reset()
		p := progress{s: &stream{w: &out, terminal: test.terminal}, began: test.began, total: 9}
		p.tick(4)
		p.clear()
		if got := strings.Contains(out.String(), "worked 4 of 9"); got != test.want {
			t.Errorf("%+v: %q", test, out.String())
		}
		if test.want && !strings.HasSuffix(out.String(), "\x1b[K") {
			t.Errorf("not cleared: %q", out.String())
		}
	}
}

// TestProgressInPoints says how far the what-ifs of a long run are.
func TestProgressInPoints(t *testing.T) {
	var out bytes.Buffer
	p := progress{s: &stream{w: &out, terminal: true}, began: time.Now().Add(-3 * progressAfter), total: 1}
	says := func(want string) {
		t.Helper()
		out.Reset()
		if p.tick(0); !strings.Contains(out.String(), want) {
			t.Errorf("%q, want %q", out.String(), want)
		}
	}
	says("working, 3 s so far; Ctrl-C stops it")
	p.points.Begin(2500)
	says("3 s so far, 0 of 2,500 points; Ctrl-C")
	p.points.Worked()
	says(", 1 of 2,500 points;")
	for range 2999 {
		p.points.Worked() // a search, which does not know how many it takes
	}
	says(", 3,000 points;")
}
