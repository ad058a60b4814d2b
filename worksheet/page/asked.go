package page

import (
	"strings"

	"inkwing/worksheet/markdown"
)

// Asks reports whether a block of that word asks of other journals.
func Asks(word string) bool { return word == markdown.Keeping || word == markdown.Gather }

const askedClass = "block asked"

// IsAsked reports whether the element of a section is that of such a block.
func IsAsked(element string) bool {
	head, _, _ := strings.Cut(element, ">")
	return strings.HasSuffix(head, `class="`+askedClass+`"`)
}

// asked is a block of rules, or of a search over journals: as it is typed,
// since that is what it says, then what is wrong with it and what it found.
func (m *maker) asked(i int) []byte {
	m.out.Reset()
	if i >= len(m.Report.Blocks) {
		return nil
	}
	b := m.writer(&m.Report.Blocks[i], nil)
	b.out.put(`<pre tabindex="0"><code>`)
	m.typed(m.Document.Blocks[i].Lines)
	b.out.put("</code></pre>")
	for _, e := range b.report.Errors {
		b.failure(e)
	}
	for _, t := range b.report.Tables {
		b.table(t)
	}
	for _, c := range b.report.Charts {
		b.chart(c)
	}
	return b.out.Bytes()
}
