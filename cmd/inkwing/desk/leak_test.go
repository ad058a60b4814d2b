package desk_test

import (
	"fmt"
	"net/http"
	"runtime"
	"strings"
	"testing"
	"time"
)

// TestTwoHundredSaves follows them all and holds no more afterwards than before.
func TestTwoHundredSaves(t *testing.T) {
	if testing.Short() {
		t.Skip("two hundred saves take some seconds, which -short leaves out")
	}
	dir := t.TempDir()
	file(t, dir, "a.md", two)
	d := serve(t, dir)
	ask(t, "GET", d.Address()+"page/a.md", "", nil)
	events := hear(t, d)
	save := func(n int) {
		file(t, dir, "a.md", strings.Replace(two, "350", fmt.Sprint(351+n), 1))
		for !strings.Contains(html(next(t, events, "a.md"), "b-mass"), fmt.Sprint(351+n)) {
		}
	}
	for n := range 40 {
		save(n)
	}
	before := held()
	routines := runtime.NumGoroutine()
	for n := range 200 {
		save(100 + n)
		if n%10 == 0 { // tabs come and go
			for range 5 {
				q, _ := http.NewRequestWithContext(t.Context(), "GET", d.Address()+"events", nil)
				if got, err := http.DefaultTransport.RoundTrip(q); err == nil {
					got.Body.Close()
				}
			}
		}
	}
	grown := int64(held()) - int64(before)
	t.Logf("200 saves leave %d kB", grown>>10)
	if grown > 2<<20 {
		t.Error("that is too much")
	}
	for range 200 {
		if d.Streams() == 1 && runtime.NumGoroutine() <= routines+4 {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Errorf("%d streams, %d goroutines, at first %d", d.Streams(), runtime.NumGoroutine(), routines)
}

// held is what memory holds that somebody still needs.
func held() uint64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}
