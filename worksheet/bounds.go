package worksheet

import (
	"bytes"
	"fmt"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/worksheet/markdown"
)

// How much of a kind one file may hold. Each is far more than a journal has, and
// little enough for a run to stay within half a gigabyte and seconds.
const (
	MaxBlocks = 1 << 20   // bytes of working blocks
	MaxLines  = 30_000    // lines of working blocks
	MaxInline = 50_000    // values in the prose
	MaxCells  = 2_000_000 // of all CSV files; tables of a page: markdown.MaxCells
	maxWide   = 10_000    // cells of one CSV row
)

// How much of a kind a page of HTML may show, on which every line is set as a formula.
const (
	maxPageBlocks = MaxBlocks / 2
	maxPageLines  = MaxLines / 3
)

// inBlocks counts the bytes and the lines of a file's blocks.
func inBlocks(doc *markdown.Document) (bytes, lines int) {
	for _, b := range doc.Blocks {
		lines += len(b.Lines)
		bytes += b.End - b.Start
	}
	return bytes, lines
}

// tooMuchForPage says what a page would have too much of, once it is worked.
func tooMuchForPage(doc *markdown.Document, r *report.Report) []message.Diagnostic {
	bytes, lines := inBlocks(doc)
	switch {
	case tooMuch(r):
		return []message.Diagnostic{grown(doc)}
	case bytes > maxPageBlocks || lines > maxPageLines:
		return []message.Diagnostic{{Span: message.Span{File: doc.Name}, Hint: "split the file, and let one part use the other",
			Summary: fmt.Sprintf("this file has %d lines and %d bytes of working blocks; a page takes %d and %d at most", lines, bytes, maxPageLines, maxPageBlocks)}}
	}
	return nil
}

// tooMuchOf says which kind a file holds too much of, and how to do with less.
func tooMuchOf(doc *markdown.Document) []message.Diagnostic {
	bytes, lines := inBlocks(doc)
	for _, of := range []struct {
		have, most int
		what, hint string
	}{
		{bytes, MaxBlocks, "bytes of working blocks", "split the file, and let one part use the other; long lists belong in a table"},
		{lines, MaxLines, "lines of working blocks", "split the file, and let one part use the other; many alike belong in a table"},
		{len(doc.Inline), MaxInline, "values in its prose", "split the file, and let one part use the other"},
	} {
		if of.have > of.most {
			return []message.Diagnostic{{Span: message.Span{File: doc.Name}, Hint: of.hint,
				Summary: fmt.Sprintf("this file has %d %s; a run takes %d at most", of.have, of.what, of.most)}}
		}
	}
	return nil
}

// csvTooMuch says what of a CSV file is too much, before it is taken apart.
func csvTooMuch(body []byte, comma byte) error {
	marks := bytes.Count(body, []byte{comma})
	rows := bytes.Count(body, []byte{'\n'}) - bytes.Count(body, []byte("\n\n"))
	if marks+rows > MaxCells {
		return fmt.Errorf("has more than %d cells: leave out the columns and rows that nothing uses", MaxCells)
	}
	for rest := body; len(rest) > 0; {
		line := rest
		if end := bytes.IndexByte(rest, '\n'); end >= 0 {
			line, rest = rest[:end], rest[end+1:]
		} else {
			rest = nil
		}
		if len(line) > maxWide && bytes.Count(line, []byte{comma}) > maxWide {
			return fmt.Errorf("has a row of more than %d cells: leave out the columns that nothing uses", maxWide)
		}
	}
	return nil
}
