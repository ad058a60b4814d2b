package page

import (
	"bytes"
	"html"
	"strings"

	"inkwing/worksheet/formula"
)

// A buffer takes HTML piece by piece: there are thousands of them on a page, of which none
// is to be joined with its neighbours before it stands here.
type buffer struct{ bytes.Buffer }

// put writes ready HTML.
func (b *buffer) put(parts ...string) {
	for _, p := range parts {
		b.WriteString(p)
	}
}

// text writes a value as it is shown, for the middle of a text.
func (b *buffer) text(shown string) { b.Write(formula.AppendText(b.AvailableBuffer(), shown)) }

// words writes a name as a text has it.
func (b *buffer) words(name string) {
	for {
		part, rest, more := strings.Cut(name, "_")
		b.WriteString(html.EscapeString(part))
		if !more {
			return
		}
		b.WriteByte(' ')
		name = rest
	}
}

// ticks writes a text in which code stands in backticks, and numbers stay with their units.
func (b *buffer) ticks(text string) {
	text = html.EscapeString(text)
	if strings.Count(text, "`")%2 == 1 {
		b.WriteString(text)
		return
	}
	for {
		words, rest, more := strings.Cut(text, "`")
		b.WriteString(formula.Joined(words))
		if !more {
			return
		}
		code, behind, _ := strings.Cut(rest, "`")
		b.put("<code>", code, "</code>")
		text = behind
	}
}
