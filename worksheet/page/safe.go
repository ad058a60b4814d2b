package page

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/microcosm-cc/bluemonday"
	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// allowed is the HTML that a builder may write: what Markdown makes, and a few
// harmless elements more. No style, no script, no form, nothing that fetches.
var allowed = sync.OnceValue(func() *bluemonday.Policy {
	p := bluemonday.NewPolicy()
	p.AllowElements("p", "br", "hr", "h1", "h2", "h3", "h4", "h5", "h6", "blockquote", "pre", "code", "em", "strong", "b", "i", "u", "s", "del", "ins",
		"sub", "sup", "small", "kbd", "samp", "var", "mark", "abbr", "cite", "dfn", "q", "ul", "ol", "li", "dl", "dt", "dd",
		"table", "caption", "thead", "tbody", "tfoot", "tr", "th", "td", "details", "summary", "div", "span", "figure", "figcaption", "a", "img", "input")
	p.AllowAttrs("href").OnElements("a")
	p.AllowAttrs("src", "alt").OnElements("img")
	p.AllowAttrs("title").Globally()
	p.AllowAttrs("id").Matching(regexp.MustCompile(`^[\pL\pN_.:-]{1,200}$`)).Globally()
	p.AllowAttrs("align").Matching(regexp.MustCompile(`^(left|right|center)$`)).OnElements("th", "td")
	p.AllowAttrs("colspan", "rowspan").Matching(regexp.MustCompile(`^[0-9]{1,2}$`)).OnElements("th", "td")
	p.AllowAttrs("start").Matching(regexp.MustCompile(`^[0-9]{1,9}$`)).OnElements("ol")
	p.AllowAttrs("open").Matching(regexp.MustCompile(`^$`)).OnElements("details")
	p.AllowAttrs("type").Matching(regexp.MustCompile(`^checkbox$`)).OnElements("input")
	p.AllowAttrs("checked").Matching(regexp.MustCompile(`^$`)).OnElements("input")
	p.AllowAttrs("class").Matching(regexp.MustCompile(`^iw[0-9a-f]{16}-[\pL\pN_.-]+$`)).Globally()
	p.AllowURLSchemes("http", "https", "mailto")
	p.AllowRelativeURLs(true)
	p.RequireParseableURLs(true)
	p.AllowNoAttrs().OnElements("span", "a", "img", "input")
	return p
})

// token is a word that a text cannot hold, since it depends on every byte of it.
func token(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "iw" + hex.EncodeToString(sum[:8])
}

// A sanitizer makes the HTML of one run harmless and whole. It knows that HTML alone: what
// depends on anything else on the page is a gap, which is filled later.
type sanitizer struct {
	token string // stands for the marker, which the sanitiser would not let through
	gaps  []gap
	links int // how many elements that are links we are in
	found int // how many places and headings of ours were come to
	owns  int // how many of them are places
	amiss bool
}

// safeHTML is the builder's HTML made safe.
type safeHTML struct {
	pieces []piece
	// whole says that each place of ours is still there, in order, and in nothing that may
	// not hold it. A tag, comment or attribute that is not closed swallows what follows,
	// and a table hands it out.
	whole bool
}

// safe makes the builder's HTML harmless and whole. The sanitiser passes a stray
// closing tag, which would end an element of ours, so what it gives is parsed
// again as a fragment, and printed from the tree.
func safe(text string) safeHTML {
	s := &sanitizer{token: token(text)}
	clean := allowed().SanitizeReader(strings.NewReader(strings.ReplaceAll(text, marker, s.token)))
	body := &html.Node{Type: html.ElementNode, DataAtom: atom.Div, Data: "div"}
	nodes, err := html.ParseFragment(clean, body)
	if err != nil {
		return safeHTML{} // a reader of bytes in memory does not fail
	}
	for _, n := range nodes {
		body.AppendChild(n)
	}
	s.mend(body)
	var out bytes.Buffer
	for n := body.FirstChild; n != nil; n = n.NextSibling {
		_ = html.Render(&out, n)
	}
	return safeHTML{pieces(strings.TrimSpace(out.String()), s.gaps), !s.amiss && s.found == strings.Count(text, marker)}
}

// mend goes through the builder's elements: ids get a prefix, links and images are seen
// to, and our places become gaps.
func (s *sanitizer) mend(parent *html.Node) {
	for n := parent.FirstChild; n != nil; {
		next := n.NextSibling
		switch n.Type {
		case html.CommentNode, html.DoctypeNode:
			parent.RemoveChild(n)
		case html.ElementNode:
			s.element(parent, n)
		}
		n = next
	}
}

