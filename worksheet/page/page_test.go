package page_test

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"inkwing/evaluate"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/worksheet/formula"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/page"
)

// files are what a worksheet uses, by path.
type files map[string]string

func (f files) Load(from, use string) (*sheet.Sheet, error) {
	text, ok := f[path.Join(path.Dir(from), use)]
	if !ok {
		return nil, errors.New("does not exist")
	}
	return markdown.Parse(use, []byte(text)).Sheet(), nil
}

func (f files) image(name string) ([]byte, bool) {
	text, ok := f[name]
	return []byte(text), ok
}

func make1(t testing.TB, text string, f files) *page.Page {
	t.Helper()
	doc := markdown.Parse("notes.md", []byte(text))
	if len(doc.Refused) > 0 {
		t.Fatal(doc.Refused)
	}
	s := page.Source{Document: doc, Image: f.image}
	s.Report, s.Lines = evaluate.Lines(context.Background(), doc.Sheet(), f)
	return page.Make(context.Background(), s)
}

func block(lines string) string { return "# Notes\n\n```working\n" + lines + "\n```\n" }

// parsed is a page's document as a browser reads it.
func parsed(t testing.TB, p *page.Page) *html.Node {
	t.Helper()
	doc, err := html.Parse(bytes.NewReader(p.Document(page.Frame{})))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func each(n *html.Node, do func(*html.Node)) {
	do(n)
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		each(c, do)
	}
}

