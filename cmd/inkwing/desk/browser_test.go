//go:build browser

package desk_test

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"inkwing/cmd/internal/browser"
)

// samples is a copy of the samples.
func samples(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../../../samples")); err != nil {
		t.Fatal(err)
	}
	return dir
}

// keepPicture writes what a reader sees into the folder $PICTURES, if there is one.
func keepPicture(t *testing.T, tab *browser.Tab, name string) {
	t.Helper()
	if dir := os.Getenv("PICTURES"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, name+".png"), tab.View(), 0o644); err != nil {
			t.Error(err)
		}
	}
}

// wait waits until an expression holds in a tab.
func wait(t *testing.T, tab *browser.Tab, expression string) {
	t.Helper()
	for range 1200 {
		if tab.Holds(expression) {
			return
		}
		time.Sleep(25 * time.Millisecond)
	}
	t.Fatalf("never: %s\ntroubles: %q\nsays: %q", expression, tab.Troubles(), browser.Eval[string](tab, `document.querySelector("#page-tray")?.innerText + " | " + document.querySelector("#page-notice")?.innerText + " | " + document.querySelector("main").innerText.slice(0, 600)`))
}

// settled holds that nothing went wrong in a tab, and that it asked nobody else.
func settled(t *testing.T, tab *browser.Tab, address string) {
	t.Helper()
	if got := tab.Troubles(); len(got) > 0 {
		t.Errorf("troubles: %q", got)
	}
	for _, q := range tab.Requests() {
		if !strings.HasPrefix(q, address) && q != address {
			t.Errorf("it asked for %s", q)
		}
	}
}

// readable holds that nothing keeps readers out, as axe-core sees it.
func readable(t *testing.T, tab *browser.Tab) {
	t.Helper()
	for _, v := range tab.Axe() {
		t.Errorf("%s: %s", v.ID, v.Help)
		for _, n := range v.Nodes[:min(len(v.Nodes), 3)] {
			t.Logf("  %s\n  %s", n.HTML, n.Summary)
		}
	}
}

// write saves a field as typing does.
func write(tab *browser.Tab, field, text string) {
	browser.Eval[bool](tab, `(() => { const f = document.querySelector(`+quoted(field)+`); f.value = `+quoted(text)+`; f.dispatchEvent(new Event("input", {bubbles: true})); return true })()`)
}

func quoted(text string) string { return "\"" + strings.ReplaceAll(text, `"`, `\"`) + "\"" }

func knob(name string) string { return `[data-name="` + name + `"] > .knob` }

var views = map[string]browser.View{"laptop": browser.Laptop, "phone": browser.Phone, "dark": {Width: 1280, Height: 800, Dark: true}}

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
	wait(t, one, `document.querySelector(".says").textContent.startsWith("1 limit is broken")`)
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
	write(one, "#page-tray .field input", "0.4 kg")
	wait(t, one, `document.querySelector(".moves") !== null`)
	browser.Eval[bool](one, `document.querySelector("#page-tray .main").click(), true`)
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

// TestHostileInBrowser opens a page of everything that a stranger's worksheet could
// try, in a desk that could write: nothing runs, nobody is asked, nothing is written.
func TestHostileInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := t.TempDir()
	text := strings.Join(append(slices.Clone(browser.Hostile), "The end."), "\n\n")
	file(t, dir, "h.md", text)
	file(t, dir, `<img src=x onerror="window.pwned=1">.md`, "# <img src=x onerror=window.pwned=1>\n\n```working\na = \"</script><script>window.pwned=1</script>\"\nb = \"<img src=x onerror=window.pwned=1>\"\n```\n")
	d := serve(t, dir)
	whole := func(tab *browser.Tab) {
		t.Helper()
		settled(t, tab, d.Address())
		if browser.Eval[bool](tab, `"pwned" in window`) {
			t.Error("a script of the worksheet ran")
		}
		if found := browser.Eval[[]string](tab, `[...document.querySelectorAll("main :is(script, iframe, object, embed, form, base, link, template, noscript, video, audio, input, style, meta), main [style], main [background], script[src], main button:not(.knob)")].map(e => e.outerHTML)`); len(found) > 0 {
			t.Errorf("left in the page: %q", found)
		}
		if on := browser.Eval[[]string](tab, `[...document.querySelectorAll("*")].flatMap(e => [...e.attributes].filter(a => a.name.startsWith("on") || /^\s*(javascript|data|file):/.test(a.value) && e.tagName !== "IMG").map(a => e.tagName + " " + a.name + "=" + a.value))`); len(on) > 0 {
			t.Errorf("attributes: %q", on)
		}
	}
	tab := b.Open(t, d.Address()+"page/h.md", browser.Laptop)
	wait(t, tab, `document.querySelectorAll(".knob").length > 1`)
	whole(tab)
	browser.Eval[int](tab, `document.querySelectorAll("main a, summary").forEach(a => { if (!/^https?:|^mailto:/.test(a.getAttribute("href") || "")) a.click() }), 1`)
	// What is swapped in goes the same way.
	browser.Eval[bool](tab, `document.querySelector('`+knob("a")+`').click(), true`)
	write(tab, "#page-tray .field input", "<img src=x onerror=window.pwned=1>")
	wait(t, tab, `document.querySelector(".tried .problem").textContent.length > 5`)
	write(tab, "#page-tray .field input", "2")
	wait(t, tab, `/changed|again/.test(document.querySelector(".says").textContent)`)
	whole(tab)
	file(t, dir, "h.md", text+"\n\n"+text)
	wait(t, tab, `[...document.querySelectorAll("main > section p")].filter(p => p.textContent === "The end.").length === 2`)
	whole(tab)
	list := b.Open(t, d.Address(), browser.Laptop)
	wait(t, list, `document.querySelectorAll("main > section").length === 2 && !document.querySelector("main").textContent.includes("being worked")`)
	whole(list)
	browser.Eval[bool](list, `document.querySelector('main a[href*="onerror"]').click(), true`)
	wait(t, list, `document.querySelectorAll(".knob").length === 2 && location.pathname.includes("onerror") && !!document.querySelector("#page-tray")`)
	whole(list)
	if now, _ := os.ReadFile(filepath.Join(dir, "h.md")); string(now) != text+"\n\n"+text {
		t.Error("the file is written")
	}
}

