package check

import (
	"slices"
	"strings"

	"inkwing/evaluate/graph"
	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

// Check finds out what a sheet and all it uses mean. Problems of used sheets
// are told once, at the use line of the main sheet.
func Check(main Input, load Load) *Program {
	p := &Program{}
	c := &collector{load: load, program: p, byName: map[string]*Sheet{}}
	p.Main = c.sheet(main)
	p.order()
	for _, id := range p.Graph.Order() {
		if id < len(p.Defs) {
			p.Defs[id].check(p)
		}
	}
	p.unused()
	p.digits()
	p.gather()
	return p
}

// order builds the graph over definitions and functions and fails its circles.
func (p *Program) order() {
	needs := make([][]int, len(p.Defs))
	next := len(p.Defs)
	for _, s := range p.Sheets {
		for _, f := range s.functionsInOrder() {
			f.ID = next
			next++
		}
	}
	for _, d := range p.Defs {
		needs[d.ID] = d.references()
	}
	for _, s := range p.Sheets {
		for _, f := range s.functionsInOrder() {
			needs = append(needs, f.references())
		}
	}
	p.Graph = graph.New(p.studies(needs))
	for _, d := range p.Defs {
		d.needs = p.needsOf(d, needs)
	}
	for _, circle := range p.Graph.Circles() {
		p.circle(circle)
	}
}

// through lists the definitions that one needs, by way of functions too.
func (p *Program) through(needs [][]int, id int) []int {
	var list []int
	seen := map[int]bool{}
	queue := slices.Clone(needs[id])
	for len(queue) > 0 {
		v := queue[0]
		queue = queue[1:]
		if seen[v] {
			continue
		}
		seen[v] = true
		if v < len(p.Defs) {
			list = append(list, v)
			continue
		}
		queue = append(queue, needs[v]...)
	}
	return list
}

// functionsInOrder lists the functions as they stand in the file.
func (s *Sheet) functionsInOrder() []*Function {
	if len(s.Functions) == 0 || s.input.Tree == nil {
		return nil
	}
	var list []*Function
	for _, stmt := range s.input.Tree.Statements {
		x, ok := stmt.(*syntax.Function)
		if ok && s.Functions[x.Name.Name] != nil && s.Functions[x.Name.Name].Stmt == x {
			list = append(list, s.Functions[x.Name.Name])
		}
	}
	return list
}

// circle says once, at the first of them in the file, who waits for whom.
func (p *Program) circle(ids []int) {
	var names []string
	var first *message.Span
	var sheet *Sheet
	for _, id := range ids {
		name, at, s := p.nodeName(id)
		names = append(names, name)
		if first == nil {
			first, sheet = &at, s
		}
		if id < len(p.Defs) {
			p.Defs[id].Failed = true
		} else {
			p.function(id).Failed = true
		}
	}
	names = append(names, names[0])
	chain := strings.Join(names, " → ")
	switch onlyFunctions := slices.Min(ids) >= len(p.Defs); {
	case onlyFunctions && len(ids) == 1:
		sheet.fail(*first, "a function cannot call itself: "+chain, "write its formula without it; "+quote("vary")+" works something for many values")
	case onlyFunctions:
		sheet.fail(*first, "functions call each other in a circle: "+chain, "write one of them without the others")
	default:
		sheet.fail(*first, "this goes round in a circle: "+chain, "define one of them without the others")
	}
}

func (p *Program) nodeName(id int) (string, message.Span, *Sheet) {
	if id < len(p.Defs) {
		d := p.Defs[id]
		return d.Name, d.Place, d.Sheet
	}
	f := p.function(id)
	return f.Stmt.Name.Name + "(…)", f.Stmt.Name.Span, f.Sheet
}

func (p *Program) function(id int) *Function {
	for _, s := range p.Sheets {
		for _, f := range s.Functions {
			if f.ID == id {
				return f
			}
		}
	}
	panic("check: no such function")
}

// check gives a definition its type and node, or says why it has none.
func (d *Def) check(p *Program) {
	if d.Failed {
		return
	}
	switch d.Role {
	case Data:
		readTable(d)
	case Offset:
		d.Type = number
	case Value:
		d.checkWorked(p)
	case Bound:
		d.checkLimit(d.Stmt.(*syntax.Limit))
	case Reading:
		d.checkMeasured(d.Stmt.(*syntax.Measured))
	case Budget:
		d.checkBudget(d.Stmt.(*syntax.Budget))
	case Chart:
		d.checkChart(d.Stmt.(*syntax.Chart))
	}
}

// finish tells the definition how its checking ended.
func (c *checker) finish() {
	switch {
	case c.failed:
		c.def.Failed = true
	case c.waits != "":
		c.def.Waits = c.waits
	}
}

// unused checks the functions that nobody calls, as far as their parameters
// say what they are.
func (p *Program) unused() {
	for _, s := range p.Sheets {
		for _, f := range s.functionsInOrder() {
			if len(f.checked) == 0 && !f.Failed {
				f.checkAlone()
			}
		}
	}
}

// digits sees that digits statements name something.
func (p *Program) digits() {
	for _, s := range p.Sheets {
		for _, n := range s.digitsNames {
			first, _, _ := strings.Cut(n.Name, ".")
			if s.Names[first] == nil && s.Uses[first] == nil && !s.unread(first) {
				c := &checker{def: &Def{Sheet: s}, sheet: s}
				c.fail(n.Span, "no quantity "+quote(first)+" here", c.nearest(first))
			}
		}
	}
}

// gather collects the problems of the main sheet, and of used ones at the use.
func (p *Program) gather() {
	p.Problems = p.Main.problems
	if p.Main.input.Tree == nil {
		return
	}
	for _, stmt := range p.Main.input.Tree.Statements {
		x, ok := stmt.(*syntax.Use)
		if !ok {
			continue
		}
		if used := p.Main.Uses[UseName(x)]; used != nil {
			p.tellUsed(x, used)
		}
	}
}

// tellUsed says at a use line that the used sheet has errors, the first of them.
func (p *Program) tellUsed(x *syntax.Use, used *Sheet) {
	for _, s := range reachable(used, map[*Sheet]bool{p.Main: true}) {
		if len(s.problems) == 0 {
			continue
		}
		first := s.problems[0]
		for _, d := range s.problems {
			if d.Span.Start < first.Span.Start {
				first = d
			}
		}
		p.Problems = append(p.Problems, message.Diagnostic{
			Span:    x.Path.Span,
			Summary: quote(x.Path.Value) + " has errors: " + first.Summary,
			Hint:    join("mend that worksheet first", first.Hint),
			Notes:   []message.Note{{Span: first.Span, Text: "the first is here"}},
		})
		return
	}
}

func reachable(s *Sheet, seen map[*Sheet]bool) []*Sheet {
	if seen[s] {
		return nil
	}
	seen[s] = true
	list := []*Sheet{s}
	for _, used := range s.Uses {
		list = append(list, reachable(used, seen)...)
	}
	return list
}
