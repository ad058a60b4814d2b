//go:build browser && live

package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"inkwing/cmd/internal/browser"
)

// livePage writes a page that lives and gives its file.
func livePage(t *testing.T, sheet string) string {
	t.Helper()
	to := filepath.Join(t.TempDir(), "live.html")
	var stdout, stderr bytes.Buffer
	if status := run([]string{"page", "--live", sheet, "-o", to}, nil, &stdout, &stderr); status != fine {
		t.Fatalf("status %d: %s", status, stderr.String())
	}
	return to
}

// openLive opens a page that lives, which then waits longer than it would by itself: a
// machine that does much else is slow, and that is not what is tested.
func openLive(t *testing.T, b *browser.Browser, file string, v browser.View) *browser.Tab {
	t.Helper()
	tab := b.Open(t, address(file), v)
	browser.Eval[bool](tab, `document.documentElement.dataset.patience = "600000", true`)
	return tab
}

// glanced reports whether a page shows how results move, and its answer is still to come.
const glanced = `document.querySelector("#page-tray.glanced") !== null`

// settled waits until a page has answered what was asked last, and gives how long
// that took.
func settled(t *testing.T, tab *browser.Tab, done string) time.Duration {
	t.Helper()
	return reached(t, tab, `!(`+glanced+`) && (`+done+`)`)
}

// reached waits until something is true of a page, and gives how long that took.
func reached(t *testing.T, tab *browser.Tab, done string) time.Duration {
	t.Helper()
	start := time.Now()
	for !browser.Eval[bool](tab, done) {
		if time.Since(start) > 3*time.Minute {
			t.Fatalf("not within three minutes: %s; it says %q; troubles %q", done, browser.Eval[string](tab, `document.querySelector(".says")?.textContent || ""`), tab.Troubles())
		}
		time.Sleep(10 * time.Millisecond)
	}
	return time.Since(start)
}

// putInto types a value into the field that stands in the tray under a name.
const putInto = `((label, text) => { const f = [...document.querySelectorAll("#page-tray .field input")].find(f => f.getAttribute("aria-label").startsWith(label)); f.value = text; f.dispatchEvent(new Event("input", {bubbles: true})); return true; })`

// TestLivingInBrowser opens a page from a disk and tries a value in it, with nothing
// but the file.
func TestLivingInBrowser(t *testing.T) {
	b := browser.Start(t)
	file := livePage(t, "../../samples/lapwing/journal.md")
	if info, err := os.Stat(file); err != nil || info.Size() > 4_500_000 {
		t.Errorf("%d bytes, over 4.5 MB; %v", info.Size(), err)
	} else {
		t.Logf("%d bytes", info.Size())
	}
	tab := openLive(t, b, file, browser.Laptop)
	quiet(t, tab, address(file))
	fits(t, tab)
	set(t, tab)
	whole := browser.Eval[string](tab, `document.querySelector("main").textContent`)
	before := browser.Eval[string](tab, `document.querySelector("#q-V_full").textContent + document.querySelector("#q-E_full").textContent`)
	start := time.Now()
	browser.Eval[bool](tab, `document.querySelector('[data-name="V_full"] .knob').click(), true`)
	browser.Eval[bool](tab, putInto+`("V full", "14")`)
	reached(t, tab, glanced+` && document.querySelectorAll(".moves li").length > 0`)
	t.Logf("a first glance after %v", time.Since(start).Round(time.Millisecond))
	settled(t, tab, `document.querySelectorAll(".found-out li").length > 0`)
	t.Logf("first answer after %v", time.Since(start).Round(time.Millisecond))
	if after := browser.Eval[string](tab, `document.querySelector("#q-V_full").textContent + document.querySelector("#q-E_full").textContent`); after == before || !strings.Contains(after, "was") {
		t.Errorf("tried, it shows %q as before", after)
	}
	if first := browser.Eval[string](tab, `document.querySelector(".found-out li").textContent`); !strings.HasPrefix(first, "broken") {
		t.Errorf("a broken limit does not come first: %q", first)
	}
	keepPicture(t, tab, "live-tried")
	readable(t, tab)
	for _, text := range []string{"12", "12.2", "12.4"} {
		said := browser.Eval[string](tab, `document.querySelector(".found-out").textContent`)
		start = time.Now()
		browser.Eval[bool](tab, putInto+`("V full", "`+text+`")`)
		settled(t, tab, `document.querySelector(".found-out").textContent !== `+quoted(said))
		t.Logf("later answer after %v", time.Since(start).Round(time.Millisecond))
	}
	drags(t, tab)
	// Put back, it says what the maker's machine worked out, to the character.
	browser.Eval[bool](tab, `[...document.querySelectorAll("#page-tray button")].find(b => b.textContent === "Put all back").click(), true`)
	settled(t, tab, `!document.querySelector("main .was")`)
	if again := browser.Eval[string](tab, `document.querySelector("main").textContent`); again != whole {
		t.Errorf("put back, it differs: %s", firstDifference(whole, again))
	}
	quiet(t, tab, address(file))
}

