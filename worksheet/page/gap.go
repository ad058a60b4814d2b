package page

import (
	"html"
	"strconv"
	"strings"
)

// A gap is a place in the builder's HTML where something stands that depends on more than
// that HTML.
type gap struct {
	kind   gapKind
	own    int    // the number of one of our own places
	text   string // where a link leads, of what an image is, the head of a column
	image  string // the element of an image as far as it is known
	alt    string // what an image shows, in words
	hasAlt bool
	inLink bool // lies in a link of the builder's, which may hold no other
}

type gapKind uint8

const (
	noGap gapKind = iota
	ownGap
	linkGap // an attribute
	headGap
	imageGap
)

// gap notes one, and gives what stands there meanwhile.
func (s *sanitizer) gap(g gap) string {
	s.gaps = append(s.gaps, g)
	return marker + strconv.Itoa(len(s.gaps)-1) + marker
}

// A piece is HTML with the gap behind it.
type piece struct {
	html string
	gap
}

// pieces takes HTML apart at its gaps. One that stands for an attribute is printed with an
// empty value.
func pieces(text string, gaps []gap) (list []piece) {
	for {
		before, rest, found := strings.Cut(text, marker)
		if !found {
			return append(list, piece{html: text})
		}
		number, behind, _ := strings.Cut(rest, marker)
		i, _ := strconv.Atoi(number) // we wrote it
		if gaps[i].kind == linkGap {
			before, behind = strings.TrimSuffix(before, " "), strings.TrimPrefix(behind, `=""`)
		}
		list = append(list, piece{before, gaps[i]})
		text = behind
	}
}

// filled is a run of prose with all that this page has for its gaps.
func (m *maker) filled(list []piece) []byte {
	m.out.Reset()
	for _, p := range list {
		m.out.put(p.html)
		switch p.kind {
		case ownGap:
			own := m.own[p.own]
			if p.inLink {
				own = unlinked(own)
			}
			m.out.put(own)
		case linkGap:
			m.link(p.text)
		case headGap:
			m.out.put(m.head(p.text))
		case imageGap:
			m.image(p.gap)
		}
	}
	return m.out.Bytes()
}

// link is the attribute of what leads to a place of the page, or to another page.
func (m *maker) link(href string) {
	switch slug, here := strings.CutPrefix(href, "#"); {
	case here:
		m.href("#" + m.placeOf(slug))
	case m.Link != nil:
		file, place, placed := strings.Cut(href, "#")
		if to, ok := m.Link(file); ok {
			if placed {
				to += "#h-" + place
			}
			m.href(to)
		}
	default:
		m.href(href)
	}
}

func (m *maker) href(to string) { m.out.put(` href="`, attribute(to), `"`) }

// attribute is a text as it stands in one.
func attribute(text string) string {
	return strings.ReplaceAll(html.EscapeString(text), "\r", "&#13;")
}

// placeOf is the id of the place that a link of the builder's leads to.
func (m *maker) placeOf(slug string) string {
	if id := m.slugs[slug]; id != "" {
		return id
	}
	if name, ok := strings.CutPrefix(slug, "q-"); ok && m.anchors[name] {
		return slug
	}
	return "user-" + slug
}

// image embeds an image of the folder.
func (m *maker) image(g gap) {
	data, ok := m.read(g.text)
	if !ok {
		m.out.put(`<span class="missing">[image not found: `, attribute(orElse(g.alt, g.text)), "]</span>")
		return
	}
	m.out.put(g.image, ` src="`, attribute(data), `"`)
	if !g.hasAlt {
		m.out.put(` alt=""`)
	}
	m.out.put("/>")
}
