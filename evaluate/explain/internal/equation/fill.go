package equation

import "strings"

// Fill is an equation with texts in the place of its letters, and behind it what it
// comes to where that is not said by then. What a letter alone on the left is stays a
// letter.
func (c *Clause) Fill(texts map[string]string) string {
	if !c.IsEquation() {
		return ""
	}
	var out strings.Builder
	at := 0
	for i, side := range c.sides {
		if _, alone := side.(letter); alone && i == 0 {
			continue
		}
		side.each(func(l letter) {
			if text, ok := texts[l.name]; ok {
				out.WriteString(c.Text[at:l.start] + c.fit(text, l))
				at = l.end
			}
		})
	}
	end := c.spans[len(c.spans)-1][1]
	out.WriteString(c.Text[at:end])
	return out.String() + c.result(texts, out.String()) + c.Text[end:]
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
	if !strings.HasPrefix(text, "(") && (strings.Contains(text, " ") && (below || raised) || raised && strings.HasPrefix(text, "-") || signed && !endsIn(before, "(", "|")) {
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
