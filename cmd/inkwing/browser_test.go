//go:build browser

package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"inkwing/cmd/internal/browser"
)

// pages writes the pages of a folder of worksheets and gives the folder they are in.
func pages(t *testing.T, args ...string) string {
	t.Helper()
	out := t.TempDir()
	var stdout, stderr bytes.Buffer
	if status := run(append(append([]string{"page"}, args...), "-o", out), nil, &stdout, &stderr); status != fine {
		t.Fatalf("status %d: %s", status, stderr.String())
	}
	return out
}

func address(parts ...string) string { return "file://" + filepath.Join(parts...) }

// quiet holds that a page fetched nothing but itself, and that nothing went wrong.
func quiet(t *testing.T, tab *browser.Tab, address string) {
	t.Helper()
	if got := tab.Requests(); len(got) != 1 || got[0] != address {
		t.Errorf("it asked for %q", got)
	}
	if got := tab.Troubles(); len(got) > 0 {
		t.Errorf("troubles: %q", got)
	}
}

// fits holds that nothing of a page stands out at the side, save what moves by itself.
func fits(t *testing.T, tab *browser.Tab) {
	t.Helper()
	if wide := browser.Eval[[]string](tab, `(() => {
  const wide = [];
  if (document.documentElement.scrollWidth > innerWidth) wide.push("the page: " + document.documentElement.scrollWidth);
  const moves = e => { for (; e; e = e.parentElement) if (/auto|scroll/.test(getComputedStyle(e).overflowX)) return true; return false; };
  for (const e of document.querySelectorAll("main *")) {
    const r = e.getBoundingClientRect();
    if (r.width > 0 && r.right > innerWidth + 1 && !moves(e)) wide.push(e.tagName + "." + (e.className.baseVal ?? e.className) + " " + Math.round(r.right));
  }
  return wide.slice(0, 10);
})()`); len(wide) > 0 {
		t.Errorf("too wide: %q", wide)
	}
}

// set holds that every formula that is shown has a size, and that no two sides of an
// equation lie on one another.
func set(t *testing.T, tab *browser.Tab) {
	t.Helper()
	if bad := browser.Eval[[]string](tab, `(() => {
  const bad = [];
  const shown = e => e.checkVisibility();
  for (const m of document.querySelectorAll("math")) {
    const r = m.getBoundingClientRect();
    if (shown(m) && (r.width < 4 || r.height < 6)) bad.push("no size: " + m.textContent);
  }
  for (const e of document.querySelectorAll(".equation")) {
    const parts = [...e.querySelectorAll(":scope > math, .sides > *")].map(x => x.getBoundingClientRect());
    for (let i = 0; i < parts.length; i++) for (let k = i + 1; k < parts.length; k++) {
      const a = parts[i], b = parts[k];
      if (Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 1) bad.push("overlap: " + e.textContent);
    }
  }
  return bad.slice(0, 10);
})()`); len(bad) > 0 {
		t.Errorf("formulas: %q", bad)
	}
}

// roomy holds that no disclosure lies on what it belongs to, and that the lines of an
// equation that is broken do not touch.
func roomy(t *testing.T, tab *browser.Tab) {
	t.Helper()
	if bad := browser.Eval[[]string](tab, `(() => {
  const bad = [], box = e => e.getBoundingClientRect();
  const meet = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 1;
  for (const s of document.querySelectorAll("summary")) {
    if (!s.checkVisibility()) continue;
    const line = s.closest(".line, .caution, .chart") || s.parentElement;
    for (const e of line.querySelectorAll(".does, .name, .note, .pairs, .sides > *, .equation > math, table")) if (e.checkVisibility() && !s.contains(e) && meet(box(s), box(e))) bad.push(s.textContent + " on " + e.textContent);
  }
  for (const e of document.querySelectorAll(".plain > li, .equation")) {
    const parts = [...e.children].map(box).filter(r => r.width > 0);
    for (let i = 1; i < parts.length; i++) if (parts[i].top >= parts[i - 1].bottom - 1 && parts[i].top < parts[i - 1].bottom + 1) bad.push("no room in " + e.textContent);
  }
  return bad.slice(0, 10);
})()`); len(bad) > 0 {
		t.Errorf("too near: %q", bad)
	}
}

