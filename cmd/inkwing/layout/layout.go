// Package layout sets text for a terminal: paragraphs, lists of names, and tables
// of what changed, at a width.
//
// [Wrap], [Flow], [Names] and [Changes] are its entry points. Lines break at words;
// a word that is longer than the line stands alone on it. Texts may be coloured.
package layout

import (
	"regexp"
	"strings"

	"inkwing/evaluate/message"
)

// The widths for which text is set.
const (
	Least = 40
	Most  = 80
)

// Wrap breaks a text into lines of at most width columns, each behind margin. A line
// end in the text stays one.
func Wrap(text, margin string, width int) string {
	var out strings.Builder
	for paragraph := range strings.SplitSeq(strings.TrimSpace(text), "\n") {
		out.WriteString(set(paragraph, margin, margin, width))
	}
	return out.String()
}

// Flow sets pieces one after another, two blanks between, as many on a line as
// have room: the first line behind margin, the others behind hang. A piece is
// broken only where it has no room on a line of its own.
func Flow(pieces []string, margin, hang string, width int) string {
	var out strings.Builder
	line := margin
	for _, piece := range pieces {
		switch {
		case piece == "":
			continue
		case strings.TrimSpace(line) == "":
			line += piece
		case textWidth(line)+2+textWidth(piece) <= width:
			line += "  " + piece
		default:
			out.WriteString(broken(line, hang, width))
			line = hang + piece
		}
	}
	if strings.TrimSpace(line) != "" {
		out.WriteString(broken(line, hang, width))
	}
	return out.String()
}

// broken is a line, broken at words where it is too long.
func broken(line, hang string, width int) string {
	if textWidth(line) <= width {
		return line + "\n"
	}
	text := strings.TrimLeft(line, " ")
	return set(text, line[:len(line)-len(text)], hang, width)
}

// set breaks a text into lines, the first behind margin, the others behind hang.
func set(text, margin, hang string, width int) string {
	return message.FoldBy(text, margin, hang, width, textWidth)
}

// Names sets pairs of a name and a text under one another, the text broken into
// lines behind the names. A name that is too long stands on a line of its own.
func Names(rows [][2]string, width int) string {
	column := 0
	for _, row := range rows {
		column = max(column, within(row[0], width/3))
	}
	hang := strings.Repeat(" ", column+4)
	var out strings.Builder
	for _, row := range rows {
		margin := "  " + row[0] + strings.Repeat(" ", max(0, column-textWidth(row[0]))) + "  "
		if textWidth(row[0]) > column {
			out.WriteString("  " + row[0] + "\n")
			margin = hang
		}
		if row[1] != "" || margin != hang {
			out.WriteString(set(row[1], margin, hang, width))
		}
	}
	return out.String()
}

// colouring is a command that sets a colour, as a terminal takes it.
var colouring = regexp.MustCompile("\x1b\\[[0-9;]*m")

// textWidth is how many columns a text takes, its colours left out.
func textWidth(text string) int {
	if strings.Contains(text, "\x1b") {
		text = colouring.ReplaceAllString(text, "")
	}
	return message.Columns(text)
}

// Indent puts a margin before every line.
func Indent(text, margin string) string {
	return margin + strings.ReplaceAll(text, "\n", "\n"+margin) + "\n"
}
