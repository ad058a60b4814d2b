package check

import (
	"fmt"
	"slices"
	"strings"

	"inkwing/evaluate/graph"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

// order builds the graph and fails its cycles. Functions are numbered behind all
// other definitions.
func (a *analysis) order() {
	for _, s := range a.Sheets {
		for _, f := range a.sheets[s].functions {
			f.ID = len(a.Defs)
			a.Defs = append(a.Defs, f)
		}
	}
	needs := make([][]int, len(a.Defs))
	for _, d := range a.Defs {
		if a.over() {
			break
		}
		needs[d.ID] = a.references(d)
		a.boundCells(d, needs[d.ID])
	}
	a.Graph = graph.New(a.studies(needs))
	for _, d := range a.Defs {
		if a.over() {
			break
		}
		if !a.isFunction(d.ID) { // its calls have what it needs
			d.Dependencies = a.dependencies(d, needs)
		}
	}
	for _, cycle := range a.Graph.Cycles() {
		a.cycle(cycle)
	}
}

// maxLooked bounds the cells that are worked, or changed by a what-if, in all lines that
// look at them: a column is as many as it has rows.
const maxLooked = 2_000_000

// boundCells says once that the lines look at more cells than can be followed. Those that
// stand behind that are not worked either.
func (a *analysis) boundCells(d *program.Def, needs []int) {
	before := a.looked
	for _, id := range needs {
		if program.Is[*program.Cell](a.Defs[id]) {
			a.looked++
		}
	}
	if a.looked <= maxLooked {
		return
	}
	if before <= maxLooked {
		a.fail(d, d.Place, "the lines look at cells that are worked or changed more than 2,000,000 times", "give what is worked from a column of them a name, and use that")
	}
	d.Failed = true
}

// isFunction reports whether a number is that of a function.
func (a *analysis) isFunction(id int) bool {
	_, ok := a.Defs[id].Body.(*program.Function)
	return ok
}

// cycle says once, at the first of them in the file, who waits for whom.
func (a *analysis) cycle(ids []int) {
	var names []string
	onlyFunctions := true
	for _, id := range ids {
		d := a.Defs[id]
		d.Failed = true
		name := d.Name
		if a.isFunction(id) {
			name += "(…)"
		} else {
			onlyFunctions = false
		}
		names = append(names, name)
	}
	names = append(names, names[0])
	chain := strings.Join(names, " → ")
	first := a.Defs[ids[0]]
	switch s := a.of(first); {
	case onlyFunctions && len(ids) == 1:
		s.fail(first.Place, "a function cannot call itself: "+chain, "write its formula without it; "+message.Quote("vary")+" works something for many values")
	case onlyFunctions:
		s.fail(first.Place, "functions call each other in a circle: "+chain, "write one of them without the others")
	default:
		s.fail(first.Place, "this goes round in a circle: "+chain, "define one of them without the others")
	}
}

// studies finds out what the variables of each study touch, and gives it the
// limits among that. What is returned orders the limits before their studies;
// a limit that a study cannot be evaluated without is left out.
func (a *analysis) studies(needs [][]int) [][]int {
	wide := slices.Clone(needs)
	t := toucher{analysis: a, users: graph.New(needs), same: map[string]map[int]bool{}}
	limits := slices.DeleteFunc(slices.Clone(a.Defs), func(d *program.Def) bool { return !program.Is[*program.Limit](d) })
	var list []*program.Def
	for _, d := range a.Defs {
		study, ok := d.Body.(*program.Study)
		if !ok || a.over() {
			continue
		}
		list = append(list, d)
		study.Touched = t.touched(d)
		if a.pairs <= maxPairs {
			study.Limits = touchedLimits(d, study.Touched, limits, t.users)
		}
		a.boundPairs(d, len(study.Limits))
		wide[d.ID] = withLimits(needs[d.ID], study)
	}
	ordered := slices.Clone(needs)
	widened := graph.New(wide)
	for _, d := range list {
		if a.over() {
			break
		}
		study := d.Body.(*program.Study)
		study.Limits = notAbove(d, study.Limits, widened)
		ordered[d.ID] = withLimits(needs[d.ID], study)
	}
	return ordered
}

// maxPairs bounds the what-ifs of a sheet times the limits that each of them touches.
const maxPairs = 300_000

// boundPairs says once that the what-ifs touch more limits than can be held against
// them. Those that stand behind that are not worked either.
func (a *analysis) boundPairs(d *program.Def, limits int) {
	before := a.pairs
	if a.pairs += limits; a.pairs <= maxPairs {
		return
	}
	if before <= maxPairs {
		a.fail(d, d.Place, "the what-ifs touch more than 300,000 limits, each counted anew", "split the worksheet, so that fewer what-ifs stand beside the limits")
	}
	d.Failed = true
	d.Body.(*program.Study).Limits = nil
}

// withLimits are the needs of a study and its limits.
func withLimits(needs []int, s *program.Study) []int {
	list := slices.Clone(needs)
	for _, l := range s.Limits {
		list = append(list, l.ID)
	}
	return list
}

// A toucher finds what studies touch. Those of the same variables share it.
type toucher struct {
	*analysis
	users *graph.Graph
	same  map[string]map[int]bool
}

// touched are a study's variables and all that depends on them.
func (t *toucher) touched(d *program.Def) map[int]bool {
	f := finder{sheet: t.of(d), seen: map[int]bool{}}
	for _, s := range syntax.Sweeps(syntax.StudyOf(d.Stmt)) {
		f.expr(s.Of)
	}
	slices.Sort(f.found)
	key := fmt.Sprint(f.found)
	if _, known := t.same[key]; !known {
		t.same[key] = t.users.Above(f.found)
	}
	return t.same[key]
}

// touchedLimits are the limits, of used sheets too, that a study's variables touch
// and that do not need its answer.
func touchedLimits(d *program.Def, touched map[int]bool, limits []*program.Def, users *graph.Graph) []*program.Def {
	var list []*program.Def
	for _, l := range limits {
		if touched[l.ID] {
			list = append(list, l)
		}
	}
	return notAbove(d, list, users)
}

// notAbove are the limits that do not need a study, by way of others too.
func notAbove(d *program.Def, limits []*program.Def, users *graph.Graph) []*program.Def {
	if len(limits) == 0 {
		return limits
	}
	above := users.Above([]int{d.ID})
	return slices.DeleteFunc(limits, func(l *program.Def) bool { return above[l.ID] })
}

// dependencies are the definitions that must be evaluated before one is. A study
// evaluates what its variables touch by itself, at values where that may go
// better than at today's: it only waits for the rest.
func (a *analysis) dependencies(d *program.Def, needs [][]int) []int {
	study, ok := d.Body.(*program.Study)
	if !ok {
		return a.through(needs, d.ID, nil)
	}
	f := finder{sheet: a.of(d), seen: map[int]bool{}}
	for _, s := range syntax.Sweeps(syntax.StudyOf(d.Stmt)) {
		for _, x := range []syntax.Expr{s.Of, s.From, s.To, s.By, s.In} {
			if x != nil {
				f.expr(x)
			}
		}
	}
	own := slices.DeleteFunc(f.found, a.isFunction)
	return slices.Compact(append(own, a.through(needs, d.ID, study.Touched)...))
}

// through lists the definitions that one needs, by way of functions and of what
// is passed over too. It follows no more functions than a statement may hold: one that
// calls more of them is not evaluated.
func (a *analysis) through(needs [][]int, id int, over map[int]bool) []int {
	var list []int
	seen := map[int]bool{}
	queue, functions := slices.Clone(needs[id]), 0
	for len(queue) > 0 {
		v := queue[0]
		queue = queue[1:]
		if seen[v] {
			continue
		}
		seen[v] = true
		switch isFunction := a.isFunction(v); {
		case isFunction && functions < MaxExpression:
			functions++
			queue = append(queue, needs[v]...)
		case over[v]:
			queue = append(queue, needs[v]...)
		case !isFunction:
			list = append(list, v)
		}
	}
	return list
}
