package message

import "strings"

// Fold breaks a text at its blanks into lines of at most width columns, the first
// behind margin, the others behind hang. A word that is longer than the line stands
// alone on it.
func Fold(text, margin, hang string, width int) string {
	return FoldBy(text, margin, hang, width, Columns)
}

// FoldBy is [Fold] where something else says how wide a text stands, for texts
// that are coloured.
func FoldBy(text, margin, hang string, width int, columns func(string) int) string {
	var out strings.Builder
	line, first := margin, true
	for _, word := range strings.Fields(text) {
		if !first && columns(line)+1+columns(word) > width {
			out.WriteString(line + "\n")
			line, first = hang, true
		}
		if !first {
			line += " "
		}
		line, first = line+word, false
	}
	return out.String() + strings.TrimRight(line, " ") + "\n"
}
