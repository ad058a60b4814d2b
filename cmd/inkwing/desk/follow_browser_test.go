//go:build browser

package desk_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"inkwing/cmd/internal/browser"
)

// TestFollowInBrowser has a page follow its file: the reader's place and what was
// opened stay, and tabs share one stream and agree.
func TestFollowInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := samples(t)
	d := serve(t, dir)
	at := d.Address() + "page/lapwing/journal.md"
	one, other := b.Open(t, at, browser.Laptop), b.Open(t, at, browser.Laptop)
	list := b.Open(t, d.Address(), browser.Laptop)
	wait(t, one, `document.querySelectorAll(".knob").length > 40 && document.documentElement.dataset.stream === "here"`)
	wait(t, other, `document.querySelectorAll(".knob").length > 40`)
	if n := d.Streams(); n != 1 {
		t.Errorf("three tabs have %d streams", n)
	}
	// The reader is in the middle of the page, with a disclosure open.
	browser.Eval[bool](one, `(() => { const d = document.querySelector("#q-wire_needed .where, #q-wire_needed details"); d.open = true; d.querySelector("summary").focus({preventScroll: true}); document.querySelector("#q-wire_needed").scrollIntoView({block: "center", behavior: "instant"}); return true })()`)
	place := browser.Eval[float64](one, `document.querySelector("#q-wire_needed").getBoundingClientRect().top`)
	journal := filepath.Join(dir, "lapwing/journal.md")
	text, err := os.ReadFile(journal)
	if err != nil {
		t.Fatal(err)
	}
	changed := strings.Replace(string(text), "A park glider", "One more line.\n\nAnd another one, which moves all below.\n\nA park glider", 1)
	if changed == string(text) {
		t.Fatal("the sample has changed: mend the test")
	}
	file(t, dir, "lapwing/journal.md", changed)
	for _, tab := range []*browser.Tab{one, other} {
		wait(t, tab, `document.querySelector("main").textContent.includes("And another one")`)
	}
	if now := browser.Eval[float64](one, `document.querySelector("#q-wire_needed").getBoundingClientRect().top`); now < place-2 || now > place+2 {
		t.Errorf("the reader's place moved from %.0f to %.0f", place, now)
	}
	if !browser.Eval[bool](one, `(() => { const e = document.activeElement; return e.tagName === "SUMMARY" && e.parentElement.open && !!e.closest("#q-wire_needed") })()`) {
		t.Error("what was opened is closed, or the focus is lost")
	}
	// What a save moved is told by old and new, in each tab, and that limits are broken now.
	lighter := strings.Replace(changed, "n_series = 5", "n_series = 4", 1)
	file(t, dir, "lapwing/journal.md", lighter)
	for _, tab := range []*browser.Tab{one, other} {
		wait(t, tab, `/not everything holds/.test(document.querySelector("#page-notice").textContent) && document.querySelectorAll("#page-notice li").length === 5`)
		wait(t, tab, `document.querySelectorAll(".fresh").length > 3`)
		if says := browser.Eval[string](tab, `document.querySelector("#page-notice li").textContent`); !strings.Contains(says, " → ") {
			t.Errorf("the first that moved is %q", says)
		}
	}
	keepPicture(t, one, "desk-saved")
	readable(t, one)
	file(t, dir, "lapwing/journal.md", changed)
	wait(t, one, `!/n_series = 4/.test(document.querySelector("main").textContent)`)
	// A line in error stands at its place, with the builder's text; the rest still works.
	broken := strings.Replace(changed, "n_series = 5", "n_series = 5 +", 1)
	file(t, dir, "lapwing/journal.md", broken)
	wait(t, one, `document.querySelector(".failure code")?.textContent.includes("n_series = 5 +") === true`)
	if says := browser.Eval[string](one, `document.querySelector("#page-notice").textContent`); !strings.Contains(says, "not everything holds") {
		t.Errorf("it says %q", says)
	}
	if n := browser.Eval[int](one, `document.querySelectorAll("main section").length`); n < 10 {
		t.Errorf("of a page with one line in error %d sections are left", n)
	}
	keepPicture(t, one, "desk-broken")
	wait(t, list, `document.querySelector("main").textContent.includes("not worked")`)
	keepPicture(t, list, "desk-list")
	readable(t, list)
	file(t, dir, "lapwing/journal.md", changed)
	wait(t, one, `!document.querySelector(".failure")`)
	if err := os.Remove(journal); err != nil {
		t.Fatal(err)
	}
	wait(t, one, `!!document.querySelector(".problems") && document.querySelectorAll("main section").length > 10`)
	readable(t, one)
	keepPicture(t, one, "desk-gone")
	file(t, dir, "lapwing/journal.md", string(text))
	wait(t, one, `!document.querySelector(".problems")`)
	// The tab with the stream closes: the next one takes over, and misses nothing.
	one.Close()
	wait(t, other, `document.documentElement.dataset.stream === "here" || !document.querySelector("main").textContent.includes("And another one")`)
	file(t, dir, "lapwing/journal.md", strings.Replace(string(text), "A park glider", "The tab that is left sees this.\n\nA park glider", 1))
	wait(t, other, `document.querySelector("main").textContent.includes("The tab that is left")`)
	released := func() bool { return d.Streams() == 1 }
	for range 100 {
		if released() {
			break
		}
		time.Sleep(20 * time.Millisecond)
	}
	if !released() {
		t.Errorf("%d streams", d.Streams())
	}
	settled(t, other, d.Address())
	settled(t, list, d.Address())
}

// TestEndedInBrowser says that the desk was ended, in each tab.
func TestEndedInBrowser(t *testing.T) {
	dir := t.TempDir()
	file(t, dir, "a.md", two)
	d, stop := serveUntil(t, dir, ".")
	b := browser.Start(t)
	one, other := b.Open(t, d.Address()+"page/a.md", browser.Laptop), b.Open(t, d.Address()+"page/a.md", browser.Laptop)
	for _, tab := range []*browser.Tab{one, other} {
		wait(t, tab, `!!document.querySelector(".knob")`)
	}
	wait(t, one, `document.documentElement.dataset.stream === "here"`)
	stop()
	for _, tab := range []*browser.Tab{one, other} {
		wait(t, tab, `document.body.classList.contains("cut-off") && /does not answer/.test(document.querySelector("#page-notice").textContent)`)
	}
	keepPicture(t, one, "desk-ended")
}
