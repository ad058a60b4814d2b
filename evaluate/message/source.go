package message

import (
	"bytes"
	"sort"
	"sync"
	"sync/atomic"
	"unicode/utf8"
)

// A Source is a file's text, indexed by lines when first asked. A line ends
// with \n or \r\n. It may be used by several goroutines at once.
type Source struct {
	name   string
	text   []byte
	starts func() []int // offsets of the lines' first bytes
	last   atomic.Pointer[mark]
}

// A mark is an offset whose column is known. Messages mostly come in the order of the
// text, so that many on one long line need not count it from its start each time.
type mark struct{ start, offset, column int }

// NewSource is the source of that name; text must not change afterwards.
func NewSource(name string, text []byte) *Source {
	return &Source{name: name, text: text, starts: sync.OnceValue(func() []int { return lineStarts(text) })}
}

func lineStarts(text []byte) []int {
	starts := make([]int, 1, 1+bytes.Count(text, []byte{'\n'}))
	for i, c := range text {
		if c == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// Name is the name under which the run knows the file.
func (s *Source) Name() string { return s.name }

// Position is the line and the column of a byte, both from 1, the column in
// characters. An offset outside the text counts as its nearest end.
func (s *Source) Position(offset int) (line, column int) {
	offset = min(max(offset, 0), len(s.text))
	starts := s.starts()
	line = sort.SearchInts(starts, offset+1)
	from := mark{starts[line-1], starts[line-1], 1}
	if last := s.last.Load(); last != nil && last.start == from.start && last.offset <= offset {
		from = *last
	}
	column = from.column + utf8.RuneCount(s.text[from.offset:offset])
	if offset == len(s.text) || utf8.RuneStart(s.text[offset]) {
		s.last.Store(&mark{from.start, offset, column})
	}
	return line, column
}

// LineStart is the offset of a line's first byte; the length of the text for a
// line behind its end, 0 for one before its start.
func (s *Source) LineStart(line int) int {
	starts := s.starts()
	switch {
	case line < 1:
		return 0
	case line > len(starts):
		return len(s.text)
	}
	return starts[line-1]
}

// Line is a line without its line end, "" outside the text.
func (s *Source) Line(line int) string {
	return string(s.line(line))
}

func (s *Source) line(line int) []byte {
	if line < 1 || line > len(s.starts()) {
		return nil
	}
	text := s.text[s.LineStart(line):s.LineStart(line+1)]
	return bytes.TrimSuffix(bytes.TrimSuffix(text, []byte("\n")), []byte("\r"))
}

// LineEnd is the offset behind a line, before its line end.
func (s *Source) LineEnd(line int) int { return s.LineStart(line) + len(s.line(line)) }
