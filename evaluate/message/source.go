package message

import (
	"bytes"
	"sort"
	"strings"
	"sync"
	"unicode/utf8"
)

// A Source is a file's text, indexed by lines when first asked. A line ends
// with \n or \r\n. It may be used by several goroutines at once.
type Source struct {
	name   string
	text   []byte
	starts func() []int // offsets of the lines' first bytes
}

// NewSource is the source of that name; text must not change afterwards.
func NewSource(name string, text []byte) *Source {
	return &Source{name, text, sync.OnceValue(func() []int { return lineStarts(text) })}
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
	return line, 1 + utf8.RuneCount(s.text[starts[line-1]:offset])
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
	if line < 1 || line > len(s.starts()) {
		return ""
	}
	text := string(s.text[s.LineStart(line):s.LineStart(line+1)])
	return strings.TrimSuffix(strings.TrimSuffix(text, "\n"), "\r")
}