// TestOtherPagesInBrowser lets a page of another origin that knows the whole address
// try what browsers let it try: it reads nothing, frames nothing and writes nothing.
func TestOtherPagesInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := t.TempDir()
	file(t, dir, "a.md", two)
	d := serve(t, dir)
	elsewhere := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		fmt.Fprint(w, "<!DOCTYPE html><title>elsewhere</title><body>")
	}))
	defer elsewhere.Close()
	tab := b.Open(t, elsewhere.URL, browser.Laptop)
	got := browser.Eval[[]string](tab, `(async desk => {
  const out = [], keep = JSON.stringify({file: "", changes: [{name: "mass", text: "1 g"}]});
  const tried = async (name, does) => { try { const r = await does(); if (r) out.push(name + ": " + r); } catch {} };
  const within = (promise, ms) => Promise.race([promise, new Promise(r => setTimeout(() => r(""), ms))]);
  await tried("fetch", async () => (await fetch(desk)).status);
  await tried("read", async () => (await (await fetch(desk + "answer/a.md")).text()).slice(0, 20));
  await tried("keep", async () => (await fetch(desk + "keep/a.md", {method: "POST", headers: {"Content-Type": "application/json"}, body: keep})).status);
  await tried("keep, no-cors", async () => { const r = await fetch(desk + "keep/a.md", {method: "POST", mode: "no-cors", body: keep}); return r.type === "opaque" ? "" : r.status; });
  await tried("beacon", async () => { navigator.sendBeacon(desk + "run/a.md", new Blob([keep], {type: "text/plain"})); });
  const element = (name, set) => within(new Promise(done => { const e = document.createElement(name); e.onload = () => done("loaded"); e.onerror = () => done(""); set(e); document.body.append(e); }), 800);
  await tried("img", () => element("img", e => e.src = desk));
  await tried("script", () => element("script", e => e.src = desk + "answer/a.md"));
  await tried("style", () => element("link", e => { e.rel = "stylesheet"; e.href = desk; }));
  await tried("stream", () => within(new Promise(done => { const s = new EventSource(desk + "events"); s.onopen = () => done("opened"); s.onerror = () => done(""); }), 800));
  await tried("socket", () => within(new Promise(done => { const s = new WebSocket(desk.replace("http", "ws") + "events"); s.onopen = () => done("opened"); s.onerror = () => done(""); }), 800));
  const frame = document.createElement("iframe");
  frame.name = "f"; frame.src = desk + "page/a.md"; document.body.append(frame);
  await new Promise(r => setTimeout(r, 500));
  await tried("frame", async () => frame.contentDocument ? "" : frame.contentWindow.length ? "frames" : "");
  const form = document.createElement("form");
  form.method = "POST"; form.enctype = "text/plain"; form.action = desk + "keep/a.md"; form.target = "f";
  const field = document.createElement("input"); field.name = keep.slice(0, -1) + ',"x":"'; field.value = '"}'; form.append(field); document.body.append(form);
  form.submit();
  await new Promise(r => setTimeout(r, 500));
  return out;
})("`+d.Address()+`")`)
	if len(got) > 0 {
		t.Errorf("another page gets through: %q", got)
	}
	if now, _ := os.ReadFile(filepath.Join(dir, "a.md")); string(now) != two {
		t.Errorf("another page has written: %q", now)
	}
	if n := d.Streams(); n > 0 {
		t.Errorf("another page has %d streams", n)
	}
}

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

// TestDoorInBrowser opens the file that leads in.
func TestDoorInBrowser(t *testing.T) {
	dir := t.TempDir()
	file(t, dir, "a.md", two)
	d := serve(t, dir)
	file(t, dir, "door.html", string(d.Door("page/a.md")))
	tab := browser.Start(t).Open(t, "file://"+filepath.Join(dir, "door.html"), browser.Laptop)
	wait(t, tab, `location.href === "`+d.Address()+`page/a.md" && !!document.querySelector(".knob")`)
	if got := tab.Troubles(); len(got) > 0 {
		t.Errorf("troubles: %q", got)
	}
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
