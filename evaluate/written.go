package evaluate

import (
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

// formula is what a builder wrote at a span of the blocks, on one line and
// without the notes between.
func (s *Sheet) formula(span message.Span) string {
	if s == nil {
		return ""
	}
	return s.replaced(span, nil)
}

// A replacement puts a text in the place of a span.
type replacement struct {
	at   message.Span
	text string
}

// replaced is the text of a span on one line, with replacements, in the order of
// their places, put in.
func (s *Sheet) replaced(span message.Span, list []replacement) string {
	var out strings.Builder
	for _, b := range s.Blocks {
		for _, l := range b.Lines {
			from, to := max(span.Start-l.Offset, 0), min(span.End-l.Offset, noteStart(l.Text))
			if from >= to {
				continue
			}
			out.WriteByte(' ')
			for len(list) > 0 && list[0].at.Start-l.Offset < to {
				start, end := list[0].at.Start-l.Offset, min(list[0].at.End-l.Offset, to)
				if start >= from {
					out.WriteString(l.Text[from:start] + list[0].text)
					from = max(end, start)
				}
				list = list[1:]
			}
			out.WriteString(l.Text[from:to])
		}
	}
	return oneLine(out.String())
}

// noteStart is where a line's note begins: at a # outside of a text.
func noteStart(line string) int {
	quoted := false
	for i := 0; i < len(line); i++ {
		switch {
		case line[i] == '\\' && quoted:
			i++
		case line[i] == '"':
			quoted = !quoted
		case line[i] == '#' && !quoted:
			return i
		}
	}
	return len(line)
}

// textOf is what the builder wrote at a span of the main sheet.
func (w *worker) textOf(span message.Span) string { return w.sheet.formula(span) }

// oneLine makes blanks and line ends one blank.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// lineOf is the block line on which a place stands.
func (w *worker) lineOf(offset int) (block int, line syntax.Line, ok bool) {
	for i, b := range w.sheet.Blocks {
		for _, l := range b.Lines {
			if l.Offset <= offset && offset <= l.Offset+len(l.Text) {
				return i, l, true
			}
		}
	}
	return 0, syntax.Line{}, false
}

func isText(e syntax.Expr) bool {
	_, ok := e.(*syntax.Text)
	return ok
}

// isKey reports whether a value can stand for a row's key or number.
func isKey(e syntax.Expr) bool {
	n, number := e.(*syntax.Number)
	return isText(e) || number && n.Unit == nil
}