// onPaper holds what a page is on paper: what is cut nowhere, and what opens.
func onPaper(t *testing.T, tab *browser.Tab) {
	t.Helper()
	if bad := browser.Eval[[]string](tab, `(() => {
  const bad = [], style = e => getComputedStyle(e);
  for (const e of document.querySelectorAll(".card, .limit, .equation, .chart, tr")) if (e.checkVisibility() && style(e).breakInside !== "avoid") bad.push("may be cut: " + e.className);
  for (const t of document.querySelectorAll("table")) if (t.rows.length < 16 && t.checkVisibility() && style(t).breakInside !== "avoid") bad.push("a small table may be cut");
  for (const s of document.querySelectorAll("summary")) if (s.checkVisibility() && ![...s.parentElement.children].some(e => e !== s && e.checkVisibility({contentVisibilityAuto: true}))) bad.push("opens nothing: " + s.textContent);
  for (const a of document.querySelectorAll("main a")) if (a.checkVisibility() && style(a).textDecorationLine !== "none") bad.push("underlined: " + a.textContent);
  return [...new Set(bad)].slice(0, 10);
})()`); len(bad) > 0 {
		t.Errorf("on paper: %q", bad)
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

// keepPicture writes what a reader sees into the folder $PICTURES, if there is one.
func keepPicture(t *testing.T, tab *browser.Tab, name string) {
	t.Helper()
	dir := os.Getenv("PICTURES")
	if dir == "" {
		return
	}
	if err := os.WriteFile(filepath.Join(dir, strings.ReplaceAll(name, "/", "-")+".png"), tab.Picture(), 0o644); err != nil {
		t.Error(err)
	}
}

var views = []struct {
	name string
	browser.View
}{
	{"laptop", browser.Laptop}, {"phone", browser.Phone},
	{"dark", browser.View{Width: 1280, Height: 800, Dark: true}},
	{"print", browser.View{Width: 673, Height: 979, Print: true}}, // what the margins leave of A4, the narrower paper
}

// TestPagesInBrowser looks at the pages of the samples as their readers do.
func TestPagesInBrowser(t *testing.T) {
	b := browser.Start(t)
	out := pages(t, "../../samples")
	for _, page := range []string{"index.html", "lapwing/journal.html", "lapwing/winter.html", "wren/journal.html", "lapwing/workshop.html", "language/language.html"} {
		for _, v := range views {
			if page != "lapwing/journal.html" && v.name == "dark" {
				continue
			}
			t.Run(page+"/"+v.name, func(t *testing.T) {
				at := address(out, page)
				tab := b.Open(t, at, v.View)
				quiet(t, tab, at)
				fits(t, tab)
				set(t, tab)
				roomy(t, tab)
				if v.Print {
					onPaper(t, tab)
				}
				if v.name == "laptop" || v.name == "dark" && page == "lapwing/journal.html" || v.name == "phone" && page == "lapwing/winter.html" {
					readable(t, tab)
				}
				keepPicture(t, tab, page+"-"+v.name)
			})
		}
	}
}

// TestReadingInBrowser goes through a page by keyboard and pointer.
func TestReadingInBrowser(t *testing.T) {
	b := browser.Start(t)
	out := pages(t, "../../samples")
	tab := b.Open(t, address(out, "lapwing/journal.html"), browser.Laptop)
	texts := browser.Eval[[]string](tab, `["h1", ".status .sum", "#q-wire_needed .equation", "#q-store .does", "#q-E_full .name"].map(s => document.querySelector(s).innerText.replace(/[\s\u2061]+/g, " ").trim())`)
	for i, want := range []string{"Lapwing", " limits hold.", "46.7 m", "pack joins like cells in series and parallel.", "Wh"} {
		if !strings.Contains(texts[i], want) {
			t.Errorf("%q, want %q", texts[i], want)
		}
	}
	// Every disclosure is reached and opened by keys alone.
	seen := map[string]bool{}
	for range 60 {
		tab.Press("\t")
		what := browser.Eval[string](tab, `document.activeElement.tagName + " " + document.activeElement.innerText.trim().slice(0, 30)`)
		seen[what] = true
		if what == "SUMMARY where from" {
			tab.Press("\r")
			if !browser.Eval[bool](tab, `document.activeElement.parentElement.open && document.activeElement.parentElement.querySelector("ul li").checkVisibility()`) {
				t.Error("return does not open where a value comes from")
			}
			break
		}
	}
	for _, want := range []string{"A 1", "A The pack", "SUMMARY where from"} {
		if !seen[want] {
			t.Errorf("no key leads to %q", want)
		}
	}
	// The numbers of a chart stand where the pointer is.
	tip := browser.Eval[string](tab, `(() => { const all = document.querySelectorAll(".chart .at > g"), g = all[Math.floor(all.length / 4)]; g.scrollIntoView({block: "center"}); const r = g.getBoundingClientRect(); return (r.left + r.width / 2) + " " + (r.top + r.height / 2); })()`)
	var x, y float64
	if _, err := fmt.Sscan(tip, &x, &y); err != nil {
		t.Fatal(err)
	}
	tab.Point(x, y)
	if shown := browser.Eval[[]string](tab, `[...document.querySelectorAll(".at text")].filter(e => getComputedStyle(e).visibility === "visible").map(e => e.textContent)`); len(shown) != 1 || !regexp.MustCompile(`t [0-9.]+ s,\s+V [0-9.]+ V`).MatchString(shown[0]) {
		t.Errorf("under the pointer: %q", shown)
	}
	if links := browser.Eval[[]string](tab, `[...document.querySelectorAll('a[href^="#"]')].map(a => a.getAttribute("href").slice(1)).filter(id => !document.getElementById(decodeURIComponent(id)))`); len(links) > 0 {
		t.Errorf("links to nowhere: %q", links)
	}
}

// TestPrintingInBrowser prints a page on both papers: page by page, with numbers.
func TestPrintingInBrowser(t *testing.T) {
	b := browser.Start(t)
	out := pages(t, "../../samples/lapwing")
	tab := b.Open(t, address(out, "journal.html"), browser.Laptop)
	for name, paper := range map[string]chromedp.PaperSize{"A4": chromedp.PaperA4, "Letter": chromedp.PaperLetter} {
		pdf := tab.PDF(paper)
		count := len(regexp.MustCompile(`/Type /Page\b[^s]`).FindAll(pdf, -1))
		if count < 5 || count > 20 {
			t.Errorf("%s: %d pages", name, count)
		}
	}
}

// TestLongInBrowser lays a long page out as it is read, and all of it before it goes to
// paper: a section that is laid out later would be cut there through its lines.
func TestLongInBrowser(t *testing.T) {
	b := browser.Start(t)
	at := address(pages(t, "--handbook"), "glide.html")
	tab := b.Open(t, at, browser.Laptop)
	const how = `getComputedStyle([...document.querySelectorAll("main > section")].at(-1)).contentVisibility`
	if got := browser.Eval[string](tab, how); got != "auto" {
		t.Errorf("while it is read: %s", got)
	}
	browser.Eval[bool](tab, `addEventListener("beforeprint", () => { window.onPaper = `+how+`; }), true`)
	tab.PDF(chromedp.PaperA4)
	if got := browser.Eval[string](tab, `window.onPaper`); got != "visible" {
		t.Errorf("on paper: %q", got)
	}
	if got := browser.Eval[string](tab, how); got != "auto" {
		t.Errorf("afterwards: %s", got)
	}
	quiet(t, tab, at)
}

// TestHandbookInBrowser reads and searches the handbook.
func TestHandbookInBrowser(t *testing.T) {
	b := browser.Start(t)
	out := pages(t, "--handbook")
	for _, v := range []browser.View{browser.Laptop, browser.Phone, {Width: 673, Height: 979, Print: true}} {
		names := []string{"index.html", "energy.html", "glide.html", "units.html", "language.html"}
		if v == browser.Laptop {
			names = append(names, "generator.html", "plain.html", "workshop.html", "cautions.html")
		}
		for _, name := range names {
			at := address(out, name)
			tab := b.Open(t, at, v)
			quiet(t, tab, at)
			fits(t, tab)
			set(t, tab)
			if v == browser.Laptop {
				readable(t, tab)
			}
			keepPicture(t, tab, "handbook-"+name+"-"+fmt.Sprint(v.Width))
		}
	}
	tab := b.Open(t, address(out, "index.html"), browser.Laptop)
	shown := `[...document.querySelectorAll(".index li")].filter(e => e.checkVisibility()).map(e => e.querySelector("a").textContent)`
	all := browser.Eval[[]string](tab, shown)
	if len(all) < 250 {
		t.Errorf("%d entries", len(all))
	}
	browser.Eval[bool](tab, `document.getElementById("q").focus(), true`)
	for _, key := range "hold up" {
		tab.Press(string(key))
	}
	if found := browser.Eval[[]string](tab, shown); len(found) == 0 || len(found) > 20 || !slices.Contains(found, "hold up time") {
		t.Errorf("found %q", found)
	}
	if says := browser.Eval[string](tab, `document.getElementById("found").textContent`); !strings.HasSuffix(says, fmt.Sprintf(" of %d", len(all))) {
		t.Errorf("it says %q", says)
	}
	quiet(t, tab, address(out, "index.html"))
}

// TestHostileInBrowser opens a page of everything that a stranger's worksheet could
// try: nothing runs, nothing is asked for, and the page stays whole.
func TestHostileInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := t.TempDir()
	text := strings.Join(append(slices.Clone(browser.Hostile), "The end."), "\n\n")
	if err := os.WriteFile(filepath.Join(dir, "h.md"), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	to := filepath.Join(dir, "h.html")
	if status := run([]string{"page", filepath.Join(dir, "h.md"), "-o", to}, nil, &stdout, &stderr); status != attention {
		t.Fatalf("status %d: %s", status, stderr.String())
	}
	tab := b.Open(t, address(to), browser.Laptop)
	browser.Eval[int](tab, `document.querySelectorAll("a, summary").forEach(a => { if (!/^https?:|^mailto:/.test(a.getAttribute("href") || "")) a.click() }), 1`)
	quiet(t, tab, address(to))
	if browser.Eval[bool](tab, `"pwned" in window`) {
		t.Error("a script of the worksheet ran")
	}
	if found := browser.Eval[[]string](tab, `[...document.querySelectorAll("script, iframe, object, embed, form, base, link, template, noscript, video, audio, input, button, meta[http-equiv=refresh], body style, [style], [background]")].map(e => e.outerHTML)`); len(found) > 0 {
		t.Errorf("left in the page: %q", found)
	}
	if on := browser.Eval[[]string](tab, `[...document.querySelectorAll("*")].flatMap(e => [...e.attributes].filter(a => a.name.startsWith("on") || /^\s*(javascript|data|file):/.test(a.value) && e.tagName !== "IMG").map(a => e.tagName + " " + a.name + "=" + a.value))`); len(on) > 0 {
		t.Errorf("attributes: %q", on)
	}
	if last := browser.Eval[string](tab, `(() => { const p = [...document.querySelectorAll("main > section p")].at(-1); return p ? p.textContent : "" })()`); last != "The end." {
		t.Errorf("the page is no longer whole: its last paragraph in place is %q", last)
	}
	if ids := browser.Eval[[]string](tab, `(() => { const seen = {}, twice = []; document.querySelectorAll("[id]").forEach(e => { if (seen[e.id]) twice.push(e.id); seen[e.id] = 1 }); return twice })()`); len(ids) > 0 {
		t.Errorf("ids given twice: %q", ids)
	}
}
