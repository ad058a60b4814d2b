//go:build browser

package desk_test

import (
	"fmt"
	"os"
	"runtime"
	"strings"
	"testing"
	"time"

	"inkwing/cmd/internal/browser"
)

// TestLargeInBrowser opens a page of a megabyte of notes and two thousand statements,
// tries a value in it, and follows a save.
func TestLargeInBrowser(t *testing.T) {
	var text strings.Builder
	text.WriteString("# Large\n\n```working\nfirst = 1 V\n```\n")
	for i := range 200 {
		fmt.Fprintf(&text, "\n## Part %d\n\n%s\n\n```working\n", i, strings.Repeat("Much was written down here, and all of it is read. ", 100))
		for k := range 10 {
			fmt.Fprintf(&text, "x_%d_%d = first * %d\n", i, k, i*k+1)
		}
		text.WriteString("```\n")
	}
	dir := t.TempDir()
	file(t, dir, "a.md", text.String())
	d := serve(t, dir)
	b := browser.Start(t)
	began := time.Now()
	tab := b.Open(t, d.Address()+"page/a.md", browser.Laptop)
	wait(t, tab, `!!document.querySelector(".knob") && !!document.querySelector("#q-x_199_9")`)
	opened := time.Since(began)
	busy := tab.Busy()
	t.Logf("%d kB open after %v, of which the page worked %v", text.Len()>>10, opened, busy)
	if allowed := time.Duration(2 * crowd() * float64(time.Second)); opened > allowed {
		t.Errorf("it takes %v to open, more than %v", opened, allowed)
	}
	if busy > 1500*time.Millisecond {
		t.Errorf("the page works for %v until it is open", busy)
	}
	// A link leads to what has not been laid out before.
	browser.Eval[bool](tab, `document.querySelector('.contents a[href="#h-part-150"]').click(), true`)
	wait(t, tab, `Math.abs(document.getElementById("h-part-150").getBoundingClientRect().top) < 60`)
	file(t, dir, "a.md", strings.Replace(text.String(), "first * 1\n", "first * 7\n", 1))
	wait(t, tab, `document.querySelector("#q-x_0_0").textContent.includes("7")`)
	if n := browser.Eval[int](tab, `document.querySelectorAll("main .fresh").length`); n > 5 {
		t.Errorf("%d places flash", n)
	}
	settled(t, tab, d.Address())
}

// crowd is how much longer things take on this machine than if it did nothing else, as
// far as it says; 1 where it does not.
func crowd() float64 {
	text, err := os.ReadFile("/proc/loadavg")
	if err != nil {
		return 1
	}
	var load float64
	if _, err := fmt.Sscan(string(text), &load); err != nil {
		return 1
	}
	return max(1, load/float64(runtime.NumCPU()))
}
