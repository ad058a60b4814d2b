package message

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/width"
)

// MaxExcerpt is how many columns of a line are shown; of a longer line the part
// around the place.
const MaxExcerpt = 120

// A Style is what stands before a message and how its parts are coloured; the
// zero Style adds and colours nothing.
type Style struct {
	Level string                   // before what is wrong: "error:"
	Paint func(text string) string // colours the level and the marks under the place
	Width int                      // columns for which the message is set; 0 for as many as it takes
}

// Render writes a diagnostic in the zero [Style].
func Render(d Diagnostic, src *Source) string { return Style{}.Render(d, src) }

// Render writes a diagnostic for a terminal: the place and what is wrong, the
// line with the place underlined, what mends it, and the notes.
//
//	lapwing.md:12:9: a voltage (V) where an energy (J) is wanted
//	   12 | E [J] = 1/2 * C * V
//	      |         ^^^^^^^^^^^
//	  hint: square the voltage
//	  lapwing.md:3:1: first defined here
//
// Of a place that goes over several lines the first is shown. Without the
// source of the file (nil, or another file's) there is neither line nor column.
func (s Style) Render(d Diagnostic, src *Source) string {
	var b strings.Builder
	b.WriteString(s.headline(placeOf(d.Span, src)+":", Visible(d.Summary)))
	if knows(src, d.Span) {
		s.excerpt(&b, d.Span, src)
	}
	if d.Hint != "" {
		b.WriteString(s.fold(Visible(d.Hint), "  hint: ", "        "))
	}
	for _, n := range d.Notes {
		b.WriteString(s.fold(placeOf(n.Span, src)+": "+Visible(n.Text), "  ", "    "))
	}
	return b.String()
}

// headline is the place and what is wrong, the level coloured between them.
func (s Style) headline(place, summary string) string {
	if s.Level == "" {
		return s.fold(place+" "+summary, "", "  ")
	}
	before := place + " " + s.Level
	text := s.fold(before+" "+summary, "", "  ")
	if rest, whole := strings.CutPrefix(text, before); whole {
		return place + " " + s.paint(s.Level) + rest
	}
	return text // the place alone takes the line
}

// fold breaks a text at the style's width.
func (s Style) fold(text, margin, hang string) string {
	if s.Width == 0 {
		return margin + text + "\n"
	}
	return Fold(text, margin, hang, s.Width)
}

// room is how many columns of a source line are shown.
func (s Style) room() int {
	if gutter := len("      | "); s.Width > gutter {
		return min(s.Width-gutter, MaxExcerpt)
	}
	return MaxExcerpt
}

func (s Style) paint(text string) string {
	if s.Paint == nil {
		return text
	}
	return s.Paint(text)
}

func knows(src *Source, s Span) bool { return src != nil && src.name == s.File }

func placeOf(s Span, src *Source) string {
	if !knows(src, s) {
		return Visible(s.File)
	}
	line, column := src.Position(s.Start)
	return fmt.Sprintf("%s:%d:%d", Visible(s.File), line, column)
}

// excerpt shows the line of the place's start, and marks under it.
func (s Style) excerpt(b *strings.Builder, at Span, src *Source) {
	line, _ := src.Position(at.Start)
	text, first := src.line(line), src.LineStart(line)
	from := min(max(at.Start-first, 0), len(text))
	to := min(max(at.End-first, from), len(text))
	before, marked, after := Visible(lastOf(text[:from], s.room())), Visible(firstOf(text[from:to], s.room())), Visible(firstOf(text[to:], s.room()))
	if Columns(before)+Columns(marked)+Columns(after) > s.room() {
		before, marked, after = window(before, marked, after, s.room())
	}
	marks := s.paint(strings.Repeat("^", max(1, Columns(marked))))
	fmt.Fprintf(b, "%5d | %s\n", line, strings.TrimRight(before+marked+after, " "))
	fmt.Fprintf(b, "      | %s%s\n", strings.Repeat(" ", Columns(before)), marks)
}

// columnBytes is how many bytes a column is taken to need at most: what is further off the
// mark than the room on a line is not looked at, however long the line is.
const columnBytes = 16

func firstOf(text []byte, room int) string {
	n := min(len(text), columnBytes*room)
	for n < len(text) && n > 0 && !utf8.RuneStart(text[n]) {
		n--
	}
	return string(text[:n])
}

func lastOf(text []byte, room int) string {
	n := max(0, len(text)-columnBytes*room)
	for n > 0 && n < len(text) && !utf8.RuneStart(text[n]) {
		n++
	}
	return string(text[n:])
}

// window cuts a long line down to what is around the mark.
func window(before, marked, after string, most int) (string, string, string) {
	if Columns(before) > most/4 {
		before = "…" + keepEnd(before, most/4)
	}
	room := most - Columns(before)
	if Columns(marked) >= room {
		return before, keepStart(marked, room-1), "…"
	}
	if room -= Columns(marked); Columns(after) > room {
		after = keepStart(after, room-1) + "…"
	}
	return before, marked, after
}

func keepStart(s string, room int) string {
	for i, r := range s {
		if room -= columnsOf(r); room < 0 {
			return s[:i]
		}
	}
	return s
}

func keepEnd(s string, room int) string {
	over := Columns(s) - room
	for i, r := range s {
		if over <= 0 {
			return s[i:]
		}
		over -= columnsOf(r)
	}
	return ""
}

// Columns is how many columns of a terminal s takes.
func Columns(s string) int {
	n := 0
	for _, r := range s {
		n += columnsOf(r)
	}
	return n
}

// columnsOf is 2 for the wide characters of Unicode Standard Annex 11, 0 for
// marks that combine and characters of no width, and else 1.
func columnsOf(r rune) int {
	if r < 0x300 {
		return 1
	}
	if unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf) {
		return 0
	}
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return 2
	}
	return 1
}
