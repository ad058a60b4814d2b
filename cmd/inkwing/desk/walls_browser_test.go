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

	"inkwing/cmd/internal/browser"
)

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
		if found := browser.Eval[[]string](tab, `[...document.querySelectorAll("main :is(script, iframe, object, embed, form, base, link, template, noscript, video, audio, input, style, meta), main [style], main [background], script[src], main button:not(.knob)")].filter(e => !(e.matches("main > [style]") && /^contain-intrinsic-size: auto [0-9.]+px;$/.test(e.getAttribute("style")))).map(e => e.outerHTML)`); len(found) > 0 {
			t.Errorf("left in the page: %q", found)
		}
		if on := browser.Eval[[]string](tab, `[...document.querySelectorAll("*")].flatMap(e => [...e.attributes].filter(a => a.name.startsWith("on") || /^\s*(javascript|data|file):/.test(a.value) && e.tagName !== "IMG" && !(e.matches("head > link[rel=icon]") && a.value === "data:,")).map(a => e.tagName + " " + a.name + "=" + a.value))`); len(on) > 0 {
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
