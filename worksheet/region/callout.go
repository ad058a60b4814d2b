package region

import (
	"strconv"
	"strings"

	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
)

// A callout is points of one level. Hosts draw it and head it by its kind, so that
// no point repeats that; where none is drawn, in lists and quotes, each begins with
// the word in bold.
type callout struct {
	kind   string // as hosts know it
	word   string
	name   string // of the comment above, see apart
	points []string
}

// unworked are the lines that could not be worked, which come before all else: what
// is missing below follows from them.
func unworked(b report.Block) callout {
	c := callout{kind: "WARNING", word: "Not worked", name: "not worked"}
	for _, e := range b.Errors {
		c.points = append(c.points, "Not worked: "+notWorked(e))
	}
	return c
}

// callouts are what a block has to say by level, gravest first, each in the order
// found.
func callouts(b report.Block) []callout {
	danger := callout{kind: "CAUTION", word: "Caution", name: "cautions"}
	warning := callout{kind: "WARNING", word: "Warning", name: "warnings"}
	note := callout{kind: "NOTE", word: "Note", name: "notes"}
	for _, c := range b.Cautions {
		switch {
		case c.Kind == report.OfLimit && c.Hint == "":
			// The table of limits has said it.
		case c.Kind == report.OfLimit:
			warning.points = append(warning.points, whose(c.Names)+sentence(c.Hint))
		case c.Level == model.Danger:
			danger.points = append(danger.points, cautionText(c))
		case c.Level == model.Warning:
			warning.points = append(warning.points, cautionText(c))
		default:
			note.points = append(note.points, cautionText(c))
		}
	}
	for _, text := range b.Notes {
		note.points = append(note.points, sentence(text))
	}
	return []callout{danger, warning, note}
}

// cautionText is whom it concerns, the finding, and what to do. Why, and where that
// is from, is told by the command that explains it.
func cautionText(c report.Caution) string {
	text := whose(c.Names) + sentence(c.Summary)
	if c.Hint != "" {
		text += " " + sentence(c.Hint)
	}
	return text
}

// mostOthers is how many names stand behind the first.
const mostOthers = 2

// whose is the name whose numbers follow, then the others that it holds for.
func whose(names []string) string {
	if len(names) == 0 {
		return ""
	}
	text, others := code(names[0], inParagraph), names[1:]
	var list []string
	for i, name := range others {
		if i == mostOthers && len(others) > mostOthers+1 {
			list = append(list, strconv.Itoa(len(others)-i)+" more")
			break
		}
		list = append(list, code(name, inParagraph))
	}
	if len(list) > 0 {
		text += ", also " + message.Enumerate(list)
	}
	return text + ": "
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

// lines lays a callout out; nothing without points.
func (c callout) lines(nested bool) (parts [][]string) {
	if nested {
		for _, p := range c.points {
			parts = append(parts, []string{"**" + c.word + ":** " + strings.TrimPrefix(p, c.word+": ")})
		}
		return parts
	}
	if len(c.points) == 0 {
		return nil
	}
	// The blank quoted line keeps the mark alone: formatters join lines.
	lines := []string{"> [!" + c.kind + "]"}
	for _, p := range c.points {
		lines = append(lines, ">", "> "+p)
	}
	return [][]string{lines}
}

// apart puts a comment between two callouts that would follow one another: readers
// of Markdown differ in whether a blank line alone parts two quotes.
func apart(parts [][]string, c callout, next [][]string) [][]string {
	if len(parts) > 0 && len(next) > 0 && strings.HasPrefix(parts[len(parts)-1][0], ">") && strings.HasPrefix(next[0][0], ">") {
		parts = append(parts, []string{"<!-- " + c.name + " -->"})
	}
	return append(parts, next...)
}

// sentence is a text as a sentence of its own, escaped.
func sentence(text string) string {
	return message.Ended(free(message.Capital(clean(text)), inParagraph))
}