// drags pulls a value along faster than it can be answered: glances follow it, more of them
// than answers, since those that are overtaken are left out, and what stands at last is the
// answer to the last value.
func drags(t *testing.T, tab *browser.Tab) {
	t.Helper()
	browser.Eval[bool](tab, `(() => { window.glances = window.answers = window.values = 0;
		new MutationObserver(() => { if (`+glanced+`) glances++; else answers++; }).observe(document.querySelector(".found-out"), {childList: true});
		window.drag = setInterval(() => `+putInto+`("V full", (12.001 + 0.001 * (values++ % 500)).toFixed(3)), 8);
		return true; })()`)
	reached(t, tab, `window.glances >= window.answers + 5`)
	t.Logf("%d glances and %d answers to %d values", browser.Eval[int](tab, `clearInterval(drag), glances`), browser.Eval[int](tab, `answers`), browser.Eval[int](tab, `values`))
	browser.Eval[bool](tab, putInto+`("V full", "12.6")`)
	settled(t, tab, `document.querySelector("#q-V_full").textContent.includes("12.60")`)
}

// TestLivingDamagedInBrowser wants a page whose evaluator did not arrive whole to say so, and
// to stay one that can be read.
func TestLivingDamagedInBrowser(t *testing.T) {
	b := browser.Start(t)
	file := livePage(t, "../../samples/first/1-pack.md")
	whole, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	const begins = "<!-- evaluator: "
	at := bytes.Index(whole, []byte(begins)) + len(begins)
	end := at + bytes.Index(whole[at:], []byte(" -->"))
	for name, text := range map[string][]byte{
		"cut":     slices.Concat(whole[:at+10_000], whole[end:]),
		"missing": slices.Concat(whole[:at], whole[end:]),
		"turned":  slices.Concat(whole[:at+5000], []byte("aaaaa"), whole[at+5005:]),
	} {
		if err := os.WriteFile(file, text, 0o644); err != nil {
			t.Fatal(err)
		}
		tab := openLive(t, b, file, browser.Laptop)
		browser.Eval[bool](tab, `document.querySelector(".knob").click(), document.querySelector("#page-tray .arrow").click(), true`)
		reached(t, tab, `/damaged/.test(document.querySelector(".says").textContent)`)
		if says := browser.Eval[string](tab, `document.querySelector(".says").textContent`); says != "What works this page did not start: this page was damaged on its way; get it anew." {
			t.Errorf("%s: %q", name, says)
		}
	}
}

