package evaluate

import (
	"path"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
)

// problems reports what could not be worked, each in the block where the
// builder reads it.
func (w *worker) problems() {
	list := append([]message.Diagnostic{}, w.program.Problems...)
	list = append(list, w.out.Errors...)
	for _, d := range w.program.Main.Defs {
		if f := w.fault(d); f != nil && !f.Told {
			list = append(list, w.own(d, f.Diagnostic))
		}
	}
	list = append(list, w.usedFaults()...)
	w.out.Errors = message.Sort(list, w.sameLine)
	for _, d := range w.out.Errors {
		block, line := w.whereRead(d)
		if block < len(w.out.Blocks) {
			b := &w.out.Blocks[block]
			b.Errors = append(b.Errors, report.Failure{Line: line, Diagnostic: d})
		}
	}
}

// own keeps a fault in this sheet: one whose place is in a used file is told at
// the definition, with a note.
func (w *worker) own(d *program.Def, x message.Diagnostic) message.Diagnostic {
	if _, typed := w.typed[x.Span.File]; typed || x.Span.File == w.sheet.Name {
		return x
	}
	x.Notes = append(x.Notes, message.Note{Span: x.Span, Text: "it stands here"})
	x.Span = d.Stmt.Place()
	return x
}

// usedFaults tells, at each use line, of a used sheet that fails while running.
func (w *worker) usedFaults() []message.Diagnostic {
	var list []message.Diagnostic
	for _, stmt := range w.statements() {
		use, ok := stmt.(*syntax.Use)
		if !ok {
			continue
		}
		used := w.program.Main.Uses[use.Under()]
		if used == nil {
			continue
		}
		for _, d := range used.Defs {
			if f := w.fault(d); f != nil && !f.Told {
				list = append(list, message.Diagnostic{
					Span: use.Path.Span, Summary: "`" + use.Path.Value + "` has errors: " + f.Summary,
					Hint: "mend that worksheet first", Notes: []message.Note{{Span: f.Span, Text: "the first is here"}},
				})
				break
			}
		}
	}
	return list
}

func (w *worker) statements() []syntax.Statement { return w.program.Main.Statements() }

// sameLine reports whether two places of the blocks stand on one line.
func (w *worker) sameLine(a, b message.Span) bool {
	if a.File != b.File {
		return false
	}
	if _, typed := w.typed[a.File]; typed {
		return true
	}
	if a.File != w.sheet.Name {
		return a.Start == b.Start
	}
	_, la, okA := w.lineOf(a.Start)
	_, lb, okB := w.lineOf(b.Start)
	if okA && okB {
		return la.Offset == lb.Offset
	}
	return okA == okB && a.Start == b.Start
}

// whereRead is the block whose region tells an error, and the line's own text:
// the block it stands in, else the first that uses its table, else the one
// before it.
func (w *worker) whereRead(d message.Diagnostic) (block int, line string) {
	if c, ok := w.typed[d.Span.File]; ok {
		return 0, c.Text
	}
	if table, text := w.tableAt(d.Span); table != nil {
		return w.firstUser(table), text
	}
	if d.Span.File != w.sheet.Name {
		return 0, ""
	}
	if i, l, ok := w.lineOf(d.Span.Start); ok {
		return i, strings.TrimSpace(l.Text)
	}
	return w.blockBefore(d.Span.Start), w.spanText(d.Span)
}

// spanText is the inline value at a place, without its value.
func (w *worker) spanText(at message.Span) string {
	for _, in := range w.sheet.Inline {
		if in.Span.Start <= at.Start && at.Start < in.Span.End {
			return in.Name + " [" + in.Unit.Text + "]"
		}
	}
	return ""
}

// tableAt is the table of data that a place lies in, and its row's text, behind
// the name of the file where it is another.
func (w *worker) tableAt(at message.Span) (*program.Def, string) {
	for _, d := range w.program.Main.Defs {
		table, ok := d.Body.(*program.Data)
		if !ok {
			continue
		}
		text, ok := table.RowText(at)
		switch {
		case ok && at.File != w.sheet.Name:
			return d, path.Base(at.File) + ": " + text
		case ok:
			return d, text
		}
	}
	return nil, ""
}

func (w *worker) firstUser(table *program.Def) int {
	for _, d := range w.program.Main.Defs {
		for _, id := range d.Dependencies {
			if id == table.ID {
				return d.Block
			}
		}
	}
	return 0
}

func (w *worker) blockBefore(offset int) int {
	at := 0
	for i, b := range w.sheet.Blocks {
		if len(b.Lines) > 0 && b.Lines[0].Offset <= offset {
			at = i
		}
	}
	return at
}
