// Package markdown finds, by byte offset, what a Markdown file holds for the
// runner: working blocks, worked regions, data tables and inline values.
//
// [Parse] is its one verb. Nothing is rendered: goldmark's block tree says what
// is a fence, a comment or a table, and everything else stays a slice of the
// source. Its limit: front matter is passed over by its fences alone and is not
// checked to be YAML or TOML.
package markdown

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"slices"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	extension "github.com/yuin/goldmark/extension/ast"

	"inkwing/evaluate/message"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

// A Document is what was found in one file, all in the order of the file.
type Document struct {
	Name    string
	Source  []byte
	Blocks  []Block
	Regions []Region
	Tables  []*syntax.Table
	Inline  []Inline
	Bare    []Bare
	Notes   []message.Diagnostic // what nearly is one of these, and so is passed over
	Refused []message.Diagnostic // why the file should be left as it is
	Unread  bool                 // too deep to be parsed, UTF-16, or not in time: nothing but Refused is known

	// inCells are the places of the inline values that are cells of data, by their
	// table, while the file is read.
	inCells map[ast.Node]map[int]bool
}

// A Block is a block of ours: worked, of rules, or of a search.
type Block struct {
	Word   string // Working, Keeping or Gather
	Lines  []syntax.Line
	Start  int    // of the opening fence
	End    int    // of the closing fence's text; its line end follows
	Prefix string // what continues the containers that the block stands in
	EOL    string // the line end in use here
	Nested bool   // stands in a list or a quote
	Region int    // index of its region, -1 if it has none
}

// A Region is a pair of marker lines with what is between them.
type Region struct {
	Open, Close message.Span // the marker comments
	Inner       message.Span // the lines between, line ends included
	Whole       message.Span // what goes when the region is taken out
	Prefix      string       // the containers' prefix on the opening line
	EOL         string       // the opening line's end
	Block       int          // index of the block it belongs to, -1 for an orphan
}

// An Inline is a code span `name [unit] = value`.
type Inline struct {
	sheet.Inline
	Shown  string       // the value as it stands, on one line
	Value  message.Span // what a new value replaces: all behind the equals sign
	InCell bool         // stands in a table, where a pipe must be escaped
}

// Parse finds what a file holds. Offsets are into source, whatever comes before
// the first block. If something is wrong with the markers, Refused says so and
// the rest is what could be made of it. A file without working blocks may still
// hold tables for others to use; it is the caller's to leave it alone.
func Parse(name string, source []byte) *Document {
	return ParseWithin(context.Background(), name, source)
}

// ParseWithin is Parse until the context is done: the file is Unread then.
func ParseWithin(ctx context.Context, name string, source []byte) *Document {
	d := &Document{Name: name, Source: source, inCells: map[ast.Node]map[int]bool{}}
	if isUTF16(source) {
		d.refuse(0, 2, "this file is UTF-16", "save the file as UTF-8")
		d.Unread = true
		return d
	}
	if at := tooDeep(source); at >= 0 {
		d.refuse(at, lineAt(source, at).text, "lists and quotes are nested too deep here", "take some of the levels out")
		d.Unread = true
		return d
	}
	if d.tooMany() {
		d.Unread = true
		return d
	}
	skip := bodyStart(source)
	tree, fences, definitions, table := parseBlocks(ctx, source[skip:])
	if tree == nil {
		d.refuse(0, 0, syntax.Stopped, "")
		d.Unread = true
		return d
	}
	if at := definitions + skip; definitions >= 0 {
		d.refuse(at, lineAt(source, at).text, "too many link definitions stand in a row here", "leave a blank line among them now and then, or write each on one line")
		d.Unread = true
		return d
	}
	if at := table + skip; table >= 0 {
		d.refuse(at, lineAt(source, at).text, fmt.Sprintf("with this table the file has more than %d cells", MaxCells), "leave rows or columns out, or keep the table in a CSV file")
		d.Unread = true
		return d
	}
	d.addBlocks(fences, skip)
	d.addRegions(markers(tree, source[skip:], skip))
	d.addTables(tree, skip)
	d.noteFences(fences, skip)
	if len(d.Blocks)+len(d.Regions)+len(d.Tables) > 0 {
		d.checkBytes()
		d.checkConflicts(fences, skip)
	}
	if d.Works() {
		d.addInline(tree, skip)
		d.noteTables(tree, skip)
	}
	d.inCells = nil
	return d
}

