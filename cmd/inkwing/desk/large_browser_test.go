//go:build browser

package desk_test

import (
	"fmt"
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
	t.Logf("%d kB open after %v", text.Len()>>10, opened)
	if opened > 8*time.Second { // 2 s where nothing else is done
		t.Errorf("it takes %v to open", opened)
	}
	file(t, dir, "a.md", strings.Replace(text.String(), "first * 1\n", "first * 7\n", 1))
	wait(t, tab, `document.querySelector("#q-x_0_0").textContent.includes("7")`)
	if n := browser.Eval[int](tab, `document.querySelectorAll("main .fresh").length`); n > 5 {
		t.Errorf("%d places flash", n)
	}
	settled(t, tab, d.Address())
}
