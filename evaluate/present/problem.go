package present

import (
	"path"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
)

// place finds where an error is read.
type place struct{ w *working.Evaluation }

// faults are what could not be evaluated, each where the builder can mend it.
func (p place) faults() (list []message.Diagnostic) {
	for _, d := range p.w.Program.Main.Defs {
		if f := p.w.Fault(d); f != nil && !f.Told {
			list = append(list, p.own(d, f.Diagnostic))
		}
	}
	return append(list, p.usedFaults()...)
}

// own keeps a fault in this sheet: one whose place is in a used file is told at
// the definition, with a note.
func (p place) own(d *program.Def, x message.Diagnostic) message.Diagnostic {
	if _, typed := p.w.Source.Typed[x.Span.File]; typed || x.Span.File == p.w.Source.Main.Name {
		return x
	}
	x.Notes = append(x.Notes, message.Note{Span: x.Span, Text: "it stands here"})
	x.Span = d.Stmt.Place()
	return x
}

// usedFaults tells, at each use line, of a used sheet that fails while running.
func (p place) usedFaults() []message.Diagnostic {
	var list []message.Diagnostic
	for _, stmt := range p.w.Program.Main.Statements() {
		use, ok := stmt.(*syntax.Use)
		if !ok {
			continue
		}
		used := p.w.Program.Main.Uses[use.Under()]
		if used == nil {
			continue
		}
		for _, d := range used.Defs {
			if f := p.w.Fault(d); f != nil && !f.Told {
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

// sameLine reports whether two places of the blocks stand on one line.
func (p place) sameLine(a, b message.Span) bool {
	if a.File != b.File {
		return false
	}
	if _, typed := p.w.Source.Typed[a.File]; typed {
		return true
	}
	if a.File != p.w.Source.Main.Name {
		return a.Start == b.Start
	}
	_, la, okA := p.w.Source.Main.Line(a.Start)
	_, lb, okB := p.w.Source.Main.Line(b.Start)
	if okA && okB {
		return la.Offset == lb.Offset
	}
	return okA == okB && a.Start == b.Start
}

// whereRead is the block whose region tells an error, and the line's own text:
// the block it stands in, else the first that uses its table, else the one
// before it.
func (p place) whereRead(d message.Diagnostic) (block int, line string) {
	if c, ok := p.w.Source.Typed[d.Span.File]; ok {
		return 0, c
	}
	if table, text := p.tableAt(d.Span); table != nil {
		return p.firstUser(table), text
	}
	if d.Span.File != p.w.Source.Main.Name {
		return 0, ""
	}
	if i, l, ok := p.w.Source.Main.Line(d.Span.Start); ok {
		return i, strings.TrimSpace(l.Text)
	}
	return p.blockBefore(d.Span.Start), p.spanText(d.Span)
}

// spanText is the inline value at a place, without its value.
func (p place) spanText(at message.Span) string {
	for _, in := range p.w.Source.Main.Inline {
		if in.Span.Start <= at.Start && at.Start < in.Span.End {
			return in.Name + " [" + in.Unit.Text + "]"
		}
	}
	return ""
}

// tableAt is the table of data that a place lies in, and its row's text, behind
// the name of the file where it is another.
func (p place) tableAt(at message.Span) (*program.Def, string) {
	for _, d := range p.w.Program.Main.Defs {
		table, ok := d.Body.(*program.Data)
		if !ok {
			continue
		}
		text, ok := table.RowText(at)
		switch {
		case ok && at.File != p.w.Source.Main.Name:
			return d, path.Base(at.File) + ": " + text
		case ok:
			return d, text
		}
	}
	return nil, ""
}

func (p place) firstUser(table *program.Def) int {
	for _, d := range p.w.Program.Main.Defs {
		for _, id := range d.Dependencies {
			if id == table.ID {
				return d.Block
			}
		}
	}
	return 0
}

func (p place) blockBefore(offset int) int {
	at := 0
	for i, b := range p.w.Source.Main.Blocks {
		if len(b.Lines) > 0 && b.Lines[0].Offset <= offset {
			at = i
		}
	}
	return at
}
