package sheet

import (
	"sort"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

// Text is what a builder wrote at a span of the blocks, on one line and
// without the notes between.
func (s *Sheet) Text(span message.Span) string {
	if s == nil {
		return ""
	}
	return s.TextWith(span, nil)
}

// A Replacement puts a text in the place of a span.
type Replacement struct {
	At   message.Span
	Text string
}

// TextWith is the text of a span on one line, with replacements, in the order of
// their places, put in.
func (s *Sheet) TextWith(span message.Span, list []Replacement) string {
	var out strings.Builder
	filled := s.withLines()
	for _, i := range filled[max(s.before(span.Start), 0):] {
		b := s.Blocks[i]
		if b.Lines[0].Offset >= span.End {
			break
		}
		for _, l := range b.Lines[lineOf(b, span.Start):] {
			if l.Offset >= span.End {
				break
			}
			from, to := max(span.Start-l.Offset, 0), noteStart(l.Text[:min(span.End-l.Offset, len(l.Text))])
			if from >= to {
				continue
			}
			out.WriteByte(' ')
			for len(list) > 0 && list[0].At.Start-l.Offset < to {
				start, end := list[0].At.Start-l.Offset, min(list[0].At.End-l.Offset, to)
				if start >= from {
					out.WriteString(l.Text[from:start] + list[0].Text)
					from = max(end, start)
				}
				list = list[1:]
			}
			out.WriteString(l.Text[from:to])
		}
	}
	return OneLine(out.String())
}

// noteStart is where a line's note begins: at a # outside of a text.
func noteStart(line string) int {
	if strings.IndexByte(line, '#') < 0 {
		return len(line)
	}
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

// OneLine makes blanks and line ends one blank.
func OneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// Line is the block line on which a place stands.
func (s *Sheet) Line(offset int) (block int, line syntax.Line, ok bool) {
	i := s.BlockBefore(offset)
	if i == len(s.Blocks) || len(s.Blocks[i].Lines) == 0 {
		return 0, syntax.Line{}, false
	}
	line = s.Blocks[i].Lines[lineOf(s.Blocks[i], offset)]
	if line.Offset <= offset && offset <= line.Offset+len(line.Text) {
		return i, line, true
	}
	return 0, syntax.Line{}, false
}

// BlockBefore is the last block with lines that begins at or before a place, the first
// block if none does. Blocks and lines stand in the order of their places.
func (s *Sheet) BlockBefore(offset int) int {
	if i := s.before(offset); i >= 0 {
		return s.withLines()[i]
	}
	return 0
}

// before is which of the blocks with lines that is, -1 for none.
func (s *Sheet) before(offset int) int {
	filled := s.withLines()
	return sort.Search(len(filled), func(i int) bool { return s.Blocks[filled[i]].Lines[0].Offset > offset }) - 1
}

// withLines are the blocks that have lines: a page may have thousands without.
func (s *Sheet) withLines() []int {
	s.once.Do(func() {
		for i, b := range s.Blocks {
			if len(b.Lines) > 0 {
				s.filled = append(s.filled, i)
			}
		}
	})
	return s.filled
}

// lineOf is the last line of a block that begins at or before a place, the first
// if none does.
func lineOf(b syntax.Block, offset int) int {
	i := sort.Search(len(b.Lines), func(i int) bool { return b.Lines[i].Offset > offset })
	return max(i-1, 0)
}
