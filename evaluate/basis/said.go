package basis

import (
	"crypto/sha256"
	"encoding/binary"

	"inkwing/evaluate/message"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

// said is the digest of what a sheet says to those that use it: its blocks as they are
// written, but for the numbers in some places, and its tables. Regions, prose and values
// in the prose are not among that.
func said(s *sheet.Sheet, without []message.Span) Digest {
	w := writer{without: without}
	w.count(len(s.Blocks))
	for _, b := range s.Blocks {
		w.count(len(b.Lines))
		for _, l := range b.Lines {
			w.line(l)
		}
	}
	w.count(len(s.Tables))
	for _, t := range s.Tables {
		w.table(t)
	}
	return sha256.Sum256(w.out)
}

// A writer writes such that no two things are written alike.
type writer struct {
	out     []byte
	without []message.Span // of the blocks, in order: those not yet passed
}

func (w *writer) count(n int) { w.out = binary.AppendUvarint(w.out, uint64(n)) }

func (w *writer) text(s string) {
	w.count(len(s))
	w.out = append(w.out, s...)
}

// line writes a line in parts: what stands between the numbers that are left out.
func (w *writer) line(l syntax.Line) {
	parts, at, end := []string{}, 0, len(l.Text)
	for len(w.without) > 0 && w.without[0].Start < l.Offset+end {
		from, to := w.without[0].Start-l.Offset, w.without[0].End-l.Offset
		w.without = w.without[1:]
		if at <= from && from < to && to <= end { // else it stands before the line, which keeps it
			parts, at = append(parts, l.Text[at:from]), to
		}
	}
	parts = append(parts, l.Text[at:])
	w.count(len(parts))
	for _, part := range parts {
		w.text(part)
	}
}

func (w *writer) table(t *syntax.Table) {
	w.text(t.Name.Name)
	w.count(len(t.Rows))
	w.cells(t.Head)
	for _, row := range t.Rows {
		w.cells(row)
	}
	w.count(len(t.Columns))
	for _, c := range t.Columns {
		w.text(c.Name.Name)
		w.unit(c.Unit)
	}
	w.either(t.Commas)
}

func (w *writer) cells(row []syntax.Cell) {
	w.count(len(row))
	for _, c := range row {
		w.text(c.Text)
		if w.either(c.Worked != nil); c.Worked != nil {
			w.text(syntax.Source(c.Worked.Of))
			w.unit(&c.Worked.Unit)
		}
	}
}

func (w *writer) unit(u *syntax.Unit) {
	if w.either(u != nil); u != nil {
		w.text(u.Text)
	}
}

func (w *writer) either(b bool) {
	if b {
		w.count(1)
	} else {
		w.count(0)
	}
}