// noteAsked notes in a page what its worker is asked from then on, and sees a sign of a hand.
const (
	noteAsked = `(() => { window.asked = []; const post = Worker.prototype.postMessage; Worker.prototype.postMessage = function (m, ...rest) { asked.push(m.verb); return post.call(this, m, ...rest); }; return true; })()`
	aMouse    = `document.body.dispatchEvent(new PointerEvent("pointermove", {bubbles: true, pointerType: "mouse"}))`
	aFinger   = `document.body.dispatchEvent(new PointerEvent("pointerdown", {bubbles: true, pointerType: "touch"}))`
)

// TestLivingBeginsInBrowser wants nothing done for a page that only lies open; all of it at
// the first sign of a hand, so that the first answer waits for one working only; and of a
// finger, which may just scroll, no working before it comes near a value.
func TestLivingBeginsInBrowser(t *testing.T) {
	b := browser.Start(t)
	file := livePage(t, "../../samples/lapwing/journal.md")
	verbs := func(tab *browser.Tab) string {
		return strings.Join(browser.Eval[[]string](tab, `window.asked`), " ")
	}
	mouse := openLive(t, b, file, browser.Laptop)
	browser.Eval[bool](mouse, noteAsked)
	time.Sleep(300 * time.Millisecond)
	if got := verbs(mouse); got != "" {
		t.Errorf("a page that lies open asks for %q", got)
	}
	browser.Eval[bool](mouse, aMouse)
	took := settled(t, mouse, `window.asked.join(" ") === "prepare start"`)
	time.Sleep(3 * took)
	start := time.Now()
	browser.Eval[bool](mouse, `document.querySelector('[data-name="V_full"] .knob').click(), true`)
	browser.Eval[bool](mouse, putInto+`("V full", "14")`)
	settled(t, mouse, `document.querySelectorAll(".found-out li").length > 0`)
	t.Logf("first answer after %v, where a hand was seen before", time.Since(start).Round(time.Millisecond))
	finger := openLive(t, b, file, browser.Phone)
	browser.Eval[bool](finger, noteAsked)
	browser.Eval[bool](finger, aFinger)
	settled(t, finger, `window.asked.join(" ") === "prepare"`)
	time.Sleep(2 * took)
	if got := verbs(finger); got != "prepare" {
		t.Errorf("a finger that scrolls asks for %q", got)
	}
	browser.Eval[bool](finger, `document.querySelector(".knob").dispatchEvent(new PointerEvent("pointerdown", {bubbles: true, pointerType: "touch"}))`)
	settled(t, finger, `window.asked.join(" ") === "prepare start"`)
}

// firstDifference is where two texts part.
func firstDifference(a, b string) string {
	i := 0
	for i < min(len(a), len(b)) && a[i] == b[i] {
		i++
	}
	around := func(s string) string { return strings.ToValidUTF8(s[max(0, i-40):min(len(s), i+40)], "") }
	return fmt.Sprintf("%q, %q", around(a), around(b))
}

// quoted is a text as JavaScript has it.
func quoted(text string) string {
	out, err := json.Marshal(text)
	if err != nil {
		panic(err)
	}
	return string(out)
}

// catchSaved catches the file that a page hands to the browser.
const catchSaved = `(() => { const make = URL.createObjectURL; URL.createObjectURL = b => { if (/^text\/(markdown|csv)$/.test(b.type)) b.text().then(t => { window.saved = t; }); return make.call(URL, b); }; HTMLAnchorElement.prototype.click = function () { window.savedAs = this.download; }; return true; })()`

