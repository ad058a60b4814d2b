package check

import (
	"slices"

	"inkwing/evaluate/graph"
	"inkwing/evaluate/syntax"
)

// whatIf is the vary, adjust or tune of a definition, nil if it is none.
func (d *Def) whatIf() syntax.Expr {
	switch x := d.Stmt.(type) {
	case *syntax.Study:
		return x.What
	case *syntax.Definition:
		if studyVerb(x.Value) != "" {
			return x.Value
		}
	}
	return nil
}

// sweeps are the variables of a study as written.
func sweeps(e syntax.Expr) []syntax.Sweep {
	switch x := e.(type) {
	case *syntax.Vary:
		return x.Over
	case *syntax.Adjust:
		return []syntax.Sweep{x.Over}
	case *syntax.Tune:
		return x.Over
	}
	return nil
}

// studies finds out what the variables of each study touch, and gives it the
// limits among that. What is returned orders the limits before their studies;
// a limit that a study cannot be worked without is left out.
func (p *Program) studies(needs [][]int) [][]int {
	wide := slices.Clone(needs)
	g := graph.New(needs)
	var list []*Def
	for _, d := range p.Defs {
		if d.whatIf() == nil {
			continue
		}
		list = append(list, d)
		d.touch(g, needs)
		d.Limits = p.touchedLimits(d, needs)
		wide[d.ID] = slices.Clone(needs[d.ID])
		for _, l := range d.Limits {
			wide[d.ID] = append(wide[d.ID], l.ID)
		}
	}
	ordered := slices.Clone(needs)
	for _, d := range list {
		d.Limits = slices.DeleteFunc(d.Limits, func(l *Def) bool { return reaches(wide, l.ID, d.ID) })
		ordered[d.ID] = slices.Clone(needs[d.ID])
		for _, l := range d.Limits {
			ordered[d.ID] = append(ordered[d.ID], l.ID)
		}
	}
	return ordered
}

// touch finds the variables and all that depends on them.
func (d *Def) touch(g *graph.Graph, needs [][]int) {
	d.touched = map[int]bool{}
	for _, s := range sweeps(d.whatIf()) {
		f := finder{sheet: d.Sheet, seen: map[int]bool{}}
		f.expr(s.Of)
		for _, id := range f.found {
			d.touched[id] = true
		}
	}
	for _, id := range g.Order() {
		if slices.ContainsFunc(needs[id], func(v int) bool { return d.touched[v] }) {
			d.touched[id] = true
		}
	}
}

// touchedLimits are the limits of the main sheet, and of the study's own, that
// its variables touch and that do not need its answer.
func (p *Program) touchedLimits(d *Def, needs [][]int) []*Def {
	var list []*Def
	for _, l := range p.Defs {
		near := l.Sheet == p.Main || l.Sheet == d.Sheet
		if l.Role == Bound && near && d.touched[l.ID] && !reaches(needs, l.ID, d.ID) {
			list = append(list, l)
		}
	}
	return list
}

// reaches reports whether one node needs another, by way of others too.
func reaches(needs [][]int, from, to int) bool {
	seen := map[int]bool{}
	queue := []int{from}
	for len(queue) > 0 {
		v := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		if v == to {
			return true
		}
		if !seen[v] {
			seen[v] = true
			queue = append(queue, needs[v]...)
		}
	}
	return false
}

// needsOf are the definitions that must be worked before one is. A study works
// what its variables touch by itself, at values where that may go better than
// at today's: it only waits for the rest.
func (p *Program) needsOf(d *Def, needs [][]int) []int {
	e := d.whatIf()
	if e == nil {
		return p.through(needs, d.ID)
	}
	f := finder{sheet: d.Sheet, seen: map[int]bool{}}
	for _, s := range sweeps(e) {
		for _, x := range []syntax.Expr{s.Of, s.From, s.To, s.By, s.In} {
			if x != nil {
				f.expr(x)
			}
		}
	}
	list := slices.Clone(f.found)
	seen := map[int]bool{}
	queue := slices.Clone(needs[d.ID])
	for len(queue) > 0 {
		v := queue[0]
		queue = queue[1:]
		switch {
		case seen[v]:
		case v >= len(p.Defs) || d.touched[v]:
			queue = append(queue, needs[v]...)
		default:
			list = append(list, v)
		}
		seen[v] = true
	}
	return slices.Compact(list)
}
