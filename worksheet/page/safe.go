package page

import (
	"bytes"
	"encoding/base64"
	"path"
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

// safe makes the builder's HTML harmless and whole. The sanitiser passes a stray
// closing tag, which would end an element of ours, so what it gives is parsed
// again as a fragment, and printed from the tree.
func (m *maker) safe(text []byte) string {
	clean := allowed().SanitizeBytes(text)
	body := &html.Node{Type: html.ElementNode, DataAtom: atom.Div, Data: "div"}
	nodes, err := html.ParseFragment(bytes.NewReader(clean), body)
	if err != nil {
		return "" // a reader of bytes in memory does not fail
	}
	var out bytes.Buffer
	for _, n := range nodes {
		body.AppendChild(n)
	}
	m.mend(body)
	for n := body.FirstChild; n != nil; n = n.NextSibling {
		_ = html.Render(&out, n)
	}
	return strings.TrimSpace(out.String())
}

// mend goes through the builder's elements: our places are filled, ids get a
// prefix, images are embedded, links made sure of.
func (m *maker) mend(parent *html.Node) {
	for n := parent.FirstChild; n != nil; {
		next := n.NextSibling
		switch n.Type {
		case html.CommentNode, html.DoctypeNode:
			parent.RemoveChild(n)
		case html.ElementNode:
			m.element(parent, n)
		}
		n = next
	}
}

func (m *maker) element(parent, n *html.Node) {
	class := take(n, "class")
	if rest, ok := strings.CutPrefix(class, m.token+"-"); ok {
		if i, err := strconv.Atoi(rest); err == nil && i < len(m.own) {
			swap(parent, n, m.own[i])
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
	m.mend(n)
	switch n.DataAtom {
	case atom.A:
		m.link(n)
	case atom.Img:
		m.image(parent, n)
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
			m.columnHead(n)
		}
	case atom.Table:
		scroll(parent, n)
	case atom.Pre:
		set(n, "tabindex", "0")
	}
}

// columnHead sets the unit of a column apart from its name.
func (m *maker) columnHead(th *html.Node) {
	t := th.FirstChild
	if t == nil || t.Type != html.TextNode || t.NextSibling != nil {
		return
	}
	th.AppendChild(&html.Node{Type: html.RawNode, Data: m.head(t.Data)})
	th.RemoveChild(t)
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

// link keeps what leads to a place of the page, to another page, or out.
func (m *maker) link(n *html.Node) {
	href := take(n, "href")
	scheme, _, _ := strings.Cut(href, ":")
	switch {
	case strings.HasPrefix(href, "#"):
		slug := href[1:]
		if id := m.slugs[slug]; id != "" {
			slug = id
		} else if !strings.HasPrefix(slug, "q-") || !m.anchors[strings.TrimPrefix(slug, "q-")] {
			slug = "user-" + slug
		}
		set(n, "href", "#"+slug)
	case slices.Contains([]string{"http", "https", "mailto"}, scheme):
		set(n, "href", href)
		set(n, "rel", "noopener noreferrer")
	case href == "" || strings.HasPrefix(href, "//") || strings.HasPrefix(href, "/"):
		// Leads nowhere from a file that was handed on.
	case m.Link != nil:
		file, place, placed := strings.Cut(href, "#")
		if to, ok := m.Link(file); ok {
			if placed {
				to += "#h-" + place
			}
			set(n, "href", to)
		}
	default:
		set(n, "href", href)
	}
}

// maxImage bounds one embedded image.
const maxImage = 4 << 20

// imageTypes are what is embedded, by the bytes that they begin with. A drawing
// inside an img element runs no script and fetches nothing.
var imageTypes = []struct{ begins, name string }{
	{"\x89PNG\r\n\x1a\n", "image/png"}, {"\xff\xd8\xff", "image/jpeg"}, {"GIF8", "image/gif"}, {"RIFF", "image/webp"},
}

// imageType is what kind of image some bytes are, empty for none.
func imageType(name string, data []byte) string {
	for _, t := range imageTypes {
		if bytes.HasPrefix(data, []byte(t.begins)) && (t.begins != "RIFF" || len(data) > 12 && string(data[8:12]) == "WEBP") {
			return t.name
		}
	}
	if strings.EqualFold(path.Ext(name), ".svg") && bytes.Contains(data[:min(len(data), 1000)], []byte("<svg")) {
		return "image/svg+xml"
	}
	return ""
}

// image embeds an image of the folder; one from elsewhere becomes a link.
func (m *maker) image(parent, n *html.Node) {
	src, alt := take(n, "src"), get(n, "alt")
	if strings.HasPrefix(src, "http:") || strings.HasPrefix(src, "https:") {
		n.DataAtom, n.Data, n.Attr = atom.A, "a", []html.Attribute{{Key: "href", Val: src}, {Key: "rel", Val: "noopener noreferrer"}}
		n.AppendChild(&html.Node{Type: html.TextNode, Data: "image: " + orElse(alt, src)})
		return
	}
	if data, ok := m.read(src); ok {
		set(n, "src", data)
		if !has(n, "alt") {
			set(n, "alt", "")
		}
		return
	}
	swap(parent, n, `<span class="missing">[image not found: `+html.EscapeString(orElse(alt, src))+"]</span>")
}

// read is an image of the folder as a data address.
func (m *maker) read(src string) (string, bool) {
	if m.Image == nil || src == "" || strings.HasPrefix(src, "/") || strings.Contains(src, ":") {
		return "", false
	}
	data, ok := m.Image(unescaped(src))
	kind := imageType(src, data)
	if !ok || len(data) > maxImage || kind == "" {
		return "", false
	}
	return "data:" + kind + ";base64," + base64.StdEncoding.EncodeToString(data), true
}

// unescaped undoes the percent signs of a link to a file.
func unescaped(href string) string {
	var out strings.Builder
	for i := 0; i < len(href); i++ {
		if href[i] == '%' && i+2 < len(href) {
			if b, err := strconv.ParseUint(href[i+1:i+3], 16, 8); err == nil {
				out.WriteByte(byte(b))
				i += 2
				continue
			}
		}
		out.WriteByte(href[i])
	}
	return out.String()
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
