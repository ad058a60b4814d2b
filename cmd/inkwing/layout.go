package main

import (
	"strings"
	"unicode/utf8"
)

// pageWidth is where the lines of a description are broken.
const pageWidth = 80

// widestName is how much room the names of a list get at most.
const widestName = 26

// columns sets pairs of a name and a text under one another, the text broken
// into lines behind the names.
func columns(rows [][2]string) string {
	width := 0
	for _, row := range rows {
		width = max(width, min(utf8.RuneCountInString(row[0]), widestName))
	}
	var out strings.Builder
	for _, row := range rows {
		pad := strings.Repeat(" ", max(0, width-utf8.RuneCountInString(row[0])))
		text := wrap(row[1], strings.Repeat(" ", width+4))
		out.WriteString(strings.TrimRight("  "+row[0]+pad+"  "+strings.TrimLeft(text, " "), " \n") + "\n")
	}
	return out.String()
}

// wrap breaks a text into lines of at most pageWidth, each behind margin.
func wrap(text, margin string) string {
	var out strings.Builder
	for paragraph := range strings.SplitSeq(strings.TrimSpace(text), "\n") {
		line := margin
		for _, word := range strings.Fields(paragraph) {
			if line != margin && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > pageWidth {
				out.WriteString(line + "\n")
				line = margin
			}
			if line != margin {
				line += " "
			}
			line += word
		}
		out.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	return out.String()
}

func indent(text, margin string) string {
	return margin + strings.ReplaceAll(text, "\n", "\n"+margin) + "\n"
}
