package basis

import (
	"maps"
	"slices"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
	"inkwing/units"
)

// What a used sheet says stays whole in the digest, but for the numbers of statements that
// nothing needs. Names, units, spreads and the shape of formulas may act from afar: how
// many inputs are uncertain decides how long a sweep may be to have intervals and in which
// patterns they are moved, any name may be the nearest to a misspelt one. A number acts by
// what is worked from it alone, and by the faults that it leads to.

// bearing are the digests of the used sheets without the numbers that do not bear on the
// main one.
func bearing(w *working.Evaluation, full map[string]Digest) map[string]Digest {
	passed := passedOver(w)
	out := maps.Clone(full)
	for name, spans := range passed {
		out[name] = said(w.Source.Sheets[name], spans)
	}
	return out
}

// passedOver are the places of those numbers, by sheet, in order.
func passedOver(w *working.Evaluation) map[string][]message.Span {
	kept := keptOf(w.Program, w.Program.Graph.Below(roots(w)))
	passed := map[string][]message.Span{}
	for _, s := range w.Program.Sheets {
		if s == w.Program.Main {
			continue
		}
		for _, stmt := range s.Statements() {
			if !kept[stmt] {
				passed[s.Name] = append(passed[s.Name], numbersOf(stmt)...)
			}
		}
		slices.SortFunc(passed[s.Name], func(a, b message.Span) int { return a.Start - b.Start })
	}
	return passed
}

// keptOf are the statements of which something is needed, and those whose answers carry
// an uncertainty of their own: whether they do may hang on their numbers.
func keptOf(p *program.Program, needed map[int]bool) map[syntax.Statement]bool {
	kept := map[syntax.Statement]bool{}
	for _, d := range p.Defs {
		if b, ok := d.Body.(*program.Deviation); needed[d.ID] || ok && (b.Source == nil || b.Source.Call != nil) {
			kept[d.Stmt] = true
		}
	}
	return kept
}

// numbersOf are the places of the numbers of a definition or a limit, those of spreads
// left out: x = 5 V ± 0.1 V has one.
func numbersOf(stmt syntax.Statement) []message.Span {
	switch x := stmt.(type) {
	case *syntax.Definition:
		if u, ok := x.Value.(*syntax.Uncertain); ok && u.Op == "±" {
			if n, plain := u.Value.(*syntax.Number); plain {
				return []message.Span{n.Digits}
			}
		}
		return numbersIn(x.Value, nil)
	case *syntax.Limit:
		return numbersIn(x.Bound, nil)
	}
	return nil
}

// numbersIn passes over what is uncertain: an input without a name is called by what is
// written, and stands among the others by that.
func numbersIn(x syntax.Expr, list []message.Span) []message.Span {
	switch x := x.(type) {
	case *syntax.Number:
		return append(list, x.Digits)
	case *syntax.Uncertain:
		return list
	}
	for _, child := range syntax.Children(x) {
		list = numbersIn(child, list)
	}
	return list
}

// roots are the definitions on which something of the main sheet hangs, directly: its
// own, those that its prose names, and those of used sheets that act from afar.
func roots(w *working.Evaluation) (ids []int) {
	reach := reachOf(w.Program.Main)
	for _, d := range w.Program.Defs {
		if d.Sheet == w.Program.Main || reach.has(d) {
			ids = append(ids, d.ID)
		}
		ids = append(ids, spreadOf(d)...)
	}
	for _, in := range w.Source.Main.Inline {
		if d, _, ok := w.Named(in.Name); ok {
			ids = append(ids, d.ID)
		}
	}
	return ids
}

// A far is what of used sheets shows in the main one, or counts there, though nothing
// there names it: what-ifs, whose cells are counted with all others, and limits, where an
// overview tells them or a chart draws them over a line of their dimension.
type far struct {
	overview bool
	drawn    map[units.Dimension]bool
}

func reachOf(main *program.Sheet) far {
	f := far{drawn: map[units.Dimension]bool{}}
	for _, s := range main.Statements() {
		if _, is := s.(*syntax.Overview); is {
			f.overview = true
		}
	}
	for _, d := range main.Defs {
		if c, ok := d.Body.(*program.Chart); ok {
			for _, line := range c.Lines {
				f.drawn[line.Kind.Dim] = true
			}
		}
	}
	return f
}

func (f far) has(d *program.Def) bool {
	switch b := d.Body.(type) {
	case *program.Study:
		return true
	case *program.Limit:
		return f.overview || slices.ContainsFunc(b.Sides, f.draws)
	}
	return false
}

// draws reports whether a side of a limit is of the dimension of a line that is drawn.
func (f far) draws(side program.Node) bool {
	q, ok := side.Type().(program.Quantity)
	return ok && f.drawn[q.Dim]
}

// spreadOf is what it hangs on whether an uncertain input has a spread, and so counts
// among the inputs.
func spreadOf(d *program.Def) []int {
	b, ok := d.Body.(*program.Deviation)
	if !ok || b.Source == nil {
		return nil
	}
	if b.Source.Call != nil {
		return program.Refs(b.Source.Call)
	}
	return append(program.Refs(b.Source.Value), program.Refs(b.Source.Spread)...)
}
