package page_test

import (
	"crypto/sha256"
	"encoding/base64"
	"strings"
	"testing"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"inkwing/worksheet/page"
)

// tree is HTML as a browser has it in a page's main element.
func tree(t testing.TB, text string) string {
	t.Helper()
	nodes, err := html.ParseFragment(strings.NewReader(text), &html.Node{Type: html.ElementNode, DataAtom: atom.Main, Data: "main"})
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	for _, n := range nodes {
		if err := html.Render(&out, n); err != nil {
			t.Fatal(err)
		}
	}
	return out.String()
}

// TestLean writes what a browser reads as the same, in fewer bytes.
func TestLean(t *testing.T) {
	for in, want := range map[string]string{
		`<p class="a">It&#39;s &#34;1&#34; &gt; 0 &amp;#39; &lt;</p><p id="b c">x</p>`:                                                           `<p class=a>It's "1" > 0 &amp;#39; &lt;<p id="b c">x</p>`,
		`<ul><li>a</li><li><ul><li>b</li></ul></li></ul>`:                                                                                        `<ul><li>a<li><ul><li>b</ul></ul>`,
		`<ul><li>a</li> <li>b</li>text</ul>`:                                                                                                     `<ul><li>a</li> <li>b</li>text</ul>`,
		`<dl><div><dt>a</dt><dd>b</dd></div></dl><dl><dt>a</dt><dd>b</dd></dl>`:                                                                  `<dl><div><dt>a<dd>b</div></dl><dl><dt>a<dd>b</dl>`,
		`<table><thead><tr><th scope="col">a</th></tr></thead><tbody><tr><td class="r">1</td><td>2</td></tr><tr><td>3</td></tr></tbody></table>`: `<table><thead><tr><th scope=col>a<tbody><tr><td class=r>1<td>2<tr><td>3</table>`,
		`<svg><rect width="1" height="6"/><path d="M1 2"/></svg><math><mspace width="0.2em"/></math>`:                                            `<svg><rect width=1 height=6 /><path d="M1 2"/></svg><math><mspace width=0.2em /></math>`,
		`<a href="a?b=c&amp;d" title="" data-name="a[&#34;b&#34;]">x</a>`:                                                                        `<a href="a?b=c&amp;d" title="" data-name=a[&#34;b&#34;]>x</a>`,
		`<p>a</p>b<del><p>c</p></del><!-- "x" <p class="a"> --><p>d</p>`:                                                                         `<p>a</p>b<del><p>c</p></del><!-- "x" <p class="a"> --><p>d</p>`,
	} {
		got := page.Lean(in)
		if got != want {
			t.Errorf("%s\nis written as\n%s, want\n%s", in, got, want)
		}
		if tree(t, got) != tree(t, in) {
			t.Errorf("%s\ncomes to\n%s, want\n%s", in, tree(t, got), tree(t, in))
		}
	}
	for _, cut := range []string{"<", "</", "</p", "<!", "<!--", `<p class="`, `<p class="a`, "<p", "a < b", "<>", "</>"} {
		if got := page.Lean(cut); got != cut {
			t.Errorf("%q is written as %q", cut, got)
		}
	}
}

// TestLong has only long pages run a script, which their policy names: it has what is
// not in view laid out later, and all of it before it is printed.
func TestLong(t *testing.T) {
	short := string(page.Document("Notes", "<section>A.</section>", page.Frame{}))
	if strings.Contains(short, "<script") || strings.Contains(short, "script-src") {
		t.Errorf("a short page runs something: %s", short[len(short)-200:])
	}
	long := string(page.Document("Notes", strings.Repeat("<section>All that was written.</section>\n", 10_000), page.Frame{}))
	_, rest, _ := strings.Cut(long, "<script>")
	script, rest, _ := strings.Cut(rest, "</script>")
	sum := sha256.Sum256([]byte(script))
	if !strings.Contains(script, `"beforeprint"`) || !strings.Contains(long, "; script-src 'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'\"") {
		t.Errorf("a long page does not let its script run: %s", script)
	}
	if strings.Contains(rest, "<script") {
		t.Error("it has more of them")
	}
}
