package region

import (
	"slices"
	"strings"
)

// Same reports whether two regions mean the same: old as it stands in the file with
// its containers' prefixes, and a layout as [Lines] gives it. Quotes is how many
// quote marks the containers put before every line. White space, padding, soft
// line breaks, needless escapes and the length of a table's dashes do not count.
func Same(old []string, quotes int, new []string) bool {
	return quotes == 0 && slices.Equal(old, new) || slices.Equal(meaning(old, quotes), meaning(new, 0))
}

// meaning reduces a region to its rows and paragraphs, each on one line.
func meaning(lines []string, quotes int) (out []string) {
	quoted, open := false, false
	for _, l := range lines {
		text, inQuote := unquote(l, quotes)
		switch {
		case text == "":
			open = false
		case strings.HasPrefix(text, "|"):
			out, open = append(out, row(text)), false
		case open && inQuote == quoted:
			out[len(out)-1] += " " + unescape(text)
		default:
			mark := ""
			if inQuote {
				mark = "> "
			}
			out, open = append(out, mark+unescape(text)), true
		}
		quoted = inQuote
	}
	return out
}

// unquote takes the containers' prefix off a line, and reports whether it is in a
// quote of the region's own.
func unquote(l string, quotes int) (text string, inQuote bool) {
	text = strings.TrimSpace(l)
	for ; quotes > 0 && strings.HasPrefix(text, ">"); quotes-- {
		text = strings.TrimSpace(text[1:])
	}
	if strings.HasPrefix(text, ">") {
		return strings.TrimSpace(text[1:]), true
	}
	return text, false
}

// row is a table's row with its cells trimmed.
func row(text string) string { return "| " + strings.Join(cellsOf(text), " | ") }

// cellsOf are the trimmed cells of a table's row; none for another line.
func cellsOf(text string) (cells []string) {
	if !strings.HasPrefix(text, "|") {
		return nil
	}
	start := 1
	for i := 1; i < len(text); i++ {
		if text[i] == '|' && text[i-1] != '\\' {
			cells = append(cells, cell(text[start:i]))
			start = i + 1
		}
	}
	if rest := cell(text[start:]); rest != "" {
		cells = append(cells, rest)
	}
	return cells
}

// cell is a cell's text, the dashes of a rule brought to one length.
func cell(text string) string {
	text = strings.TrimSpace(text)
	if dashes := strings.Trim(text, ":"); dashes != "" && strings.Trim(dashes, "-") == "" {
		return strings.Replace(text, dashes, "---", 1)
	}
	return unescape(text)
}

// unescape collapses blanks and drops backslashes before punctuation, which
// formatters add and take away.
func unescape(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	if !strings.Contains(text, `\`) {
		return text
	}
	out := make([]byte, 0, len(text))
	for i := 0; i < len(text); i++ {
		if text[i] == '\\' && i+1 < len(text) && strings.IndexByte("!\"#$%&'()*+,-./:;<=>?@[\\]^_`{|}~", text[i+1]) >= 0 {
			i++
		}
		out = append(out, text[i])
	}
	return string(out)
}