// Works reports whether there is a working block.
func (d *Document) Works() bool {
	return slices.ContainsFunc(d.Blocks, func(b Block) bool { return b.Word == Working })
}

// Sheet is the document as the language reads it: blocks that are not worked are
// empty there.
func (d *Document) Sheet() *sheet.Sheet {
	s := &sheet.Sheet{Name: d.Name, Tables: d.Tables}
	for _, b := range d.Blocks {
		lines := b.Lines
		if b.Word != Working {
			lines = nil
		}
		s.Blocks = append(s.Blocks, syntax.Block{Lines: lines})
	}
	for _, v := range d.Inline {
		s.Inline = append(s.Inline, v.Inline)
	}
	return s
}

// addBlocks takes our blocks out of all fences.
func (d *Document) addBlocks(fences []*fence, skip int) {
	for _, f := range fences {
		if f.word == "" {
			continue
		}
		if !f.closed {
			at := f.start + skip
			d.refuse(at, lineAt(d.Source, at).text, "this "+f.word+" block is not closed",
				"add a line of "+string(ticks(d.Source[at:]))+" behind its last statement, indented like this one")
		}
		d.Blocks = append(d.Blocks, d.block(f, skip))
	}
}

// ticks are what opens a fence, and closes it: fewer of them would stay inside.
func ticks(fence []byte) []byte {
	return fence[:len(fence)-len(bytes.TrimLeft(fence, string(fence[:1])))]
}

// block puts a fence's places into the file.
func (d *Document) block(f *fence, skip int) Block {
	b := Block{Word: f.word, Start: f.start + skip, Region: -1, Nested: f.node.Parent() != nil && f.node.Parent().Kind() != ast.KindDocument}
	b.EOL = lineAt(d.Source, b.Start).eol
	lines := f.node.Lines()
	for i := range lines.Len() {
		seg := lines.At(i)
		text := trimEOL(seg.Value(d.Source[skip:]))
		b.Lines = append(b.Lines, syntax.Line{Text: string(text), Offset: seg.Start - seg.Padding + skip})
	}
	if f.closed {
		at := lineAt(d.Source, f.closer+skip)
		b.Prefix, b.End = string(d.Source[at.start:f.closer+skip]), at.text
		if at.eol != "" {
			b.EOL = at.eol
		}
	}
	if b.EOL == "" {
		b.EOL = "\n"
	}
	return b
}

// checkBytes refuses a file that is not UTF-8, at its first bad byte.
func (d *Document) checkBytes() {
	if utf8.Valid(d.Source) {
		return
	}
	at := 0
	for at < len(d.Source) {
		r, size := utf8.DecodeRune(d.Source[at:])
		if r == utf8.RuneError && size == 1 {
			break
		}
		at += size
	}
	d.refuse(at, at+1, "the byte here is not UTF-8", "save the file as UTF-8")
}

// refuse notes why the file is to be left as it is.
func (d *Document) refuse(start, end int, summary, hint string) {
	d.Refused = append(d.Refused, message.Diagnostic{Span: d.span(start, end), Summary: summary, Hint: hint})
}

func (d *Document) span(start, end int) message.Span {
	return message.Span{File: d.Name, Start: start, End: end}
}

// InRegion reports whether an offset lies in a worked region.
func (d *Document) InRegion(at int) bool {
	i, found := slices.BinarySearchFunc(d.Regions, at, func(r Region, at int) int { return cmp.Compare(r.Open.Start, at) })
	return found || i > 0 && at < d.Regions[i-1].Close.End
}

// isTable reports whether a node is a table.
func isTable(n ast.Node) bool { return n != nil && n.Kind() == extension.KindTable }
