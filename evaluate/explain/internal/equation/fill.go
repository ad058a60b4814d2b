package equation

import (
	"slices"
	"strings"
)

// Texts are what stands in the place of letters. Absolute are those of temperatures in
// kelvin, for where they are no summands; Absent are the letters of what was not given: a
// summand that is nothing by one of them is left out.
type Texts struct {
	Of, Absolute map[string]string
	Absent       map[string]bool
}

// Fill is an equation with texts in the place of its letters, and behind it what it
// comes to where that is not said by then. What a letter alone on the left is stays a
// letter.
func (c *Clause) Fill(texts Texts) string {
	if !c.IsEquation() {
		return ""
	}
	var edits []edit
	for i, side := range c.sides {
		_, alone := side.(letter)
		if alone && i == 0 {
			continue
		}
		edits = append(edits, absent(side, texts)...)
		side.each(func(l letter) {
			if text, ok := texts.at(l, alone); ok {
				edits = append(edits, edit{l.start, l.end, c.fit(text, l)})
			}
		})
	}
	slices.SortStableFunc(edits, func(a, b edit) int { return a.start - b.start })
	end := c.spans[len(c.spans)-1][1]
	filled := apply(c.Text[:end], edits)
	return filled + c.result(texts.Of, filled) + c.Text[end:]
}

func (t Texts) at(l letter, alone bool) (string, bool) {
	if text, ok := t.Absolute[l.name]; ok && !l.summand && !alone {
		return text, true
	}
	text, ok := t.Of[l.name]
	return text, ok
}

// An edit puts a text in the place of another.
type edit struct {
	start, end int
	text       string
}

// apply makes edits in their order; what lies within one that was made is gone.
func apply(text string, edits []edit) string {
	var out strings.Builder
	at := 0
	for _, e := range edits {
		if e.start < at {
			continue
		}
		out.WriteString(text[at:e.start] + e.text)
		at = e.end
	}
	return out.String() + text[at:]
}

// absent takes out the summands that are nothing.
func absent(side node, texts Texts) (list []edit) {
	for _, s := range summands(side) {
		gone := false
		s.y.each(func(l letter) { gone = gone || texts.Absent[l.name] })
		if gone && isProduct(s.y) {
			at := s.start
			list = append(list, edit{at - 1, s.end, ""})
		}
	}
	return list
}

// isProduct reports whether one factor that is nothing makes all of it nothing.
func isProduct(n node) bool {
	switch n := n.(type) {
	case letter:
		return true
	case binary:
		return (n.op == "·" || n.op == "/") && isProduct(n.x) || n.op == "·" && isProduct(n.y)
	}
	return false
}

// result is what the letter on the left comes to.
func (c *Clause) result(texts map[string]string, filled string) string {
	text, known := texts[c.Defines()]
	if !known || strings.HasSuffix(filled, "= "+text) {
		return ""
	}
	return " = " + text
}

// fit is a text in the place of a letter: in brackets where its unit or sign would be
// read with what stands beside it, and with a dot where nothing parts it from a figure.
func (c *Clause) fit(text string, l letter) string {
	before, after := c.Text[:l.start], c.Text[l.end:]
	below := endsIn(before, "/", "√")
	raised := strings.HasPrefix(after, "^") || strings.ContainsAny(first(after), "²³⁴⁵½⁻")
	signed := (strings.HasPrefix(text, "-") || strings.HasPrefix(text, "−")) && l.start > c.startOf(l)
	if !strings.HasPrefix(text, "(") && !strings.HasPrefix(text, "[") && (strings.Contains(text, " ") && (below || raised) || raised && strings.HasPrefix(text, "-") || signed && !endsIn(before, "(", "|")) {
		text = "(" + text + ")"
	}
	if last := before[max(0, len(before)-1):]; last != "" && strings.ContainsAny(last, "0123456789)") || endsIn(before, "½", "⅔", "¼", "π") {
		text = "·" + text
	}
	return text
}

// startOf is where the side begins in which a letter stands.
func (c *Clause) startOf(l letter) int {
	for _, s := range c.spans {
		if s[0] <= l.start && l.end <= s[1] {
			return s[0]
		}
	}
	return 0
}

func endsIn(text string, ends ...string) bool {
	for _, e := range ends {
		if strings.HasSuffix(text, e) {
			return true
		}
	}
	return false
}

func first(text string) string {
	for _, r := range text {
		return string(r)
	}
	return " "
}
