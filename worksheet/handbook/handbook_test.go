package handbook_test

import (
	"bytes"
	"context"
	"slices"
	"strings"
	"sync"
	"testing"

	"golang.org/x/net/html"

	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
	"inkwing/units"
	"inkwing/worksheet/handbook"
)

// pages are made once for all tests.
var pages = sync.OnceValue(func() []handbook.File { return handbook.Pages(context.Background()) })

// A read is a file of the handbook as a browser reads it.
type read struct {
	text  string
	ids   map[string]string // what stands in the element, by its id
	links []string
	tags  map[string]int
}

func open(t *testing.T, text []byte) read {
	t.Helper()
	doc, err := html.Parse(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	r := read{ids: map[string]string{}, tags: map[string]int{}}
	var walk func(*html.Node) string
	walk = func(n *html.Node) string {
		var says strings.Builder
		if n.Type == html.TextNode && n.Parent.Data != "style" && n.Parent.Data != "script" {
			says.WriteString(n.Data)
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			says.WriteString(walk(c))
		}
		r.tags[n.Data]++
		for _, a := range n.Attr {
			switch a.Key {
			case "id":
				if _, twice := r.ids[a.Val]; twice {
					t.Errorf("the id %q twice", a.Val)
				}
				r.ids[a.Val] = says.String()
			case "href":
				r.links = append(r.links, a.Val)
			}
		}
		return says.String()
	}
	r.text = walk(doc)
	return r
}

// TestPages holds the handbook to what it promises: all that there is stands in it, and
// each link leads somewhere.
func TestPages(t *testing.T) {
	files := map[string]read{}
	for _, f := range pages() {
		files[f.Name] = open(t, f.Text)
		isLong := bytes.Contains(f.Text, []byte(`toggle("as-read"`)) // then it is laid out bit by bit
		if scripts := files[f.Name].tags["script"]; scripts > 0 != (f.Name == "index.html" || isLong) || isLong && len(f.Text) < 300_000 {
			t.Errorf("%s: %d scripts", f.Name, scripts)
		}
	}
	for name, r := range files {
		for _, link := range r.links {
			file, id, _ := strings.Cut(link, "#")
			if link == "data:," {
				continue // the icon, which is none
			}
			if file == "" {
				file = name
			}
			to, ok := files[file]
			if _, found := to.ids[id]; !ok || id != "" && !found {
				t.Errorf("%s: a link to %s", name, link)
			}
		}
	}
	holds := func(file, what string) {
		t.Helper()
		if what != "" && !strings.Contains(bare(files[file].text), bare(what)) {
			t.Errorf("%s: without %q", file, what)
		}
	}
	for _, f := range library.All() {
		file := f.Topic + ".html"
		for _, what := range []string{f.Signature(), f.Doc.Text, f.Doc.Validity, f.Doc.Source, strings.TrimSpace(f.Doc.Example)} {
			holds(file, what)
		}
		for _, p := range f.Params {
			holds(file, p.Help)
		}
		for _, c := range library.CautionsOf(f.Name) {
			if !slices.Contains(files[file].links, "cautions.html#caution-"+c.ID) || !slices.Contains(files["cautions.html"].links, file+"#"+f.Name) {
				t.Errorf("%s and its caution %s do not lead to each other", f.Name, c.ID)
			}
		}
		if !slices.Contains(files["index.html"].links, file+"#"+f.Name) {
			t.Errorf("the index does not lead to %s", f.Name)
		}
	}
	for _, u := range units.All() {
		if left, right, ok := strings.Cut(u.InSI(), " = "); !ok || left != right {
			holds("units.html", u.InSI())
		}
		holds("units.html", u.Source)
	}
	for _, c := range library.Cautions() {
		holds("cautions.html", message.Sentence(model.Sketch(c.Summary)))
		holds("cautions.html", c.Source)
	}
	for _, w := range syntax.Words() {
		holds("language.html", w.Form)
		holds("language.html", w.Summary)
	}
}

func bare(text string) string { return strings.Join(strings.Fields(text), "") }

// TestFormulas sets the formula of each function that has one.
func TestFormulas(t *testing.T) {
	var set, all int
	for _, f := range pages() {
		_, list, _ := bytes.Cut(f.Text, []byte("<main>"))
		for _, entry := range bytes.Split(list, []byte(`<section class=entry>`))[1:] {
			if _, formula, found := bytes.Cut(entry, []byte(`<div class=formula>`)); found {
				all++
				formula, _, _ = bytes.Cut(formula, []byte("</div>"))
				if bytes.Contains(formula, []byte("<math")) {
					set++
				}
			}
		}
	}
	if all < 100 || set*10 < all*9 {
		t.Errorf("%d of %d formulas are set", set, all)
	}
}

// TestExamples works the example of every function: its results are on the page.
func TestExamples(t *testing.T) {
	examples := 0
	for _, f := range pages() {
		for _, entry := range bytes.Split(f.Text, []byte(`<section class=entry>`))[1:] {
			if !bytes.Contains(entry, []byte("<h3>Example</h3>")) || f.Name == "language.html" {
				continue
			}
			examples++
			if !bytes.Contains(entry, []byte(`class=block>`)) {
				t.Errorf("%s: an example that is not worked: %.300s", f.Name, entry)
			}
		}
	}
	if examples < 100 {
		t.Errorf("%d examples", examples)
	}
}
