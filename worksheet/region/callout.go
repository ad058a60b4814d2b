package region

import (
	"slices"

	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
)

// A gravity says which callout a point asks for. Gravest last.
type gravity uint8

const (
	note gravity = iota
	warning
	caution
)

// kinds are the callouts that hosts draw, by gravity.
var kinds = [...]string{note: "NOTE", warning: "WARNING", caution: "CAUTION"}

// A point is one paragraph of a callout, with its own word before it, since a
// host that draws no callouts shows only the text.
type point struct {
	gravity gravity
	word    string
	text    string
}

// points lists what a block has to say, gravest first, else in the order found:
// lines not worked come before broken limits, since those may follow from them.
func points(b report.Block) (list []point) {
	for _, e := range b.Errors {
		list = append(list, point{warning, "Not worked", notWorked(e)})
	}
	for _, c := range b.Cautions {
		list = append(list, cautionPoint(c))
	}
	slices.SortStableFunc(list, func(a, b point) int { return int(b.gravity) - int(a.gravity) })
	return list
}

func cautionPoint(c report.Caution) point {
	text := sentence(c.Text)
	if c.Source != "" {
		text += " Source: " + message.Ended(free(c.Source, inParagraph))
	}
	switch {
	case c.Level == model.Danger:
		return point{caution, "Caution", text}
	case c.Level == model.Warning || c.Kind == report.OfLimit:
		return point{warning, "Warning", text}
	}
	return point{note, "Note", text}
}

// notWorked is the builder's line, what is wrong with it, and what mends it.
func notWorked(e report.Failure) string {
	text := code(e.Line, inParagraph)
	if text != "" {
		text += ": "
	}
	text += message.Ended(free(e.Diagnostic.Summary, inParagraph))
	if e.Diagnostic.Hint != "" {
		text += " " + sentence(e.Diagnostic.Hint)
	}
	return text
}

// callout writes the points as one callout of the gravest kind.
func callout(list []point, nested bool) (parts [][]string) {
	if len(list) == 0 {
		return nil
	}
	if nested {
		for _, p := range list {
			parts = append(parts, []string{"**" + p.word + ":** " + p.text})
		}
		return parts
	}
	// The blank quoted line keeps the mark alone: formatters join lines.
	lines := []string{"> [!" + kinds[list[0].gravity] + "]"}
	for _, p := range list {
		lines = append(lines, ">", "> "+p.word+": "+p.text)
	}
	return [][]string{lines}
}

// sentence is a text as a sentence of its own, escaped.
func sentence(text string) string {
	return message.Ended(free(message.Capital(clean(text)), inParagraph))
}