// TestLivingByKeysInBrowser goes through it by keys alone: a value is found, changed
// by an arrow, saved, and put back.
func TestLivingByKeysInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := t.TempDir()
	sheet := filepath.Join(dir, "notes.md")
	const text = "# Notes\n\n```working\nU = 4.0 V  # measured\nW = 2 * U\nlimit W <= 9 V\n```\n\nSo `W [V] = ?`.\n"
	if err := os.WriteFile(sheet, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	file := livePage(t, sheet)
	for _, v := range []browser.View{browser.Laptop, browser.Phone} {
		tab := openLive(t, b, file, v)
		browser.Eval[bool](tab, catchSaved)
		reach(t, tab, `document.activeElement.classList.contains("knob")`)
		tab.Press("\r")
		if !browser.Eval[bool](tab, `document.activeElement.matches("#page-tray .field input")`) {
			t.Fatal("return on a value leads to no field")
		}
		for range 6 {
			browser.Eval[bool](tab, `document.activeElement.dispatchEvent(new KeyboardEvent("keydown", {key: "PageUp", bubbles: true, cancelable: true})), true`)
		}
		settled(t, tab, `document.querySelector(".found-out .broken") !== null`)
		fits(t, tab)
		if says := browser.Eval[string](tab, `document.querySelector(".says[role=status]").textContent`); !strings.Contains(says, "1 limit is broken by this.") {
			t.Errorf("said aloud: %q", says)
		}
		readable(t, tab)
		keepPicture(t, tab, fmt.Sprint("live-keys-", v.Width))
		reach(t, tab, `document.activeElement.textContent === "Save what was changed"`)
		tab.Press("\r")
		settled(t, tab, `window.saved !== undefined`)
		if name := browser.Eval[string](tab, `window.savedAs`); name != "notes.md" {
			t.Errorf("saved as %q", name)
		}
		saved := browser.Eval[string](tab, `window.saved`)
		if !strings.Contains(saved, "U = 10.0 V  # measured\nW = 2 * U\n") || !strings.Contains(saved, "`W [V] = 20 V`") || !strings.Contains(saved, "broken") {
			t.Errorf("saved: %s", saved)
		}
		if got := tab.Troubles(); len(got) > 0 {
			t.Errorf("troubles: %q", got)
		}
	}
}

// reach goes from one thing to the next by the tabulator until a condition holds.
func reach(t *testing.T, tab *browser.Tab, condition string) {
	t.Helper()
	for range 100 {
		if browser.Eval[bool](tab, condition) {
			return
		}
		tab.Press("\t")
	}
	t.Fatalf("no key leads there: %s", condition)
}

// TestLivingHostileInBrowser opens a page of everything that a stranger's worksheet
// could try, now with a script in it, and lets it be worked.
func TestLivingHostileInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := t.TempDir()
	sheet, to := filepath.Join(dir, "h.md"), filepath.Join(dir, "h.html")
	text := strings.Join(append(slices.Clone(browser.Hostile), "```working\nlast = 1 V # --> </script><script>window.pwned=1</script>\nnext = 2 * last\n```"), "\n\n")
	if err := os.WriteFile(sheet, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	if status := run([]string{"page", "--live", sheet, "-o", to}, nil, &stdout, &stderr); status != attention {
		t.Fatalf("status %d: %s", status, stderr.String())
	}
	tab := openLive(t, b, to, browser.Laptop)
	browser.Eval[bool](tab, `document.querySelector('[data-name="last"] .knob').click(), true`)
	browser.Eval[bool](tab, putInto+`("last", "7")`)
	settled(t, tab, `document.querySelector("#q-next").textContent.includes("14")`)
	browser.Eval[bool](tab, putInto+`("last", "<img src=x onerror=window.pwned=1>")`)
	settled(t, tab, `document.querySelector("#page-tray .problem").textContent !== ""`)
	quiet(t, tab, address(to))
	if browser.Eval[bool](tab, `"pwned" in window`) {
		t.Error("a script of the worksheet ran")
	}
	if on := browser.Eval[[]string](tab, `[...document.querySelectorAll("*")].flatMap(e => [...e.attributes].filter(a => a.name.startsWith("on")).map(a => e.tagName + " " + a.name))`); len(on) > 0 {
		t.Errorf("attributes: %q", on)
	}
}

