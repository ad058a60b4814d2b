//go:build browser

package desk_test

import (
	"fmt"
	"strings"
	"testing"

	"inkwing/cmd/internal/browser"
)

// inFormulas is a page whose values in reach all stand inside of formulas.
const inFormulas = "# Notes\n\n```working\nb = sqrt(9 m^2)\nE [J] = 2 * stored_energy(12 F, 3 V)\n```\n"

// TestMarksInBrowser tries values inside of formulas by the pointer: each mark leads to
// its field, the dots that stand for several arguments to all of theirs.
func TestMarksInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := t.TempDir()
	file(t, dir, "a.md", inFormulas)
	d := serve(t, dir)
	for name, v := range map[string]browser.View{"laptop": browser.Laptop, "phone": browser.Phone} {
		t.Run(name, func(t *testing.T) {
			tab := b.Open(t, d.Address()+"page/a.md", v)
			wait(t, tab, `document.querySelectorAll("math .mark").length === 2`)
			for _, c := range []struct{ mark, text, place, shows string }{
				{"b(x)", "16 m^2", "#q-b", "4"},
				{"E(capacitance)", "24 F", "#q-E", "216"},
			} {
				click(t, tab, `document.querySelector('math [data-name="`+c.mark+`"]')`)
				fields := browser.Eval[[]string](tab, `[...document.querySelectorAll("#page-tray .tried .name")].map(e => e.textContent)`)
				if c.mark[0] == 'E' && strings.Join(fields, ", ") != "E(voltage), E(capacitance)" && strings.Join(fields, ", ") != "E(capacitance), E(voltage)" || c.mark[0] != 'E' && len(fields) != 1 {
					t.Errorf("%s leads to %q", c.mark, fields)
				}
				if !browser.Eval[bool](tab, `document.activeElement.matches("#page-tray .field input") && document.activeElement.closest("li").querySelector(".name").textContent === "`+c.mark+`"`) {
					t.Errorf("%s: its field does not have the focus", c.mark)
				}
				browser.Eval[bool](tab, `(f => { f.value = "`+c.text+`"; f.dispatchEvent(new Event("input", {bubbles: true})); return true; })(document.activeElement)`)
				wait(t, tab, `document.querySelector("`+c.place+` .was") !== null && document.querySelector("`+c.place+` .result").textContent.includes("`+c.shows+`")`)
				browser.Eval[bool](tab, `[...document.querySelectorAll("#page-tray button")].find(b => b.textContent === "Put all back").click(), true`)
				wait(t, tab, `document.querySelector("#page-tray").hidden && !document.querySelector("main .was")`)
			}
			settled(t, tab, d.Address())
		})
	}
}

// TestMarksByKeysInBrowser tries such a value by keys alone, on a page that has no other.
func TestMarksByKeysInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := t.TempDir()
	file(t, dir, "a.md", inFormulas)
	d := serve(t, dir)
	tab := b.Open(t, d.Address()+"page/a.md", browser.Laptop)
	wait(t, tab, `document.querySelectorAll("math .mark").length === 2`)
	readable(t, tab)
	for range 20 {
		if tab.Press("\t"); browser.Eval[bool](tab, `document.activeElement.matches(".opener")`) {
			break
		}
	}
	if !browser.Eval[bool](tab, `document.activeElement.matches(".opener") && document.activeElement.getBoundingClientRect().top > 0`) {
		t.Fatal("no key leads to the values, or what has the focus is not seen")
	}
	tab.Press("\r")
	if !browser.Eval[bool](tab, `document.activeElement.matches("#page-tray .any")`) {
		t.Fatal("return does not open the tray at its list")
	}
	readable(t, tab)
	tab.Arrow("Escape")
	if !browser.Eval[bool](tab, `document.querySelector("#page-tray").hidden && document.activeElement.matches(".opener")`) {
		t.Error("escape does not lead back")
	}
	tab.Press("\r")
	tab.Press("b") // the list goes to the entry that begins with it
	wait(t, tab, `document.activeElement.matches("#page-tray .field input") && document.activeElement.closest("li").querySelector(".name").textContent === "b(x)"`)
	tab.Arrow("ArrowUp")
	wait(t, tab, `document.querySelector("#q-b .was") !== null`)
	settled(t, tab, d.Address())
}

// click presses what an expression finds, in its middle.
func click(t *testing.T, tab *browser.Tab, what string) {
	t.Helper()
	at := browser.Eval[string](tab, `(e => { e.scrollIntoView({block: "center", behavior: "instant"}); const r = e.getBoundingClientRect(); return (r.left + r.width / 2) + " " + (r.top + r.height / 2); })(`+what+`)`)
	var x, y float64
	if _, err := fmt.Sscan(at, &x, &y); err != nil {
		t.Fatal(err)
	}
	tab.Click(x, y)
}
