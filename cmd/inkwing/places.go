package main

import (
	"bytes"

	"inkwing/evaluate/message"
	"inkwing/worksheet"
)

// Places turns the spans of one outcome into lines and columns. A file that the
// worksheet uses is read again only when a message points into it.
type places struct {
	g       *target
	sources map[string]*message.Source
	// moved says where a place of the outcome's own text stands in the file as
	// it is now; nil while nothing is written.
	moved func(int) int
	name  string
	used  map[string][]byte        // the other files, as the outcome read them
	since map[string]func(int) int // where their places stand in what was written since
}

// newPlaces knows the outcome's own text. Sources bear the names by which the
// builder calls the files, since they go into what is printed.
func newPlaces(o outcome) *places {
	p := &places{g: o.target, name: o.name, used: o.result.Used, since: map[string]func(int) int{}}
	text := o.result.Source
	if o.written {
		text, p.moved = o.result.Output, o.result.Written
	}
	own := message.NewSource(visible(o.shown), text)
	p.sources = map[string]*message.Source{"": own, o.name: own}
	for name, page := range o.pages {
		p.sources[name] = page
	}
	return p
}

// now is where a span stands in the file as it is now.
func (p *places) now(s message.Span) message.Span {
	if p.moved != nil && (s.File == "" || s.File == p.name) {
		s.Start, s.End = p.moved(s.Start), p.moved(s.End)
	}
	if moved := p.since[s.File]; moved != nil {
		s.Start, s.End = moved(s.Start), moved(s.End)
	}
	return s
}

func (p *places) source(file string) *message.Source {
	src, ok := p.sources[file]
	if !ok {
		text, err := p.g.folder.Read(file)
		if err != nil {
			text = nil // gone since: its messages stand at its first line
		}
		src = message.NewSource(visible(p.g.display(file)), p.follow(file, text))
		p.sources[file] = src
	}
	return src
}

// follow is the text of another file to which messages point: as it is now where
// it was only worked since the outcome read it, else as it was read.
func (p *places) follow(file string, now []byte) []byte {
	read, ok := p.used[file]
	if !ok || bytes.Equal(read, now) {
		return now
	}
	if p.since[file] = worksheet.Moved(read, now); p.since[file] == nil {
		return read
	}
	return now
}

// Display is what the builder calls a file.
func (p *places) Display(file string) string { return p.g.display(file) }

// At is the line, the column and the column behind the end of a span, all from
// 1 and in characters; a span over several lines ends with its first.
func (p *places) At(s message.Span) (line, column, end int) {
	src, s := p.source(s.File), p.now(s)
	line, column = src.Position(s.Start)
	_, end = src.Position(max(s.Start, min(s.End, src.LineEnd(line))))
	return line, column, end
}

// print writes a message: its place, what is wrong, the builder's line with the
// place underlined, what mends it, and the other places that explain it.
func (p *places) print(s *stream, level string, colour func(string) string, d message.Diagnostic) {
	notes := d.Notes
	d.Notes = nil
	width := 0
	if s.narrow {
		width = s.width
	}
	s.printf("%s", p.render(message.Style{Level: level, Paint: colour, Width: width}, d))
	for _, n := range notes {
		s.printf("%s", p.render(message.Style{Width: width}, message.Diagnostic{Span: n.Span, Summary: n.Text}))
	}
}

func (p *places) render(style message.Style, d message.Diagnostic) string {
	src := p.source(d.Span.File)
	d.Span = p.now(d.Span)
	d.Span.File = src.Name()
	return style.Render(d, src)
}
