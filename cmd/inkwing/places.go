package main

import (
	"bytes"
	"strconv"
	"strings"
	"unicode/utf8"

	"inkwing/evaluate/message"
)

// Places turns the spans of one outcome into lines and columns, both from 1 and
// columns in characters. A file that the worksheet uses is read again only when
// a message points into it.
type places struct {
	g     *target
	texts map[string][]byte
}

func newPlaces(o outcome) *places {
	return &places{g: o.target, texts: map[string][]byte{"": o.result.Source, o.name: o.result.Source}}
}

func (p *places) text(file string) []byte {
	text, ok := p.texts[file]
	if !ok {
		text, _ = p.g.folder.Read(file)
		p.texts[file] = text
	}
	return text
}

func (p *places) line(s message.Span) int {
	line, _, _ := p.at(s)
	return line
}

// at is the line, the column and the column behind the end of a span; a span
// over several lines ends with its first.
func (p *places) at(s message.Span) (line, column, end int) {
	text := p.text(s.File)
	start := min(s.Start, len(text))
	from, to := lineAround(text, start)
	stop := max(start, min(s.End, to))
	line = 1 + bytes.Count(text[:from], []byte("\n"))
	column = 1 + utf8.RuneCount(text[from:start])
	return line, column, column + utf8.RuneCount(text[start:stop])
}

// lineAround is the first byte of the line that holds an offset, and its end.
func lineAround(text []byte, at int) (from, to int) {
	from = bytes.LastIndexByte(text[:at], '\n') + 1
	to = len(text)
	if n := bytes.IndexByte(text[at:], '\n'); n >= 0 {
		to = at + n
	}
	return from, max(at, len(bytes.TrimRight(text[:to], "\r")))
}

// print writes a message: its place, what is wrong, the builder's line with the
// place underlined, and what mends it.
func (p *places) print(s *stream, level string, d message.Diagnostic) {
	s.printf("%s: %s %s\n", p.where(d.Span), level, visible(d.Summary))
	p.quote(s, d.Span)
	if d.Hint != "" {
		s.printf("    %s %s\n", s.dim("hint:"), visible(d.Hint))
	}
	for _, n := range d.Notes {
		s.printf("    %s: %s\n", p.where(n.Span), visible(n.Text))
	}
}

// where is file:line:column, which editors know how to follow.
func (p *places) where(at message.Span) string {
	line, column, _ := p.at(at)
	return visible(p.g.display(at.File)) + ":" + strconv.Itoa(line) + ":" + strconv.Itoa(column)
}

func (p *places) quote(s *stream, at message.Span) {
	text := p.text(at.File)
	start := min(at.Start, len(text))
	from, to := lineAround(text, start)
	stop := max(start, min(at.End, to))
	before, under, after := visible(string(text[from:start])), visible(string(text[start:stop])), visible(string(text[stop:to]))
	if strings.TrimSpace(before+under+after) == "" {
		return
	}
	s.printf("    %s\n    %s%s\n", before+under+after,
		strings.Repeat(" ", utf8.RuneCountInString(before)),
		s.red(strings.Repeat("^", max(1, utf8.RuneCountInString(under)))))
}
