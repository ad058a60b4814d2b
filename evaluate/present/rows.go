package present

import (
	"strings"

	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
)

// A row is a quantity that a block may list.
type row struct {
	report.Quantity
	always bool // it says what no other place does: what a study found
}

// list keeps a quantity for the rows of its block.
func (p *presenter) list(q report.Quantity, always bool) {
	p.rows = append(p.rows, row{q, always})
}

// listRows puts the rows into the blocks: what stands elsewhere on the page is not
// said again, and to the fields of a record that the builder chose for the prose no
// others are added.
func (p *presenter) listRows() {
	said := elsewhere(p.w)
	for _, in := range p.w.Source.Main.Inline {
		record, _, _ := strings.Cut(in.Name, ".")
		said[record] = true
	}
	for _, r := range p.rows {
		if r.always || r.State != report.Evaluated || !said[r.Name] && !said[r.Record()] {
			b := &p.out.Blocks[r.Block]
			b.Rows = append(b.Rows, r.Quantity)
		}
	}
	for i := range p.out.Blocks {
		align(p.w, p.out.Blocks[i].Rows)
	}
}

// hidden are the names that the page does not show: fields of records that stand neither
// in a row nor in the prose.
func (p *presenter) hidden() map[string]bool {
	hidden := map[string]bool{}
	for _, q := range p.out.Quantities {
		hidden[q.Name] = q.Record() != q.Name
	}
	for name := range elsewhere(p.w) {
		hidden[name] = false
	}
	for _, b := range p.out.Blocks {
		for _, q := range b.Rows {
			hidden[q.Name] = false
		}
	}
	return hidden
}

// elsewhere are the names whose values stand in the prose, in a table of limits
// or measurements, or under a name that a builder gave to a field.
func elsewhere(w *working.Evaluation) map[string]bool {
	said := map[string]bool{}
	for _, in := range w.Source.Main.Inline {
		said[in.Name] = true
	}
	for _, d := range w.Program.Main.Defs {
		if state, _ := w.State(d); state != report.Evaluated {
			continue
		}
		for _, e := range saidBy(d) {
			if name, ok := syntax.Dotted(e); ok {
				said[name] = true
			}
		}
	}
	return said
}

// saidBy are the expressions that a statement's own table or row shows.
func saidBy(d *program.Def) []syntax.Expr {
	switch x := d.Stmt.(type) {
	case *syntax.Limit:
		return x.Bound.Operands
	case *syntax.Measured:
		return []syntax.Expr{x.Of, x.Value}
	case *syntax.Definition:
		if field, ok := x.Value.(*syntax.Field); ok {
			return []syntax.Expr{field}
		}
	}
	return nil
}