func attribute(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

// textOf is what a node says to a reader.
func textOf(n *html.Node) string {
	var out strings.Builder
	each(n, func(n *html.Node) {
		if n.Type == html.TextNode && n.Parent.Data != "style" {
			out.WriteString(n.Data)
		}
	})
	return out.String()
}

// bare is a text without its blanks, of which some are elements.
func bare(text string) string {
	return strings.ReplaceAll(strings.Join(strings.Fields(text), ""), "\u2061", "")
}

// plainText is what HTML says.
func plainText(t testing.TB, text string) string {
	t.Helper()
	doc, err := html.Parse(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return textOf(doc)
}

// holds reports whether a text says something.
func holds(text, part string) bool { return strings.Contains(bare(text), bare(part)) }

// within is the text of the element with an id.
func within(t testing.TB, p *page.Page, id string) string {
	t.Helper()
	found := ""
	each(parsed(t, p), func(n *html.Node) {
		if attribute(n, "id") == id {
			found = textOf(n)
		}
	})
	if found == "" {
		t.Errorf("no %s on the page", id)
	}
	return found
}

// sound holds what every page keeps to: ids are unique, links lead somewhere, nothing
// runs and nothing is fetched, and a file of it comes to the same elements.
func sound(t testing.TB, p *page.Page) {
	t.Helper()
	for _, s := range p.Sections {
		if same := tree(t, page.Lean(s.HTML)) == tree(t, s.HTML); !same {
			t.Errorf("in fewer bytes it is another: %s", s.HTML)
		}
	}
	ids := map[string]bool{}
	var links []string
	each(parsed(t, p), func(n *html.Node) {
		if n.Type != html.ElementNode {
			return
		}
		if slices.Contains([]string{"script", "iframe", "object", "embed", "form", "base", "link", "template", "noscript", "video", "audio", "input", "button"}, n.Data) ||
			n.Data == "style" && n.Parent.Data != "head" {
			t.Errorf("an element %s", n.Data)
		}
		for _, a := range n.Attr {
			switch {
			case a.Key == "id" && ids[a.Val]:
				t.Errorf("the id %q twice", a.Val)
			case a.Key == "id":
				ids[a.Val] = true
			case a.Key == "href" && strings.HasPrefix(a.Val, "#"):
				links = append(links, a.Val[1:])
			case a.Key == "href" && !regexp.MustCompile(`^(https?:|mailto:|[^:/]*(/[^/].*)?$)`).MatchString(a.Val):
				t.Errorf("a link to %q", a.Val)
			case a.Key == "src" && !strings.HasPrefix(a.Val, "data:image/"):
				t.Errorf("a source %q", a.Val)
			case strings.HasPrefix(a.Key, "on"), a.Key == "style", a.Key == "srcset", a.Key == "background":
				t.Errorf("an attribute %s=%q", a.Key, a.Val)
			}
		}
	})
	for _, to := range links {
		if !ids[to] && !strings.HasPrefix(to, "user-") {
			t.Errorf("a link leads to #%s, which is not there", to)
		}
	}
}

// TestStatements sets every kind of line.
func TestStatements(t *testing.T) {
	f := files{"parts.md": "```working\nstrap = 3 g\n```\n"}
	p := make1(t, "# Notes\n\n<!-- table: cells -->\n\n| cell | capacitance [F] | rated_voltage [V] |\n| --- | --- | --- |\n| B50 | 50 | 2.7 |\n\n```working\n"+`use "parts.md"
n_series = 4   # straps fit four
V = 10 V ± 0.1 V
cell = cells["B50"]
store = pack(cell, series: n_series)
E [Wh] = 1/2 * store.capacitance * V^2
f(x) = 2 * x
y = f(V)
m = n_series * parts.strap
limit V <= store.rated_voltage "Stop earlier."
limit V <= 5 V "Stop much earlier."
E_half = E with V = 5 V
study = vary n_series in 2 to 4 by 1: E [Wh]
n_needed = adjust n_series in 1 to 9 by 1 until store.rated_voltage >= 12 V
budget E
measured V = 10.05 V ± 0.02 V
chart "Energy by cells": E [Wh] against n_series [1] from study
full = V > 9 V
name = "first"`+"\n```\n\nIt holds `E [Wh] = 1 Wh`, see [above](#notes).\n", f)
	sound(t, p)
	for id, want := range map[string][]string{
		"q-n_series": {"nseries=4", "straps fit four"},
		"q-V":        {"V=(10.00±0.10) V"},
		"q-cell":     {"row B50", "capacitance 50 F"},
		"q-store":    {"pack joins like cells", "capacitance 12.5 F", "series 4", "formula and source"},
		"q-E":        {"E=12⋅Cstore⋅V2", "12×12.5 F×(10 V)2", "=(0.1736±0.0035) Wh", "where from", "cells"},
		"f-f":        {"f(x)=2⋅x"},
		"q-y":        {"=f(V)", "=(20.00±0.20) V"},
		"q-m":        {"=nseries⋅strap", "=4×3 g", "=12 g"},
		"l-limit":    {"V≤Vrated, store", "kept", "(10.00 ± 0.10) V worked, 10.8 V allowed, headroom 7.4 %"},
		"l-limit-2":  {"V≤5 V", "broken", "over by 100 %", "Stop much earlier."},
		"q-E_half":   {"E with V=5 V"},
		"q-study":    {"nseries from 2 to 4 in steps of 1"},
		"q-n_needed": {"=5", "Vrated, store≥12 V"},
		"q-full":     {"V>9 V", "yes"},
		"q-name":     {"name", "first"},
		"s-notes-2":  {"It holds (0.1736 ± 0.0035) Wh, see above."},
		"top":        {"Notes", "1 of 2 limits kept.", "1 limit is broken"},
		"b-notes":    {"Uncertainty budget of E", "Measured against worked", "agree", "the numbers", "Uses parts.md.", "as typed"},
	} {
		got := within(t, p, id)
		for _, part := range want {
			if !holds(got, part) {
				t.Errorf("%s: %q, want %q in it", id, got, part)
			}
		}
	}
	if p.State.Limits != 2 || len(p.State.Broken) != 1 || p.State.Holds() {
		t.Errorf("%+v", p.State)
	}
}

// TestOverview has the page in short where the builder asked for it: the limits, those
// of used pages too, the dangers as links to where they stand, and what is not worked.
func TestOverview(t *testing.T) {
	f := files{"shelf.md": "```working\nE = 300 J\nlimit E <= 200 J\n```\n"}
	p := make1(t, block(`overview
use "shelf.md"
n = 3
limit n <= 4
store = pack(capacitor(50 F, 2.7 V, resistance: 16 mΩ, tolerance: 5 %), series: 4)
w = worst_cell_voltage(store, 12 V)
bad = n + 1 V`), f)
	sound(t, p)
	all := within(t, p, "b-notes")
	for _, part := range []string{"In short: of 2 limits 1 broken; 1 danger; 1 line not worked.", "E <= 200 J of shelf", "broken", "n <= 4",
		"12 V, above its rating of 10.8 V", "Standing hazards: stored energy", "Not worked: bad = n + 1 V"} {
		if !holds(all, part) {
			t.Errorf("no %q in %q", part, all)
		}
	}
	if d, s := len(p.State.Dangers), len(p.State.Standing); d != 1 || s != 1 {
		t.Errorf("the top counts %d dangers and %d standing hazards, the overview 1 and 1", d, s)
	}
	if top := within(t, p, "top"); !holds(top, "1 danger") || !holds(top, "1 standing hazard") {
		t.Errorf("the top says %q", top)
	}
	text := ""
	for _, s := range p.Sections {
		text += s.HTML
	}
	for _, link := range []string{`href="#c-store-over-rating"`, `href="#c-stored-energy"`} {
		if !strings.Contains(text, link) || !strings.Contains(text, `id="`+link[7:]) {
			t.Errorf("%s leads nowhere", link)
		}
	}
}

// TestDetails has on the page what a region has no room for: each column of a budget
// and of a measurement, and what they are judged by.
func TestDetails(t *testing.T) {
	const cells = "<!-- table: cells -->\n\n| kind | C [F] |\n| :- | -: |\n| A50 | 50 ± 1 |\n| A25 | 25 ± 1 |\n\n"
	p := make1(t, cells+block("Q = cells[\"A50\"].C * 2 V\nbudget Q\nmeasured Q = 101 C ± 1 C"), nil)
	sound(t, p)
	all := within(t, p, "b-notes")
	for _, part := range []string{"Value", "Sensitivity", "2 C per F", "Without effect to first order: cells", "%", "+1 %", "0.89", "d is the difference in standard uncertainties"} {
		if !holds(all, part) {
			t.Errorf("no %q in %q", part, all)
		}
	}
}

// TestFailures shows what is wrong at its line, in the builder's words, and what
// still works.
func TestFailures(t *testing.T) {
	p := make1(t, block("a = 2 V\nb = a + 3 A\nc = 2 * b\nd = 3 +\ne = 2 * a"), nil)
	sound(t, p)
	all := within(t, p, "b-notes")
	for _, want := range []string{"Not worked b = a + 3 A", "Not worked d = 3 +", "waits for b", "=2⋅a=2×2 V=4 V"} {
		if !holds(all, want) {
			t.Errorf("%q is not in %q", want, all)
		}
	}
	if len(p.State.Failed) != 2 || p.State.Holds() {
		t.Errorf("%+v", p.State)
	}
}

// TestRegionsDoNotMatter makes one page of a worksheet with stale regions, fresh ones
// and none.
func TestRegionsDoNotMatter(t *testing.T) {
	bare := "# Notes\n\n```working\na = 2 V\nb = 2 * a\n```\n\nText.\n"
	with := "# Notes\n\n```working\na = 2 V\nb = 2 * a\n```\n\n<!-- worked: rewritten by every run -->\n\n| Quantity | Value |\n| --- | --- |\n| `b` | 99 V |\n\n> [!WARNING]\n>\n> Warning: stale.\n\n<!-- /worked -->\n\nText.\n"
	if a, b := make1(t, bare, nil), make1(t, with, nil); !slices.Equal(a.Sections, b.Sections) {
		t.Errorf("%v\n%v", a.Sections, b.Sections)
	}
	nested := "- item\n\n  ```working\n  a = 2 V\n  ```\n\n  <!-- worked: rewritten by every run -->\n\n  **Note:** stale\n\n  <!-- /worked -->\n\n- more\n"
	p := make1(t, nested, nil)
	sound(t, p)
	if text := textOf(parsed(t, p)); holds(text, "stale") || !holds(text, "a=2 V") || !holds(text, "more") {
		t.Errorf("%q", text)
	}
}

// TestSections tells which sections differ when a number does: those that show it and
// no others, under the ids that they had.
func TestSections(t *testing.T) {
	text := "# Notes\n\nIntro.\n\n## One\n\n```working\na = 2 V\nb = 2 * a\n```\n\nIt is `b [V] = ?`.\n\n## Two\n\nOther prose.\n\n```working\nc = 3 A\n```\n"
	old, now := make1(t, text, nil), make1(t, strings.Replace(text, "a = 2 V", "a = 3 V", 1), nil)
	var changed []string
	for i, s := range now.Sections {
		if s.ID != old.Sections[i].ID {
			t.Fatalf("%s is now %s", old.Sections[i].ID, s.ID)
		}
		if s.HTML != old.Sections[i].HTML {
			changed = append(changed, s.ID)
		}
		if !strings.Contains(s.HTML, ` id="`+s.ID+`"`) {
			t.Errorf("%s is not the id of its element: %s", s.ID, s.HTML)
		}
	}
	if !slices.Equal(changed, []string{"b-one", "s-one-2"}) {
		t.Errorf("changed: %q", changed)
	}
}

// TestImages embeds what lies in the folder, and makes links of what does not.
func TestImages(t *testing.T) {
	png := "\x89PNG\r\n\x1a\nxxxx"
	p := make1(t, "![one](a.png) ![two](my%20b.png) ![three](http://127.0.0.1/c.png) ![four](none.png) ![five](text.png) ![six](../up.png) <img src=\"a.png\">\n\n![svg](d.svg)\n",
		files{"a.png": png, "my b.png": png, "text.png": "no image", "d.svg": "<svg xmlns=\"http://www.w3.org/2000/svg\"/>"})
	sound(t, p)
	var embedded []string
	each(parsed(t, p), func(n *html.Node) {
		if n.Data == "img" {
			kind, _, _ := strings.Cut(attribute(n, "src"), ",")
			embedded = append(embedded, attribute(n, "alt")+" "+kind)
		}
	})
	if want := []string{"one data:image/png;base64", "two data:image/png;base64", " data:image/png;base64", "svg data:image/svg+xml;base64"}; !slices.Equal(embedded, want) {
		t.Errorf("%q", embedded)
	}
	text := textOf(parsed(t, p))
	for _, want := range []string{"image: three", "[image not found: four]", "[image not found: five]", "[image not found: six]"} {
		if !holds(text, want) {
			t.Errorf("%q is not in %q", want, text)
		}
	}
}

// TestLooksAlike wants a field that would be set as the name is to stand as it was typed.
func TestLooksAlike(t *testing.T) {
	const record = "cell = capacitor(50 F, 2.7 V)\n"
	for text, want := range map[string]string{
		record + "C_cell = cell.capacitance": "Ccell=cell.capacitance=50 F",
		record + "C = cell.capacitance":      "C=Ccell=50 F",
	} {
		name, _, _ := strings.Cut(strings.TrimPrefix(text, record), " ")
		if got := bare(within(t, make1(t, block(text), nil), "q-"+name)); !strings.HasPrefix(got, bare(want)) {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

// TestLimitsThatAreUnknown counts none as kept that could not be worked: the one whose own line
// fails, and those that wait for a line, a used page or a reading.
func TestLimitsThatAreUnknown(t *testing.T) {
	for _, c := range []struct{ text, head string }{
		{"V = -3 V\nE = stored_energy(5 F, V)\nlimit E >= 1 J", "0 of 1 limit kept.1 line is not worked1 limit waits"},
		{"V = -3 V\nE = stored_energy(5 F, V)\nlimit E >= 1 J\nlimit stored_energy(5 F, V) <= 2 J\nlimit V <= 10 V", "1 of 3 limits kept.2 lines are not worked 1 21 limit waits"},
		{"V = 3 V\nlimit V <= 10 V", "Its one limit holds."},
	} {
		p := make1(t, block(c.text), nil)
		if got := strings.Join(strings.Fields(within(t, p, "top")), " "); !strings.HasPrefix(got, "Notes"+c.head) {
			t.Errorf("%s\nsays %.120q, want %q", c.text, got, c.head)
		}
	}
}

// TestLapwing holds the large sample to its bounds: its size, and every result on it.
func TestLapwing(t *testing.T) {
	f := files{}
	for _, name := range []string{"journal.md", "parts.md"} {
		text, err := os.ReadFile("../../samples/lapwing/" + name)
		if err != nil {
			t.Fatal(err)
		}
		f[name] = string(text)
	}
	doc := markdown.Parse("journal.md", []byte(f["journal.md"]))
	s := page.Source{Document: doc}
	s.Report, s.Lines = evaluate.Lines(t.Context(), doc.Sheet(), f)
	p := page.Make(context.Background(), s)
	sound(t, p)
	const most = 236_000 // a file carries its sources beside this, 12 kB
	if size := len(p.Document(page.Frame{})); size > most {
		t.Errorf("%d bytes, over %d", size, most)
	}
	text := textOf(parsed(t, p))
	for _, q := range s.Report.Quantities {
		if !holds(text, plainText(t, formula.Text(q.Shown))) {
			t.Errorf("%s = %s is not on the page", q.Name, q.Shown)
		}
	}
	var cautions []report.Caution
	for _, b := range s.Report.Blocks {
		cautions = append(cautions, b.Cautions...)
	}
	for _, c := range cautions {
		if !holds(text, strings.ReplaceAll(c.Summary, "`", "")) {
			t.Errorf("the caution %q is not on the page", c.Summary)
		}
	}
}

// FuzzPage makes a page of any text, and holds it to what every page keeps to.
func FuzzPage(f *testing.F) {
	f.Add("# A\n\n<div id=x>\n\n```working\na = 2 V\nlimit a <= 1 V\n```\n\n</div></section>\n\n`a [V] = 1 V` ![x](http://y) [z](javascript:1)\n")
	f.Add("<!-- table: t -->\n\n| a | b [V] |\n|--|--|\n| x | 1 |\n\n- ```working\n  c = t[\"x\"]\n  ```\n")
	f.Add("<svg><style><img src=x onerror=1></style>\n\n<a href=\"&#x6a;avascript:1\">x</a>\n\n<p id=\"q-a\"><p id=\"top\">\n")
	f.Fuzz(func(t *testing.T, text string) {
		doc := markdown.Parse("x.md", []byte(text))
		if len(doc.Refused) > 0 {
			return
		}
		s := page.Source{Document: doc}
		s.Report, s.Lines = evaluate.Lines(t.Context(), doc.Sheet(), files{})
		p := page.Make(context.Background(), s)
		sound(t, p)
		for i := range p.Sections {
			if n, err := html.ParseFragment(strings.NewReader(p.Sections[i].HTML), nil); err != nil || len(n) == 0 {
				t.Fatal(err)
			}
		}
	})
}

// TestReached sets a line as it is set elsewhere when a number inside it is changed by
// a what-if, and says what is correlated.
func TestReached(t *testing.T) {
	const text = "# P\n\n```working\nE = 2 * stored_energy(12 F, 3 V ± 0.1 V)\nU = 3 V ± 0.1 V\nW = 2 V ± 0.1 V\ncorrelation U, W = -0.5   # one meter\n%s```\n"
	html := func(more string) (all string) {
		for _, section := range make1(t, strings.Replace(text, "%s", more, 1), nil).Sections {
			all += section.HTML
		}
		return all
	}
	without := html("")
	with := html("vary E(capacitance) in [12 F, 24 F]: E\nq = E with E(voltage) = 2 V\n")
	line := regexp.MustCompile(`<div class="line" id="q-E">.*?</div></div>|<div class="line" id="q-E">.*?</div>`)
	if a, b := line.FindString(without), line.FindString(with); a == "" || a != b {
		t.Errorf("E is set as\n%s\nwithout a what-if\n%s", b, a)
	}
	if !strings.Contains(with, "are correlated, ") || !strings.Contains(with, "one meter") {
		t.Error("what is correlated is not said")
	}
	if strings.Contains(with, "<code>= E with") {
		t.Error("with is not set as a formula")
	}
}

// TestMadeWithin makes nothing of a page for which there is no time.
func TestMadeWithin(t *testing.T) {
	doc := markdown.Parse("notes.md", []byte(block("a = 1 V\nb = 2 * a")))
	s := page.Source{Document: doc}
	s.Report, s.Lines = evaluate.Lines(t.Context(), doc.Sheet(), files{})
	ctx, cancel := context.WithCancel(t.Context())
	if whole := page.Make(ctx, s); len(whole.Sections) < 2 {
		t.Fatalf("%d sections", len(whole.Sections))
	}
	cancel()
	if cut := page.Make(ctx, s); len(cut.Sections) > 1 {
		t.Errorf("%d sections", len(cut.Sections))
	}
}
