package evaluate

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/study"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// Explain works a sheet and says how a quantity, or a field of one, came about,
// down to the plain values. The step is nil where there is no such quantity.
func Explain(ctx context.Context, sheet *Sheet, load Loader, name string) (*report.Step, *report.Report) {
	w := newWorker(sheet, load)
	w.everything = true
	w.check()
	e := &explainer{worker: w, report: w.work(ctx), seen: map[int]bool{}, placed: map[string]bool{}}
	d, fields, ok := w.named(name)
	if !ok {
		return nil, e.report
	}
	if _, _, _, ok := w.lookup(d, fields); !ok && d.Type != nil && !isColumn(d, fields) {
		return nil, e.report
	}
	return e.step(reference{def: d, fields: fields}), e.report
}

// isColumn reports whether the field of a table is one of its columns.
func isColumn(d *program.Def, fields []string) bool {
	t, ok := d.Type.(*program.Table)
	return ok && len(fields) == 1 && slices.ContainsFunc(t.Columns, func(c program.Field) bool { return c.Name == fields[0] })
}

type explainer struct {
	*worker
	report *report.Report
	seen   map[int]bool    // definitions that have been explained
	placed map[string]bool // cells of rows that have
}

// step explains a definition, or a field of it.
func (e *explainer) step(r reference) *report.Step {
	d := r.def
	s := &report.Step{Name: e.nameOf(r), Path: d.Sheet.Name, Shown: "—"}
	s.Shown, _ = e.shown(r)
	if program.Is[*program.Data](d) {
		e.place(s, r)
		return s
	}
	s.State, s.Waits = e.state(d)
	s.Note, s.Given = d.Stmt.Common().Note, d.IsInput()
	if e.seen[d.ID] || e.placed[s.Name] {
		s.Above, s.Note = true, ""
		return s
	}
	e.seen[d.ID] = true
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
	sheet := e.sheets[r.def.Sheet.Name]
	found := e.references(r.def.Sheet, x.Value)
	span := x.Value.Place()
	s.Formula = sheet.replaced(span, nil)
	if put := sheet.replaced(span, e.values(found)); put != s.Formula && put != s.Shown {
		s.Substituted = put
	}
	s.Calls = e.calls(r.def, x.Value)
	for _, f := range found {
		if f.row != nil && sameKey(r, f) {
			f.fields = append(f.fields, r.fields...)
			e.place(s, f)
			delete(e.seen, r.def.ID) // another cell of the row has a place of its own
			e.placed[s.Name] = true
			return
		}
		s.Dependencies = append(s.Dependencies, e.step(f))
	}
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
		s.Shown = rowCount(r.def.Rows().Len())
	}
	table := "the table `" + r.def.Shown(e.program.Main) + "`"
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

func rowText(key syntax.Expr) string {
	if text, ok := key.(*syntax.Text); ok {
		return text.Value
	}
	return syntax.Source(key)
}

func (e *explainer) nameOf(r reference) string {
	name := r.def.Shown(e.program.Main)
	if r.row != nil {
		name += "[" + syntax.Source(r.row) + "]"
	}
	return strings.Join(append([]string{name}, r.fields...), ".")
}

// why is the reason for which a definition's own line fails.
func (e *explainer) why(d *program.Def) string {
	if f := e.fault(d); f != nil {
		return f.Summary
	}
	at := d.Stmt.Place()
	for _, p := range d.Sheet.Problems {
		if at.Start <= p.Span.Start && p.Span.Start <= at.End {
			return p.Summary
		}
	}
	return ""
}

// shown is the text of a value; true for a single one, that can stand in a
// formula.
func (e *explainer) shown(r reference) (string, bool) {
	t, value, ok := e.valueOf(r)
	if !ok || value == nil {
		return "—", false
	}
	if r.row == nil && r.def.Sheet == e.program.Main {
		i := slices.IndexFunc(e.report.Quantities, func(q report.Quantity) bool { return q.Name == e.nameOf(r) })
		if i >= 0 {
			return e.report.Quantities[i].Shown, e.report.Quantities[i].State == report.Evaluated
		}
	}
	unit := units.Unit{}
	if len(r.fields) == 0 {
		unit = r.def.Written()
	} else if r.row == nil && isColumn(r.def, r.fields) {
		columns := r.def.Type.(*program.Table).Columns
		unit = columns[(&program.Record{Fields: columns}).Index(r.fields[0])].Unit
	}
	if _, isNumber := value.(float64); isNumber {
		s := e.spreadOf(r)
		return e.showSpread(t, value, s, unit, e.digits(""))
	}
	return e.text(t, value, unit)
}

// spreadOf is how sure a quantity, a field or a cell is.
func (e *explainer) spreadOf(r reference) study.Spread {
	if r.row == nil {
		_, _, path, _ := e.lookup(r.def, r.fields)
		return e.spread(r.def, path)
	}
	row, ok := rowOf(r.def.Rows(), r.row)
	if !ok || len(r.fields) == 0 {
		return study.Spread{}
	}
	column := (&program.Record{Fields: r.def.Type.(*program.Table).Columns}).Index(r.fields[0])
	return study.Spread{Expanded: e.sure.Cell(r.def.Rows(), row, column)}
}

// text writes any value, a large one in short.
func (e *explainer) text(t program.Type, value any, unit units.Unit) (string, bool) {
	if text, ok := e.show(t, value, unit, e.digits("")); ok {
		return text, true
	}
	switch v := value.(type) {
	case program.Unknown:
		return "not known", false
	case library.List:
		return e.listText(t, v, unit), false
	case library.Record:
		return e.recordText(t.(*program.Record), v), false
	case library.Rows:
		return "a table of " + rowCount(v.Len()), false
	}
	return "—", false
}

// shownItems bounds how many elements or fields are written out.
const shownItems = 5

func (e *explainer) listText(t program.Type, list library.List, unit units.Unit) string {
	of, ok := t.(program.List)
	if !ok || len(list) > shownItems {
		return fmt.Sprintf("a list of %d", len(list))
	}
	parts := make([]string, len(list))
	for i, v := range list {
		parts[i], _ = e.text(of.Elem, v, unit)
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

func (e *explainer) recordText(t *program.Record, record library.Record) string {
	var parts []string
	for _, i := range inOrder(t.Fields) {
		if record[i] == nil {
			continue
		}
		if len(parts) == shownItems {
			parts = append(parts, "…")
			break
		}
		text, _ := e.text(t.Fields[i].Type, record[i], t.Fields[i].Unit)
		parts = append(parts, t.Fields[i].Name+" "+text)
	}
	return strings.Join(parts, ", ")
}
