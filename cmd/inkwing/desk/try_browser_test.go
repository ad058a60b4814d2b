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

// TestTryInBrowser tries a value and looks at what a reader sees then, on a laptop, a
// phone and in the dark.
func TestTryInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := samples(t)
	d := serve(t, dir)
	for name, view := range views {
		tab := b.Open(t, d.Address()+"page/lapwing/journal.md", view)
		wait(t, tab, `document.querySelectorAll(".knob").length > 40`)
		keepPicture(t, tab, "desk-page-"+name)
		browser.Eval[bool](tab, `document.querySelector('`+knob("n_series")+`').click(), true`)
		if !browser.Eval[bool](tab, `document.activeElement.matches("#page-tray .field input")`) {
			t.Error("the field does not have the focus")
		}
		tab.Press("6")
		wait(t, tab, `/result/.test(document.querySelector(".says").textContent) && document.querySelectorAll("main .was").length > 40`)
		if torn := browser.Eval[[]string](tab, `[...document.querySelectorAll("#page-tray .moved")].map(e => e.textContent).filter(x => x.length < 60 && /[0-9±] [0-9±(]/.test(x.replace(" → ", "→")))`); len(torn) > 0 {
			t.Errorf("a line may end within %q", torn[:1])
		}
		keepPicture(t, tab, "desk-try-"+name)
		browser.Eval[bool](tab, `document.querySelector("#q-store").scrollIntoView({behavior: "instant"}), true`)
		keepPicture(t, tab, "desk-cards-"+name)
		readable(t, tab)
		settled(t, tab, d.Address())
		tab.Press("\x1b")
		wait(t, tab, `document.querySelector("#page-tray").hidden && !document.querySelector("main .was")`)
		if got := browser.Eval[string](tab, `document.activeElement.parentElement.dataset.name || ""`); got != "n_series" {
			t.Errorf("the focus went to %q", got)
		}
	}
}

