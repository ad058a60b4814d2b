package region

import (
	"strings"

	"inkwing/evaluate/report"
)

// overview lays out what a builder at the field reads and nothing else: a line, the
// limits, the dangers, and the lines that could not be worked, with no word on what
// to do about them, which stands where they arise.
func overview(parts [][]string, o *report.Overview, nested bool) [][]string {
	parts = append(parts, []string{sentence(o.Summary)})
	if len(o.Limits) > 0 {
		parts = append(parts, limits(o.Limits))
	}
	danger := callout{kind: "CAUTION", word: "Caution", name: "cautions"}
	for _, c := range o.Dangers {
		danger.points = append(danger.points, whose(c.Names)+sentence(c.Summary))
	}
	if len(o.Standing) > 0 {
		danger.points = append(danger.points, "Always: "+ids(o.Standing)+".")
	}
	missing := callout{kind: "WARNING", word: "Not worked", name: "not worked"}
	for _, f := range o.Unworked {
		missing.points = append(missing.points, missing.word+": "+code(f.Line, inParagraph)+".")
	}
	for _, c := range []callout{danger, missing} {
		parts = apart(parts, c, c.lines(nested))
	}
	return parts
}

func ids(list []string) string {
	var all []string
	for _, id := range list {
		all = append(all, code(id, inParagraph))
	}
	return strings.Join(all, ", ")
}
