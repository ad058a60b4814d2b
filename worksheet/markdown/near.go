package markdown

import (
	"regexp"
	"sync"

	"github.com/yuin/goldmark/ast"

	"inkwing/evaluate/message"
)

// nearWord is the word of ours that a fence's word nearly is: in capitals, or by a slip of
// a key. It is empty for none, and for one that is ours.
func nearWord(word []byte) string {
	const longest = 8
	if ours(word) || len(word) > longest {
		return ""
	}
	for _, own := range []string{Working, Keeping, Gather} {
		if message.OneSlip(string(word), own) {
			return own
		}
	}
	return ""
}

// MayNearlyHold reports whether a text has a line that could open one of our blocks, or
// a fence whose word is nearly ours. It reads no Markdown.
func MayNearlyHold(source []byte) bool {
	return isUTF16(source) || mayOpen(source, func(word []byte) bool { return ours(word) || nearWord(word) != "" })
}

// noteFences tells of the fences whose word is nearly ours.
func (d *Document) noteFences(fences []*fence, skip int) {
	for _, f := range fences {
		word := infoWord(f.node, d.Source[skip:])
		near := nearWord(word)
		if near == "" {
			continue
		}
		at := f.start + skip
		d.note(at, lineAt(d.Source, at).text, "this block is marked `"+string(word)+"`, so it is not worked",
			"write `"+near+"`, in small letters, behind the ticks")
	}
}

// nearMarker is a comment that would name a table if it had its colon, small letters, or
// all of its letters in their places.
var nearMarker = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^<!--[ \t]*(\pL+)[ \t]*(?:[ \t]|:)[ \t]*([\p{L}_][\p{L}\p{M}\p{N}_]*)[ \t]*-->$`)
})

// noteTables tells of the comments before a table that nearly name it.
func (d *Document) noteTables(tree ast.Node, skip int) {
	eachComment(tree, d.Source[skip:], func(n *ast.HTMLBlock, start int, comment []byte) {
		if tableMarker.Match(comment) || !isTable(n.NextSibling()) || d.InRegion(start+skip) {
			return
		}
		if m := nearMarker().FindSubmatch(comment); m != nil && message.OneSlip(string(m[1]), "table") {
			d.note(start+skip, start+skip+len(comment), "this comment does not name the table below it",
				"write `<!-- table: "+string(m[2])+" -->`, with a colon and in small letters")
		}
	})
}

// bareValue is an inline value without its unit.
var bareValue = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?s)^\s*(` + dottedName + `)\s*\[\s*\]\s*=(.*)$`)
})

// nearValue is nearly an inline value: a name, or something worked with names, a
// bracket perhaps, and a mark that wants a value behind the equals sign.
var nearValue = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^\s*(` + dottedName + `)([^\[\]=]*?)(\s*)(?:\[\s*([^\[\]]*?)\s*\])?\s*=\s*(?:\?|…|\.\.\.)\s*$`)
})

// A Bare is a code span that nearly is an inline value, and so is prose.
type Bare struct {
	Name    string // that it begins with
	Unit    string // in its bracket; empty for none
	Summary string // why it is none
	Else    string // behind the hint: what else mends it
	Span    message.Span
}

// What else mends a span that nearly is an inline value.
const (
	noBracket = ", or leave the bracket out"
	defined   = " of a quantity that a block defines so"
)

// unitless is why a span without a unit is none.
const unitless = "without a unit in its bracket this is prose, and not kept up to date"

// nearly tells of a name with a formula behind it, or a bracket that touches it.
func nearly(name, formula, gap, unit string, at message.Span) Bare {
	switch b := (Bare{Name: name, Unit: unit, Span: at, Summary: unitless}); {
	case formula != "":
		b.Summary, b.Else = "only a quantity by its name is kept up to date in prose, and this is worked from it", defined
		return b
	case unit != "" && gap == "":
		b.Summary = "without a blank before its bracket this is prose, and not kept up to date"
		return b
	default:
		return b
	}
}

// note keeps something worth saying.
func (d *Document) note(start, end int, summary, hint string) {
	d.Notes = append(d.Notes, message.Diagnostic{Span: d.span(start, end), Summary: summary, Hint: hint})
}
