// Package explain tells how a quantity came about: its formula with the values put
// in, and what that names, down to the plain values.
//
// [Quantity] tells of one, [Lines] of every statement of a sheet, for pages that set
// them as formulas.
package explain

import (
	"slices"
	"sort"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
)

// Quantity explains a quantity, or a field of one, of a sheet that was evaluated
// with all that it uses, and of which that report was made. The step is nil where
// there is no such quantity.
func Quantity(w *working.Evaluation, r *report.Report, name string) *report.Step {
	d, fields, ok := w.Named(name)
	if !ok {
		return nil
	}
	if _, _, _, ok := w.Lookup(d, fields); !ok && d.Type != nil && !isColumn(d, fields) {
		return nil
	}
	e := &explainer{w: w, report: r, seen: map[int]bool{}, placed: map[string]bool{}}
	return e.step(reference{def: d, fields: fields})
}

type explainer struct {
	w      *working.Evaluation
	report *report.Report
	seen   map[int]bool    // definitions that have been explained
	placed map[string]bool // cells of rows that have
	// shared holds the steps by their names where each is told once and reached
	// from all that come of it; nil where it is told again as "above".
	shared  map[string]*report.Step
	byName  map[string]*report.Quantity     // of the report; nil before it is asked for
	wrong   map[*program.Sheet][]problem    // of the sheets that were asked for them
	bodies  map[*program.Def][]reference    // of functions that are called
	columns map[*program.Def]map[string]int // of tables, by their names, once asked for
}

// step explains a definition, or a field of it.
func (e *explainer) step(r reference) *report.Step {
	d := r.def
	s := &report.Step{Name: e.nameOf(r), Path: d.Sheet.Name, Shown: "—"}
	if e.shared != nil {
		if told := e.shared[s.Name]; told != nil {
			return told
		}
		e.shared[s.Name] = s
	}
	s.Shown, _ = e.shown(r)
	if program.Is[*program.Data](d) {
		e.place(s, r)
		return s
	}
	s.State, s.Waits = e.w.State(d)
	s.Note, s.Given = d.Stmt.Common().Note, d.IsInput()
	if e.shared == nil {
		if e.seen[d.ID] || e.placed[s.Name] {
			s.Above, s.Note = true, ""
			return s
		}
		e.seen[d.ID] = true
	}
	if s.State == report.Failed {
		s.Fault = e.why(d)
	}
	if x, ok := d.Stmt.(*syntax.Definition); ok {
		e.open(s, r, x)
	}
	return s
}

// open adds the formula and what it names.
func (e *explainer) open(s *report.Step, r reference, x *syntax.Definition) {
	found := e.references(r.def.Sheet, x.Value)
	if e.shared == nil {
		e.write(s, r, x, found)
	}
	for _, f := range found {
		if f.row != nil && sameKey(r, f) {
			f.fields = append(f.fields, r.fields...)
			e.place(s, f)
			if e.shared == nil {
				delete(e.seen, r.def.ID) // another cell of the row has a place of its own
				e.placed[s.Name] = true
			}
			return
		}
		s.Dependencies = append(s.Dependencies, e.step(f))
	}
}

// write adds the formula as it stands, with the values put in, and its calls; a page
// sets it from the tree.
func (e *explainer) write(s *report.Step, r reference, x *syntax.Definition, found []reference) {
	sheet, span := e.w.Source.Sheets[r.def.Sheet.Name], x.Value.Place()
	s.Formula = sheet.TextWith(span, nil)
	if put := sheet.TextWith(span, e.values(found)); put != s.Formula && put != s.Shown {
		s.Substituted = put
	}
	s.Calls = e.calls(r.def, x.Value)
}

// sameKey reports whether a definition is a row and nothing else, so that its fields
// are the cells.
func sameKey(r, row reference) bool {
	x, ok := r.def.Stmt.(*syntax.Definition)
	return ok && x.Value.Place() == row.at && len(row.fields) == 0
}

// place says where in a table a row or cell stands.
func (e *explainer) place(s *report.Step, r reference) {
	s.Given = true
	if r.row == nil && r.def.Rows() != nil {
		s.Shown = message.Rows(r.def.Rows().Len())
	}
	e.workedCells(s, r)
	table := "the table `" + r.def.Shown(e.w.Program.Main) + "`"
	switch {
	case r.row == nil && len(r.fields) == 0:
		s.Where = table
	case r.row == nil:
		s.Where = "the column " + r.fields[0] + " of " + table
	case len(r.fields) == 0:
		s.Where = "row " + rowText(r.row) + " of " + table
	default:
		s.Where = "row " + rowText(r.row) + ", column " + r.fields[0] + " of " + table
	}
	if use, ok := r.def.Stmt.(*syntax.Use); ok {
		s.Where += ", from " + use.Path.Value
	}
}

// workedCells explains the cells that hold what a quantity comes to, of those that
// are looked at.
func (e *explainer) workedCells(s *report.Step, r reference) {
	data, ok := r.def.Body.(*program.Data)
	if !ok {
		return
	}
	for _, d := range data.Worked {
		cell := d.Body.(*program.Cell)
		if cell.Of == nil || !r.looksAt(data, cell) {
			continue
		}
		s.Given = false
		for _, f := range e.references(r.def.Sheet, cell.Of.Of) {
			s.Dependencies = append(s.Dependencies, e.step(f))
		}
	}
}

// looksAt reports whether a cell is in the row and column that a reference names.
func (r reference) looksAt(data *program.Data, cell *program.Cell) bool {
	if len(r.fields) > 0 {
		table, ok := r.def.Type.(*program.Table)
		if !ok || table.Columns[cell.Column].Name != r.fields[0] {
			return false
		}
	}
	switch key := r.row.(type) {
	case *syntax.Text:
		return data.Source.Rows[cell.Row][0].Text == key.Value
	case *syntax.Number:
		return key.Value == float64(cell.Row+1)
	}
	return true
}

func rowText(key syntax.Expr) string {
	if text, ok := key.(*syntax.Text); ok {
		return text.Value
	}
	return syntax.Source(key)
}

func (e *explainer) nameOf(r reference) string {
	name := r.def.Shown(e.w.Program.Main)
	if r.row != nil {
		name += "[" + syntax.Source(r.row) + "]"
	}
	return strings.Join(append([]string{name}, r.fields...), ".")
}

// why is the reason for which a definition's own line fails.
func (e *explainer) why(d *program.Def) string {
	if f := e.w.Fault(d); f != nil {
		return f.Summary
	}
	at, problems := d.Stmt.Place(), e.problems(d.Sheet)
	first := -1 // of those within the statement, in the order in which they were found
	for i := sort.Search(len(problems), func(i int) bool { return at.Start <= problems[i].at }); i < len(problems) && problems[i].at <= at.End; i++ {
		if first < 0 || problems[i].found < first {
			first = problems[i].found
		}
	}
	if first < 0 {
		return ""
	}
	return d.Sheet.Problems[first].Summary
}

// A problem is a mistake of a sheet, by its place and its number.
type problem struct{ at, found int }

// problems are the mistakes of a sheet by their places.
func (e *explainer) problems(s *program.Sheet) []problem {
	list, known := e.wrong[s]
	if known {
		return list
	}
	for i, p := range s.Problems {
		list = append(list, problem{p.Span.Start, i})
	}
	slices.SortFunc(list, func(a, b problem) int { return a.at - b.at })
	if e.wrong == nil {
		e.wrong = map[*program.Sheet][]problem{}
	}
	e.wrong[s] = list
	return list
}