func (s *sanitizer) element(parent, n *html.Node) {
	class := take(n, "class")
	if rest, ok := strings.CutPrefix(class, s.token+"-"); ok {
		s.found++
		if i, err := strconv.Atoi(rest); err == nil {
			s.own(parent, n, i)
			return
		}
		if rest == "caption" {
			set(n, "class", "table-name")
		} else {
			set(n, "id", rest)
		}
	} else if id := take(n, "id"); id != "" {
		set(n, "id", "user-"+id)
	}
	if n.DataAtom == atom.A {
		s.links++
		defer func() { s.links-- }()
	}
	s.mend(n)
	switch n.DataAtom {
	case atom.A:
		s.link(n)
	case atom.Img:
		s.image(parent, n)
	case atom.Input:
		box := "☐ "
		if has(n, "checked") {
			box = "☑ "
		}
		swap(parent, n, box)
	case atom.Th, atom.Td:
		if take(n, "align") == "right" {
			set(n, "class", "r")
		}
		if n.DataAtom == atom.Th {
			s.columnHead(n)
		}
	case atom.Table:
		scroll(parent, n)
	case atom.Pre:
		set(n, "tabindex", "0")
	}
}

// own makes a place of ours a gap.
func (s *sanitizer) own(parent, n *html.Node, i int) {
	before := s.owns
	s.owns++
	s.amiss = s.amiss || i != before || n.FirstChild != nil || n.DataAtom == atom.Div && s.links > 0
	swap(parent, n, s.gap(gap{kind: ownGap, own: i, inLink: s.links > 0}))
}

// columnHead sets the unit of a column apart from its name.
func (s *sanitizer) columnHead(th *html.Node) {
	t := th.FirstChild
	if t == nil || t.Type != html.TextNode || t.NextSibling != nil {
		return
	}
	swap(th, t, s.gap(gap{kind: headGap, text: t.Data}))
}

// link keeps what leads out; whether there is what it leads to on the page or beside it,
// is for the page to say.
func (s *sanitizer) link(n *html.Node) {
	href := take(n, "href")
	scheme, _, _ := strings.Cut(href, ":")
	switch {
	case slices.Contains([]string{"http", "https", "mailto"}, scheme):
		set(n, "href", href)
		set(n, "rel", "noopener noreferrer")
	case href == "" || strings.HasPrefix(href, "/"):
		// Leads nowhere from a file that was handed on.
	default:
		n.Attr = append(n.Attr, html.Attribute{Key: s.gap(gap{kind: linkGap, text: href})})
	}
}

// image makes a link of an image from elsewhere; one of the folder is for the page to find.
func (s *sanitizer) image(parent, n *html.Node) {
	src, alt := take(n, "src"), get(n, "alt")
	if strings.HasPrefix(src, "http:") || strings.HasPrefix(src, "https:") {
		n.DataAtom, n.Data, n.Attr = atom.A, "a", []html.Attribute{{Key: "href", Val: src}, {Key: "rel", Val: "noopener noreferrer"}}
		n.AppendChild(&html.Node{Type: html.TextNode, Data: "image: " + orElse(alt, src)})
		return
	}
	var begun bytes.Buffer
	_ = html.Render(&begun, n)
	swap(parent, n, s.gap(gap{kind: imageGap, text: src, alt: alt, image: strings.TrimSuffix(begun.String(), "/>"), hasAlt: has(n, "alt")}))
}

// swap puts ready HTML in a node's place.
func swap(parent, n *html.Node, ready string) {
	parent.InsertBefore(&html.Node{Type: html.RawNode, Data: ready}, n)
	parent.RemoveChild(n)
}

// scroll lets a wide table move by itself, and not the page.
func scroll(parent, table *html.Node) {
	box := &html.Node{Type: html.ElementNode, DataAtom: atom.Div, Data: "div", Attr: []html.Attribute{
		{Key: "class", Val: "scroll"}, {Key: "tabindex", Val: "0"}, {Key: "role", Val: "group"}, {Key: "aria-label", Val: "table"}}}
	parent.InsertBefore(box, table)
	parent.RemoveChild(table)
	box.AppendChild(table)
}

func orElse(text, other string) string {
	if text == "" {
		return other
	}
	return text
}

func get(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

func has(n *html.Node, key string) bool {
	return slices.ContainsFunc(n.Attr, func(a html.Attribute) bool { return a.Key == key })
}

// take removes an attribute and gives what it was.
func take(n *html.Node, key string) string {
	value := get(n, key)
	n.Attr = slices.DeleteFunc(n.Attr, func(a html.Attribute) bool { return a.Key == key })
	return value
}

func set(n *html.Node, key, value string) {
	take(n, key)
	n.Attr = append(n.Attr, html.Attribute{Key: key, Val: value})
}
