package markdown

import (
	"regexp"
	"strings"
	"sync"

	"github.com/yuin/goldmark/ast"
	extension "github.com/yuin/goldmark/extension/ast"

	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

// inlineValue is a whole code span: name, unit in brackets, equals, value. It is
// compiled when a page holds one, which keeps other runs short.
var inlineValue = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?s)^\s*(` + dottedName + `)\s+\[\s*([^\[\]]*[^\[\]\s])\s*\]\s*=(.*)$`)
})

// shownValue is what a run may have put behind the equals sign: nothing, a mark,
// a truth, a number with a unit, one with ±, or a list. Anything else is a
// formula that the builder quotes, and stays.
var shownValue = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(?:|\?|…|\.\.\.|—|yes|no|[-+−]?\p{Sc}?[0-9.]` + number + unitTail + `|[-+−]?[0-9.]` + number + ` ± [0-9.]` + number + `|\([-+−]?[0-9.]` + number + ` ± [0-9.]` + number + `\)` + unitTail + `|[-+−]?[0-9.]` + number + unitTail + ` \([-+−]?[0-9.]` + number + ` to [-+−]?[0-9.]` + number + unitTail + `\)|\[[^\]]*\])$`)
})

const (
	word       = `[\p{L}_][\p{L}\p{M}\p{N}_]*`
	dottedName = word + `(?:\.` + word + `)*`

	number   = `[0-9.,_]*(?:[eE][-+−]?[0-9]+)?`
	unitTail = `(?:\s?[\p{L}\p{Sc}°%µΩ'"][^\s]*)?`
)

// addInline finds the inline values of the prose, and those that are cells of data.
func (d *Document) addInline(tree ast.Node, skip int) {
	var cells map[int]bool // of the data table that is being walked
	_ = ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if isTable(n) && isData(n, d.Source[skip:]) {
			cells = d.inCells[n]
			if !entering {
				cells = nil
			} else if cells == nil {
				return ast.WalkSkipChildren, nil
			}
		}
		if entering && n.Kind() == ast.KindCodeSpan {
			d.addSpan(n, skip, cells)
			return ast.WalkSkipChildren, nil
		}
		return ast.WalkContinue, nil
	})
}

// addSpan adds a code span that is an inline value; in a data table only one that is
// a whole cell.
func (d *Document) addSpan(n ast.Node, skip int, cells map[int]bool) {
	bare := len(d.Bare)
	v, ok := d.inline(n, skip)
	if cells != nil {
		d.Bare = d.Bare[:bare]
		ok, v.IsData = ok && cells[v.At.Start], true
	}
	if ok && !d.InRegion(v.Span.Start) {
		d.Inline = append(d.Inline, v)
	}
}

// isData reports whether a table has a name, and so belongs to the language.
func isData(table ast.Node, source []byte) bool {
	h, ok := table.PreviousSibling().(*ast.HTMLBlock)
	if !ok || h.Lines().Len() != 1 {
		return false
	}
	seg := h.Lines().At(0)
	return tableMarker.MatchString(strings.TrimSpace(string(seg.Value(source))))
}

// inline reads one code span.
func (d *Document) inline(n ast.Node, skip int) (v Inline, ok bool) {
	text, places := spanText(n, d.Source[skip:], skip)
	if !strings.Contains(text, "=") { // most spans: spares the matching
		return v, false
	}
	m := inlineValue().FindStringSubmatchIndex(text)
	if m == nil {
		d.addBare(text, places)
		return v, false
	}
	unit := text[m[4]:m[5]]
	v.Shown = strings.Join(strings.Fields(text[m[6]:]), " ")
	if unit != "text" && !shownValue().MatchString(v.Shown) {
		return v, false
	}
	v.InCell = n.Parent() != nil && n.Parent().Kind() == extension.KindTableCell
	if v.InCell {
		v.Shown = strings.ReplaceAll(v.Shown, `\|`, "|")
	}
	v.Inline = sheet.Inline{Name: syntax.Canonical(text[m[2]:m[3]]), Unit: syntax.Unit{Text: unit}}
	v.Span = d.span(places[0], places[len(text)])
	v.At = d.span(places[m[2]], places[m[3]-1]+1)
	v.Unit.Span = d.span(places[m[4]], places[m[5]-1]+1)
	v.Value = d.span(places[m[6]-1]+1, places[valueEnd(text, m[6])])
	return v, true
}

// addBare keeps a span that nearly is an inline value.
func (d *Document) addBare(text string, places []int) {
	if d.InRegion(places[0]) {
		return
	}
	at := d.span(places[0], places[len(text)])
	if m := bareValue().FindStringSubmatch(text); m != nil && shownValue().MatchString(strings.TrimSpace(m[2])) {
		d.Bare = append(d.Bare, Bare{syntax.Canonical(m[1]), "", unitless, noBracket, at})
	} else if m := nearValue().FindStringSubmatch(text); m != nil {
		d.Bare = append(d.Bare, nearly(syntax.Canonical(m[1]), m[2], m[3], m[4], at))
	}
}

// valueEnd is where a new value ends the old one. Blanks before the closing tick
// go too, unless a line ends among them: the next line's prefix must stay.
func valueEnd(text string, from int) int {
	end := from + len(strings.TrimRight(text[from:], " \t\r\n"))
	if !strings.Contains(text[end:], "\n") && !strings.HasPrefix(text, " ") {
		return len(text)
	}
	return end
}

// spanText is a code span's inside and, for every byte of it and its end, the
// place in the file: a wrapped span in a quote is not contiguous.
func spanText(n ast.Node, source []byte, skip int) (string, []int) {
	var text []byte
	var places []int
	end := 0
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		t, ok := c.(*ast.Text)
		if !ok {
			continue
		}
		for at := t.Segment.Start; at < t.Segment.Stop; at++ {
			text = append(text, source[at])
			places = append(places, at+skip)
		}
		end = t.Segment.Stop + skip
	}
	return string(text), append(places, end)
}
