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

// TestReloadInBrowser reloads a page on which values are tried: they stand in the tray
// again and are worked, beside what the file holds meanwhile; one whose line is gone is
// named. Another tab, and a page of another name, know nothing of them.
func TestReloadInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := t.TempDir()
	const page = "# Glider\n\n```working\nmass = 350 g ± 5 g\nribs = 9\nkind = \"balsa\"\nspare = 3 g\nweight = mass * ribs\n```\n"
	file(t, dir, "a.md", page)
	file(t, dir, "b.md", page)
	d := serve(t, dir)
	tab := b.Open(t, d.Address()+"page/a.md", browser.Laptop)
	wait(t, tab, `!!document.querySelector(".knob")`)
	try := func(name, text string) {
		t.Helper()
		browser.Eval[bool](tab, `document.querySelector('`+knob(name)+`').click(), true`)
		write(tab, "#page-tray li:last-child .field input", text)
		wait(t, tab, `/result/.test(document.querySelector(".says").textContent)`)
	}
	try("mass", "360")
	try("ribs", "10")
	try("kind", `"ply"`)
	try("spare", "4")
	moved := `[...document.querySelectorAll(".found-out .moves .moved")].map(e => e.textContent).join()`
	wait(t, tab, moved+` !== ""`)
	before := atRest(tab, moved)
	tab.Reload()
	wait(t, tab, `document.querySelectorAll("#page-tray li .field").length === 4 && `+moved+` === "`+before+`"`)
	fields := `[...document.querySelectorAll("#page-tray .tried .field input")].map(f => f.value).join()`
	if got := browser.Eval[string](tab, fields); got != `360,10,"ply",4` {
		t.Errorf("the tray holds %s", got)
	}
	if got := browser.Eval[string](tab, `[...document.querySelectorAll(".tried .was")].map(e => e.textContent).join("|")`); got != `in the file: 350 g ± 5 g|in the file: 9|in the file: "balsa"|in the file: 3 g` {
		t.Errorf("beside it stands %s", got)
	}
	for _, name := range []string{"a.md", "b.md"} {
		other := b.Open(t, d.Address()+"page/"+name, browser.Laptop)
		wait(t, other, `!!document.querySelector(".knob")`)
		if !browser.Eval[bool](other, `document.querySelector("#page-tray").hidden`) {
			t.Errorf("%s in another tab shows what is tried here", name)
		}
		other.Close()
	}
	// The file is another when the page is opened again.
	browser.Eval[bool](tab, `location.href = "about:blank", true`)
	wait(t, tab, `location.href === "about:blank"`)
	file(t, dir, "a.md", strings.NewReplacer("350 g ± 5 g", "340 g ± 4 g", "ribs = 9", "ribs = 10", "spare = 3 g\n", "").Replace(page))
	browser.Eval[bool](tab, `location.href = "`+d.Address()+`page/a.md", true`)
	wait(t, tab, `document.querySelectorAll("#page-tray li .field").length === 2 && /result/.test(document.querySelector(".says").textContent)`)
	if got := browser.Eval[string](tab, `document.querySelector(".tried .was").textContent`); got != "in the file: 340 g ± 4 g; it was 350 g ± 5 g when you tried this" {
		t.Errorf("over another value it says %q", got)
	}
	if got := browser.Eval[string](tab, `document.querySelector("#page-notice").textContent`); !strings.Contains(got, "One value was changed in the file since you tried another") || !strings.Contains(got, "No longer here, and not tried again: spare") {
		t.Errorf("it says %q", got)
	}
	if got := browser.Eval[string](tab, fields); got != `360 g ± 5 g,"ply"` {
		t.Errorf("the tray holds %s", got)
	}
	keepPicture(t, tab, "desk-reload")
	readable(t, tab)
	// Kept, it is tried no longer.
	browser.Eval[bool](tab, `document.querySelector("#page-tray .main").click(), true`)
	wait(t, tab, `document.querySelector("#page-tray").hidden`)
	tab.Reload()
	wait(t, tab, `!!document.querySelector(".knob") && document.querySelector("#page-tray").hidden`)
	settled(t, tab, d.Address())
}

// TestKeepDataInBrowser keeps a cell of a file of data and a value of a used page, which
// stand on no place of the page, and sees both in another tab and in the files.
func TestKeepDataInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := t.TempDir()
	file(t, dir, "a.md", "# Pack\n\n```working\nuse \"parts.md\"\nuse \"cells.csv\"\nm = parts.n * cells[\"B50\"].mass\n```\n")
	file(t, dir, "parts.md", "# Parts\n\n```working\nn = 4\n```\n")
	file(t, dir, "cells.csv", "cell;mass [g]\r\nB50;12,50\r\nB60;14,00\r\n")
	d := serve(t, dir)
	one, other := b.Open(t, d.Address()+"page/a.md", browser.Laptop), b.Open(t, d.Address()+"page/a.md", browser.Phone)
	for _, tab := range []*browser.Tab{one, other} {
		wait(t, tab, `!!document.querySelector("#q-m")`)
	}
	choose := func(name, text string) {
		t.Helper()
		if !browser.Eval[bool](one, `(() => { const any = document.querySelector("#page-tray .any"); any.dispatchEvent(new Event("focus")); any.value = `+quoted(name)+`; const found = any.value !== ""; any.dispatchEvent(new Event("change")); return found; })()`) {
			t.Fatalf("%s is not offered", name)
		}
		write(one, "#page-tray li:last-child .field input", text)
	}
	choose("parts.n", "5")
	choose(`cells["B50"].mass`, "12.00")
	wait(t, one, `/decimal commas/.test(document.querySelector(".tried").textContent)`)
	write(one, "#page-tray li:last-child .field input", "12,00")
	wait(t, one, `document.querySelector(".found-out").textContent.replace(/\s/g, " ").includes("60 g")`) // 5 × 12.00 g
	if got := browser.Eval[[]string](one, `[...document.querySelectorAll(".tried .was, #page-tray .main")].map(e => e.textContent)`); len(got) != 3 || got[0] != "in parts.md: 4" || got[1] != "in cells.csv: 12,50" || got[2] != "Keep in the files" {
		t.Errorf("it says %q", got)
	}
	keepPicture(t, one, "desk-data")
	readable(t, one)
	browser.Eval[bool](one, `document.querySelector("#page-tray .main").click(), true`)
	for _, tab := range []*browser.Tab{one, other} {
		wait(t, tab, `document.querySelector("#q-m").textContent.includes("60")`)
	}
	for name, want := range map[string]string{"parts.md": "n = 5", "cells.csv": "B50;12,00\r\nB60;14,00\r\n"} {
		if now, _ := os.ReadFile(filepath.Join(dir, name)); !strings.Contains(string(now), want) {
			t.Errorf("%s holds %q", name, now)
		}
	}
	settled(t, one, d.Address())
	settled(t, other, d.Address())
}

// atRest is what an expression comes to once it has been the same for a second: what was
// tried last may still be worked.
func atRest(tab *browser.Tab, expression string) string {
	for last := ""; ; {
		now := browser.Eval[string](tab, expression)
		if now == last {
			return now
		}
		last = now
		time.Sleep(time.Second)
	}
}
