package page

import "strings"

// lean writes HTML in fewer bytes: without the quotes and the closing tags that a
// browser does not need, and with the marks in its text that want no other spelling.
// It comes to the same tree. It is for HTML as this package writes it: each element
// closed, each attribute in double quotes.
func lean(html string) string {
	l := leaner{in: html}
	l.out.Grow(len(html))
	for l.at < len(l.in) {
		next := strings.IndexByte(l.in[l.at:], '<')
		if next < 0 {
			break
		}
		l.text(l.in[l.at : l.at+next])
		l.at += next
		l.markup()
	}
	l.text(l.in[l.at:])
	return l.out.String()
}

type leaner struct {
	in  string
	at  int
	out strings.Builder
}

// inText are characters that are themselves outside of tags.
var inText = strings.NewReplacer("&#39;", "'", "&#34;", `"`, "&gt;", ">")

func (l *leaner) text(text string) {
	if strings.IndexByte(text, '&') < 0 {
		l.out.WriteString(text)
		return
	}
	_, _ = inText.WriteString(&l.out, text) // a builder takes everything
}

// markup is a tag or a comment, at whose beginning it stands.
func (l *leaner) markup() {
	rest := l.in[l.at:]
	end := strings.IndexByte(rest, '>') + 1
	switch {
	case strings.HasPrefix(rest, "<!"):
		l.pass(strings.Index(rest, "-->") + len("-->"))
	case strings.HasPrefix(rest, "</") && end > 0 && isNeedless(rest[2:end-1], rest[end:]):
		l.at += end
	default:
		l.tag()
	}
}

// pass copies so many bytes; with fewer than one, whatever is left.
func (l *leaner) pass(count int) {
	if count < len("-->") {
		count = len(l.in) - l.at
	}
	l.out.WriteString(l.in[l.at : l.at+count])
	l.at += count
}

// tag is copied attribute by attribute.
func (l *leaner) tag() {
	from := l.at
	for i := from; i < len(l.in); i++ {
		switch l.in[i] {
		case '>':
			l.out.WriteString(l.in[from : i+1])
			l.at = i + 1
			return
		case '"':
			length := strings.IndexByte(l.in[i+1:], '"')
			if length < 0 {
				l.pass(0)
				return
			}
			l.out.WriteString(l.in[from:i])
			i += length + 1
			l.value(l.in[i-length:i], l.in[i+1:])
			from = i + 1
		}
	}
	l.at = from
	l.pass(0)
}

// value is an attribute's, in quotes where it needs them. A solidus right behind one
// without would be a part of it.
func (l *leaner) value(value, rest string) {
	if value == "" || strings.ContainsAny(value, " \t\n\f\r\"'`=<>") {
		l.out.WriteString(`"` + value + `"`)
		return
	}
	l.out.WriteString(value)
	if strings.HasPrefix(rest, "/") {
		l.out.WriteByte(' ')
	}
}

// endedBy are the tags that close an element by themselves, where they come right
// behind it.
var endedBy = map[string][]string{
	"li": {"<li", "</ul>", "</ol>"},
	"dt": {"<dt", "<dd"},
	"dd": {"<dt", "<dd", "</dl>", "</div>"},
	"td": {"<td", "<th>", "<th ", "</tr>"},
	"th": {"<td", "<th>", "<th ", "</tr>"},
	"tr": {"<tr", "</tbody>", "</thead>", "</table>"},
	"p":  {"<p>", "<p ", "<div", "<dl", "<ul", "<ol", "<table", "<details", "<pre", "</div>", "</section>", "</details>", "</li>", "</figure>"},

	"thead": {"<tbody"},
	"tbody": {"</table>"},
}

// isNeedless reports whether the closing tag of an element can be left out before
// what follows.
func isNeedless(name, rest string) bool {
	for _, tag := range endedBy[name] {
		if strings.HasPrefix(rest, tag) {
			return true
		}
	}
	return false
}
