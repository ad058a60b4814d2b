package present

import (
	"cmp"
	"path"
	"slices"
	"sort"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
)

// place finds where an error is read.
type place struct {
	w      *working.Evaluation
	tables map[string][]*program.Def // of data, by their file, in the order of their places
	users  map[int]int               // the block that first uses a table
}

// newPlace looks through a sheet once, since it may have as many errors as lines.
func newPlace(w *working.Evaluation) place {
	p := place{w: w, tables: map[string][]*program.Def{}, users: map[int]int{}}
	for _, d := range w.Program.Main.Defs {
		if table, ok := d.Body.(*program.Data); ok {
			file := table.Source.Name.Span.File
			p.tables[file] = append(p.tables[file], d)
		}
		for _, id := range d.Dependencies {
			if _, known := p.users[id]; !known {
				p.users[id] = d.Block
			}
		}
	}
	for file, list := range p.tables {
		slices.SortStableFunc(list, func(a, b *program.Def) int { return cmp.Compare(top(a), top(b)) })
		// Of a file under several names the first counts.
		p.tables[file] = slices.CompactFunc(list, func(a, b *program.Def) bool { return top(a) == top(b) })
	}
	return p
}

// top is where a table of data begins.
func top(d *program.Def) int { return d.Body.(*program.Data).Source.Name.Span.Start }

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
	if x.Span = d.Place; d.Stmt != nil {
		x.Span = d.Stmt.Place()
	}
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
	list := p.w.Source.Main.Inline
	i := sort.Search(len(list), func(i int) bool { return list[i].Span.Start > at.Start }) - 1
	if i < 0 || at.Start >= list[i].Span.End {
		return ""
	}
	return list[i].Name + " [" + list[i].Unit.Text + "]"
}

// tableAt is the table of data that a place lies in, and its row's text, behind
// the name of the file where it is another.
func (p place) tableAt(at message.Span) (*program.Def, string) {
	list := p.tables[at.File]
	i := sort.Search(len(list), func(i int) bool { return top(list[i]) > at.Start }) - 1
	if i < 0 {
		return nil, ""
	}
	text, ok := list[i].Body.(*program.Data).RowText(at)
	switch {
	case !ok:
		return nil, ""
	case at.File != p.w.Source.Main.Name:
		text = path.Base(at.File) + ": " + text
	}
	return list[i], text
}

func (p place) firstUser(table *program.Def) int { return p.users[table.ID] }

func (p place) blockBefore(offset int) int {
	return p.w.Source.Main.BlockBefore(offset)
}