// TestKeepInBrowser keeps by keys alone what was tried, sees it in the other tab and
// in the file, and takes it back.
func TestKeepInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := t.TempDir()
	text := "# Glider\n\nIt weighs `weight [N] = ?`.\n\n```working\nmass = 350 g ± 5 g  # with the pack\nweight = mass * 9.81 m/s^2\nlimit weight <= 4 N\n```\n"
	file(t, dir, "a.md", text)
	d := serve(t, dir)
	at := d.Address() + "page/a.md"
	one, other := b.Open(t, at, browser.Laptop), b.Open(t, at, browser.Phone)
	for _, tab := range []*browser.Tab{one, other} {
		wait(t, tab, `!!document.querySelector(".knob")`)
	}
	holds := func(want string) {
		t.Helper()
		for range 200 {
			if now, _ := os.ReadFile(filepath.Join(dir, "a.md")); string(now) == want {
				return
			}
			time.Sleep(20 * time.Millisecond)
		}
		now, _ := os.ReadFile(filepath.Join(dir, "a.md"))
		t.Errorf("the file holds %q, want %q", now, want)
	}
	tabTo := func(tab *browser.Tab, where string) {
		t.Helper()
		for range 40 {
			if browser.Eval[bool](tab, `document.activeElement.matches('`+where+`')`) {
				return
			}
			tab.Press("\t")
		}
		t.Fatalf("no key leads to %s", where)
	}
	tabTo(one, knob("mass"))
	one.Press("\r")
	wait(t, one, `document.activeElement.matches("#page-tray input")`)
	for range 70 {
		one.Arrow("ArrowUp")
	}
	wait(t, one, `document.querySelector(".says").textContent.startsWith("1 limit is broken") && document.querySelector(".moves li").textContent.includes("+20")`)
	if got := browser.Eval[[]string](one, `[document.querySelector(".flips li").innerText, document.querySelector(".moves li").innerText, document.querySelector(".tried .was").innerText, document.querySelector("main .was").innerText]`); !strings.HasPrefix(got[0], "broken weight <= 4 N") || !strings.Contains(got[1], "+20 %") || got[2] != "in the file: 350 g ± 5 g" || !strings.HasPrefix(got[3], "was (3.4") {
		t.Errorf("it says %q", got)
	}
	holds(text)
	if browser.Eval[bool](other, `!!document.querySelector("main .was")`) {
		t.Error("another tab shows what is tried here")
	}
	keepPicture(t, one, "desk-keep")
	tabTo(one, "#page-tray .main")
	one.Press("\r")
	kept := strings.Replace(text, "350 g", "420 g", 1)
	holds(kept)
	wait(t, one, `document.querySelector("#page-tray").hidden && document.activeElement.matches(".knob") && /Kept/.test(document.querySelector("#page-notice").textContent)`)
	wait(t, other, `document.querySelector("main").textContent.includes("420")`)
	wait(t, other, `document.querySelector("main .limit.broken") !== null`)
	wait(t, one, `!document.querySelector("#desk-acts button").hidden`)
	// Somebody saves while the other tab tries: it says so, and shows both.
	browser.Eval[bool](other, `document.querySelector('`+knob("mass")+`').click(), true`)
	write(other, "#page-tray .field input", "300")
	wait(t, other, `document.querySelector(".says").textContent.includes("holds again")`)
	meanwhile := strings.Replace(kept, "420 g", "410 g", 1)
	file(t, dir, "a.md", meanwhile)
	wait(t, other, `document.querySelector(".tried .was").textContent === "in the file: 410 g ± 5 g"`)
	keepPicture(t, other, "desk-both")
	readable(t, other)
	browser.Eval[bool](other, `[...document.querySelectorAll("#page-tray .acts button")].at(-1).click(), true`)
	wait(t, other, `document.querySelector("#page-tray").hidden`)
	// What was kept is no longer there, so it is not taken back; then it is.
	browser.Eval[bool](one, `document.querySelector("#desk-acts button").click(), true`)
	wait(t, one, `/no longer/.test(document.querySelector("#page-notice").textContent)`)
	holds(meanwhile)
	browser.Eval[bool](one, `document.querySelector('`+knob("mass")+`').click(), true`)
	write(one, "#page-tray .field input", "0.39 kg")
	wait(t, one, `document.querySelector(".moves") !== null`)
	// Pressed while the last value is still being worked, it waits for that.
	browser.Eval[bool](one, `(() => { const ask = fetch; window.fetch = (...what) => { window.fetch = ask; document.querySelector("#page-tray .main").click(); return ask(...what); }; return true; })()`)
	write(one, "#page-tray .field input", "0.4 kg")
	holds(strings.Replace(text, "350 g ± 5 g", "0.4 kg", 1))
	wait(t, one, `document.querySelector("#page-tray").hidden && !document.querySelector("#desk-acts button").hidden`)
	browser.Eval[bool](one, `document.querySelector("#desk-acts button").click(), true`)
	holds(meanwhile)
	browser.Eval[bool](one, `[...document.querySelectorAll("#desk-acts button")].at(-1).click(), true`)
	wait(t, one, `/written into/.test(document.querySelector("#page-notice").textContent)`)
	if now, _ := os.ReadFile(filepath.Join(dir, "a.md")); !strings.Contains(string(now), "`weight [N] = ") || strings.Contains(string(now), "= ?`") {
		t.Errorf("the results are not written: %q", now)
	}
	// A value that cannot stand says why, and the page stays.
	browser.Eval[bool](one, `document.querySelector('`+knob("mass")+`').click(), true`)
	write(one, "#page-tray .field input", "3 V")
	wait(t, one, `document.querySelector(".tried .problem").textContent.length > 10`)
	if browser.Eval[bool](one, `!document.querySelector("#page-tray .main").disabled`) {
		t.Error("what cannot stand can be kept")
	}
	readable(t, one)
	settled(t, one, d.Address())
	settled(t, other, d.Address())
}
