package syntax

import (
	"slices"
	"strings"

	"inkwing/evaluate/message"
)

// A logicalLine is one statement's lines, uncut: comments are still in them.
type logicalLine struct {
	block    int
	lines    []Line
	leftward bool // its first line stands left of the block's margin
}

// same reports whether two are the same lines of one block, at the same place.
func (s logicalLine) same(other logicalLine) bool {
	return s.block == other.block && s.leftward == other.leftward && slices.Equal(s.lines, other.lines)
}

// tabWidth is the distance between tab stops in an indent (CommonMark 0.31, 2.2).
const tabWidth = 4

// conflictMarks begin the lines that a merge leaves where it could not decide.
var conflictMarks = []string{"<<<<<<< ", "=======", ">>>>>>> "}

// cutConflicts takes out what a merge left undecided, and tells of each once.
func cutConflicts(file string, blocks []Block) (kept []Block, cut []message.Span, problems []message.Diagnostic) {
	for _, b := range blocks {
		rest := Block{}
		for i := 0; i < len(b.Lines); i++ {
			end := conflictEnd(b.Lines[i:])
			if end == 0 {
				rest.Lines = append(rest.Lines, b.Lines[i])
				continue
			}
			first, last := b.Lines[i], b.Lines[i+end]
			at := spanIn(file, first, 0, len(strings.TrimRight(first.Text, " \t\r")))
			cut = append(cut, at.To(spanIn(file, last, 0, len(last.Text))))
			problems = append(problems, diagnose(at, "a merge left a conflict here", "keep one side and delete the lines of `<<<<<<<`, `=======` and `>>>>>>>`"))
			i += end
		}
		kept = append(kept, rest)
	}
	return kept, cut, problems
}

// conflictEnd is the index of the line that ends the conflict which begins at
// the first, 0 for none.
func conflictEnd(lines []Line) int {
	seen := 0
	for i, l := range lines {
		if strings.HasPrefix(l.Text, conflictMarks[seen]) {
			seen++
		}
		switch seen {
		case 0:
			return 0
		case len(conflictMarks):
			return i
		}
	}
	return 0
}

// layout cuts blocks into statements: a line at the margin begins one, a line
// indented more or beginning with a closing bracket belongs to the one above.
func layout(blocks []Block) []logicalLine {
	var all []logicalLine
	for i, b := range blocks {
		all = append(all, layoutBlock(i, b)...)
	}
	return all
}

func layoutBlock(index int, b Block) []logicalLine {
	var all []logicalLine
	margin := -1
	for i, line := range b.Lines {
		indent, first := indentOf(line.Text)
		if first == 0 {
			continue // blank
		}
		if first == '#' && (margin < 0 || indent <= margin) {
			continue // a comment by itself sets no margin
		}
		if margin < 0 {
			margin = indent
		}
		closing := first == ')' || first == ']'
		if len(all) > 0 && (indent > margin || closing) {
			last := &all[len(all)-1]
			last.lines = append(last.lines, line)
			continue
		}
		all = append(all, logicalLine{index, b.Lines[i : i+1 : i+1], indent < margin})
	}
	return all
}

// indentOf is the width of the blanks before a line's first character, and
// that character's first byte, 0 for a blank line.
func indentOf(text string) (width int, first byte) {
	for i := range len(text) {
		switch text[i] {
		case ' ':
			width++
		case '\t':
			width += tabWidth - width%tabWidth
		case '\r':
		default:
			return width, text[i]
		}
	}
	return width, 0
}

// size is the number of bytes of the statement.
func (s logicalLine) size() int {
	n := 0
	for _, l := range s.lines {
		n += len(l.Text)
	}
	return n
}

// place is the first line of the statement, without the blanks around.
func (s logicalLine) place(file string) message.Span {
	l := s.lines[0]
	text := strings.TrimSpace(l.Text)
	start := strings.Index(l.Text, text)
	return spanIn(file, l, start, start+len(text))
}

// spanIn is the place of bytes from to to of a line.
func spanIn(file string, l Line, from, to int) message.Span {
	start := max(0, l.Offset+from)
	return message.Span{File: file, Start: start, End: max(start, l.Offset+to)}
}