// TestBrokenInBrowser opens pages whose evaluator or sources were damaged on the way:
// they can be read, and say what is wrong when a value is tried.
func TestBrokenInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := t.TempDir()
	sheet := filepath.Join(dir, "notes.md")
	if err := os.WriteFile(sheet, []byte("# Notes\n\n```working\nU = 4 V\nW = 2 * U\n```\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(livePage(t, sheet))
	if err != nil {
		t.Fatal(err)
	}
	for word, says := range map[string]string{"evaluator": "did not start", "carried": "did not start"} {
		at := bytes.Index(whole, []byte("<!-- "+word+": ")) + 200
		text := slices.Clone(whole)
		copy(text[at:], "AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")
		file := filepath.Join(dir, word+".html")
		if err := os.WriteFile(file, text, 0o644); err != nil {
			t.Fatal(err)
		}
		tab := openLive(t, b, file, browser.Laptop)
		browser.Eval[bool](tab, `document.querySelector('[data-name="U"] .knob').click(), true`)
		browser.Eval[bool](tab, putInto+`("U", "5")`)
		settled(t, tab, `document.querySelector(".says").textContent.includes("`+says+`")`)
		if shown := browser.Eval[string](tab, `document.querySelector("#q-W").textContent`); !strings.Contains(shown, "8") {
			t.Errorf("%s: it shows %q", word, shown)
		}
		quiet(t, tab, address(file))
	}
}

// TestGivenUpInBrowser tries what takes longer than the page waits: it says so, does not
// show that as worked, and works what is tried next, from what was saved before.
func TestGivenUpInBrowser(t *testing.T) {
	b := browser.Start(t)
	sheet := filepath.Join(t.TempDir(), "slow.md")
	const text = "# Slow\n\n```working\nstep = 50 V\na = 2 V\nb = 2 * a\nslow = vary x in 1 V to 100 V by step: root\nx = 3 V\nroot = sqrt(x / (1 V))\n```\n"
	if err := os.WriteFile(sheet, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	file := livePage(t, sheet)
	tab := openLive(t, b, file, browser.Laptop)
	browser.Eval[bool](tab, catchSaved)
	try := func(name, text, says string) {
		t.Helper()
		browser.Eval[bool](tab, `document.querySelector('[data-name="`+name+`"] .knob').click(), true`)
		browser.Eval[bool](tab, putInto+`("`+name+`", "`+text+`")`)
		settled(t, tab, `document.querySelector(".says").textContent.includes("`+says+`")`)
	}
	try("a", "3", "1 result changed")
	browser.Eval[bool](tab, `[...document.querySelectorAll("#page-tray button")].find(b => b.textContent === "Save what was changed").click(), true`)
	settled(t, tab, `window.saved !== undefined && document.querySelector("#page-tray").hidden`)
	browser.Eval[bool](tab, `document.documentElement.dataset.patience = "1", true`)
	try("step", "0.01", "too long and was given up")
	if !browser.Eval[bool](tab, `document.body.classList.contains("cut-off")`) {
		t.Error("what was given up is shown as if it were worked")
	}
	readable(t, tab)
	browser.Eval[bool](tab, `document.documentElement.dataset.patience = "600000", true`)
	try("step", "25", "result changed") // a table is, which is not counted among them
	if browser.Eval[bool](tab, `document.body.classList.contains("cut-off")`) {
		t.Error("worked again, the page is still shown as cut off")
	}
	if got := browser.Eval[string](tab, `document.querySelector("#q-b").textContent`); !strings.Contains(got, "6\u2005V") {
		t.Errorf("what was saved before is forgotten: b is %q", got)
	}
	quiet(t, tab, address(file))
}

// TestLivingReloadInBrowser reloads a page that lives: what was tried is there again, and
// worked.
func TestLivingReloadInBrowser(t *testing.T) {
	b := browser.Start(t)
	sheet := filepath.Join(t.TempDir(), "notes.md")
	if err := os.WriteFile(sheet, []byte("# Notes\n\n```working\nU = 4.0 V ± 0.1 V\nn = 2\nW = n * U\nlimit W <= 9 V\n```\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	file := livePage(t, sheet)
	tab := openLive(t, b, file, browser.Laptop)
	browser.Eval[bool](tab, `document.querySelector('[data-name="U"] .knob').click(), true`)
	browser.Eval[bool](tab, putInto+`("U", "5.5")`)
	settled(t, tab, `document.querySelector(".found-out .broken") !== null`)
	tab.Reload() // it works at once, and waits as long as it does by itself
	settled(t, tab, `document.querySelector(".found-out .broken") !== null && document.querySelector("#page-tray input").value === "5.5"`)
	browser.Eval[bool](tab, `[...document.querySelectorAll("#page-tray button")].find(b => b.textContent === "Put all back").click(), true`)
	settled(t, tab, `document.querySelector("#page-tray").hidden && !document.querySelector("main .was")`)
	tab.Reload()
	if browser.Eval[bool](tab, `document.querySelectorAll("#page-tray li").length > 0`) {
		t.Error("what was put back is tried again")
	}
	quiet(t, tab, address(file))
}

// TestLivingFilesInBrowser tries values of a used page and of its data beside a search
// over journals: the search says that it stays as it was made, and each file that is
// another is offered by its name.
func TestLivingFilesInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := t.TempDir()
	for name, text := range map[string]string{
		"notes.md": "# Notes\n\n```working\nuse \"parts.md\"\nuse \"log.csv\"\nm = 3 * parts.mass\nU = max(log.U)\n```\n\n## Others\n\n```gather\nquantity where name == \"mass\"\n```\n",
		"parts.md": "# Parts\n\n```working\nmass = 30 g\n```\n",
		"log.csv":  "t [s],U [V]\n0,1.5\n1,2.5\n",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	file := livePage(t, filepath.Join(dir, "notes.md"))
	tab := openLive(t, b, file, browser.Laptop)
	browser.Eval[bool](tab, catchSaved)
	choose := func(name, label, text string) {
		t.Helper()
		browser.Eval[bool](tab, `(() => { const any = document.querySelector("#page-tray .any"); any.dispatchEvent(new Event("focus")); any.value = '`+name+`'; any.dispatchEvent(new Event("change")); return true; })()`)
		browser.Eval[bool](tab, putInto+`("`+label+`", "`+text+`")`)
	}
	choose("parts.mass", "parts.mass", "31")
	choose("log[2].U", "log[2].U", "2.75")
	settled(t, tab, `document.querySelectorAll(".found-out .moves li").length === 2`)
	if notes := browser.Eval[[]string](tab, `[...document.querySelectorAll(".as-made > .as-made-note")].map(e => e.textContent)`); len(notes) != 1 || !strings.Contains(notes[0], "As of the making of this page") {
		t.Errorf("the search says %q", notes)
	}
	keepPicture(t, tab, "live-as-made")
	readable(t, tab)
	browser.Eval[bool](tab, `[...document.querySelectorAll("#page-tray button")].find(b => b.textContent === "Save what was changed").click(), true`)
	settled(t, tab, `document.querySelectorAll("#page-saved li button").length > 1`)
	keepPicture(t, tab, "live-files")
	readable(t, tab)
	for _, f := range [][2]string{{"parts.md", "mass = 31 g"}, {"log.csv", "1,2.75"}} {
		browser.Eval[bool](tab, `window.saved = undefined, [...document.querySelectorAll("#page-saved button")].find(b => b.textContent === "Save `+f[0]+`").click(), true`)
		settled(t, tab, `window.saved !== undefined`)
		if name, text := browser.Eval[string](tab, `window.savedAs`), browser.Eval[string](tab, `window.saved`); name != f[0] || !strings.Contains(text, f[1]) {
			t.Errorf("saved as %q: %q", name, text)
		}
	}
	quiet(t, tab, address(file))
}
