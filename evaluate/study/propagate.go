package study

import (
	"math"
	"runtime"
	"slices"

	"inkwing/evaluate/numeric"
	"inkwing/evaluate/program"
	"inkwing/evaluate/run"
)

// The steps of the differences, as parts of U: small enough that a sensitivity is one to
// the digits that JCGM 100 prints, large enough that the tolerance of a simulation does not
// show. From one side what bends so far that the ends of an interval lie off by a tenth of it
// is off by a part in a thousand.
const (
	stepPart  = 1.0 / 16 // to either side
	sidedPart = 1.0 / 64 // to one side
)

// sweepRows bounds the rows of a sweep times the uncertain inputs of the sheet:
// each row is worked once or twice for each input to have an interval.
const sweepRows = 500

// nameFrom is an input's name as a sheet would write it: parts.glue for one of a
// used sheet. What is no name stays as it is written there.
func nameFrom(main *program.Sheet, in *Input) string {
	if in.Def.Sheet == main || sourceOf(in.Def).Words {
		return in.Name
	}
	if under, ok := main.Under(in.Def.Sheet); ok {
		return under + "." + in.Name
	}
	return in.Name
}

// Propagate carries the uncertain inputs of a worked program through to the
// definitions wanted, to first order: u² = Σ (∂y/∂xᵢ)²·u²(xᵢ), with covariances
// (JCGM 100:2008, 5.1 and 5.2). The sensitivities are differences over
// the part of the graph between an input and what depends on it; simulations of the
// library are in such a part like any other. They are central, but for two cases: at the edge
// of a range, and behind a simulation, where most of the time goes. A few workings with
// all inputs moved at once, each to the edge of its interval, tell where first order
// misleads, and where one side does not speak for the other: those are worked on both.
// It returns nil if nothing is uncertain.
func Propagate(m *run.Machine, p *program.Program, wanted []int) *Uncertainty {
	groups, faults := inputs(m, p)
	if len(groups) == 0 && len(faults) == 0 {
		return nil
	}
	u := &Uncertainty{
		Faults: faults, groups: groups, main: p.Main,
		nominal: map[int][]float64{}, effect: map[int]map[int][]float64{}, bearing: map[int][]int{},
		standard: map[int][]float64{}, misfit: map[int][]float64{}, lopsided: map[int]bool{}, edges: map[int]string{}, addends: map[int]float64{}, exact: map[int]bool{},
	}
	for _, g := range groups {
		g.first = len(u.Inputs)
		u.Inputs = append(u.Inputs, g.inputs...)
	}
	for _, in := range u.Inputs {
		in.Name = nameFrom(p.Main, in)
	}
	u.rows = sweepRows / max(1, len(u.Inputs))
	u.moves = make([]*move, len(u.Inputs))
	numeric.Parallel(cores(), len(u.moves), func(_, i int) { u.moves[i] = u.moveOne(m, u.Inputs[i], wanted) })
	for i, mv := range u.moves {
		u.take(m, i, mv)
	}
	u.joint(m, wanted)
	u.moves, u.tries = nil, nil
	return u
}

// cores is how many goroutines are worth their while.
func cores() int { return runtime.GOMAXPROCS(0) }

// A move is what the definitions of a subgraph came to with an input moved up and
// down; nil leaves where they could not be worked, or were not.
type move struct {
	works    []*program.Def
	parts    []float64 // the steps
	up, down [][]float64
}

// moveOne moves an input up, and down too what takes no simulation, or was not to be
// had above.
func (u *Uncertainty) moveOne(m *run.Machine, in *Input, wanted []int) *move {
	s := m.Around([]*program.Def{in.Def}, wanted, u.rows)
	works := s.Defs()
	n := len(works)
	mv := &move{works: works, parts: make([]float64, n), up: make([][]float64, n), down: make([][]float64, n)}
	var quick, long, missed []int
	behind := behindSimulations(works)
	for k, d := range works {
		if mv.parts[k] = stepPart; behind[d.ID] {
			mv.parts[k] = sidedPart
			long = append(long, d.ID)
		} else {
			quick = append(quick, d.ID)
		}
	}
	mv.work(s, in, quick, stepPart)
	mv.work(s, in, quick, -stepPart)
	mv.work(s, in, long, sidedPart)
	for k, d := range works {
		if behind[d.ID] && lacks(mv.up[k], d, m.Value(d)) {
			missed = append(missed, d.ID)
		}
	}
	mv.work(s, in, missed, -sidedPart)
	return mv
}

// work moves an input by a step, for some of the definitions of its subgraph, in their order.
func (mv *move) work(s *run.Subgraph, in *Input, ids []int, part float64) {
	if len(ids) == 0 {
		return
	}
	s = s.For(ids)
	s.Evaluate([]any{part * in.step})
	into := mv.up
	if part < 0 {
		into = mv.down
	}
	for k, d := range mv.works { // in the order of which the others are
		if len(ids) > 0 && ids[0] == d.ID {
			into[k], ids = cameTo(s, d), ids[1:]
		}
	}
}

// behindSimulations are those of some definitions, in order, before which a function of the
// library stands that may take long.
func behindSimulations(works []*program.Def) map[int]bool {
	list := map[int]bool{}
	for _, d := range works {
		if slices.ContainsFunc(d.Dependencies, func(id int) bool { return list[id] }) ||
			slices.ContainsFunc(d.Body.Operands(), func(n program.Node) bool { return n != nil && simulates(n) }) {
			list[d.ID] = true
		}
	}
	return list
}

func simulates(n program.Node) bool {
	if x, ok := n.(*program.Call); ok && x.Func.Iterates {
		return true
	}
	return slices.ContainsFunc(program.Children(n), simulates)
}

// lacks reports whether a number of a value is not among the leaves that it came to
// elsewhere.
func lacks(leaves []float64, d *program.Def, nominal any) bool {
	if nominal == nil {
		return false
	}
	for i, x := range leavesOf(d, nominal) {
		if !math.IsNaN(x) && math.IsNaN(at(leaves, i)) {
			return true
		}
	}
	return false
}

// cameTo is the leaves of a definition in a subgraph.
func cameTo(s *run.Subgraph, d *program.Def) []float64 {
	if v := s.Value(d); v != nil {
		return leavesOf(d, v)
	}
	return nil
}

func bothWays(s *run.Subgraph, by []float64) *move {
	mv := &move{works: s.Defs()}
	mv.up = worked(s, mv.works, by, 1)
	mv.down = worked(s, mv.works, by, -1)
	return mv
}

func worked(s *run.Subgraph, works []*program.Def, by []float64, sign float64) [][]float64 {
	values := make([]any, len(by))
	for i := range by {
		values[i] = sign * by[i]
	}
	s.Evaluate(values)
	out := make([][]float64, len(works))
	for i, d := range works {
		out[i] = cameTo(s, d)
	}
	return out
}

// take reads the sensitivities to one input off a move.
func (u *Uncertainty) take(m *run.Machine, input int, mv *move) {
	rough := map[int]bool{}
	for k, d := range mv.works {
		u.judgeExact(d, rough)
		nominal := u.at(m, d)
		if nominal == nil {
			continue
		}
		if u.effect[d.ID] == nil {
			u.effect[d.ID] = map[int][]float64{}
			if op, ok := d.Node().(*program.Op); ok {
				u.addends[d.ID] = addends(m, op)
			}
		}
		u.bearing[d.ID] = append(u.bearing[d.ID], input)
		u.settle(input, k)
	}
}

// settle is the effects of an input on one of the definitions that it moves.
func (u *Uncertainty) settle(input, k int) {
	in, mv := u.Inputs[input], u.moves[input]
	d := mv.works[k]
	nominal := u.nominal[d.ID]
	delete(u.standard, d.ID)
	u.effect[d.ID][input] = effects(nominal, mv.up[k], mv.down[k], mv.parts[k])
	if deviationOf(d) == in.Def && len(nominal) == 1 {
		u.effect[d.ID][input] = []float64{in.U} // to the last digit
	}
}

// judgeExact notes whether a definition is worked from an input by arithmetic only;
// rough are those before it that are not.
func (u *Uncertainty) judgeExact(d *program.Def, rough map[int]bool) {
	iterates := slices.ContainsFunc(d.Dependencies, func(id int) bool { return rough[id] }) ||
		slices.ContainsFunc(d.Body.Operands(), func(n program.Node) bool { return n != nil && !isArithmetic(n) })
	if rough[d.ID] = iterates; iterates {
		u.exact[d.ID] = false
	} else if _, known := u.exact[d.ID]; !known {
		u.exact[d.ID] = true
	}
}

// at is the leaves of a definition with every input at its nominal.
func (u *Uncertainty) at(m *run.Machine, d *program.Def) []float64 {
	if list, ok := u.nominal[d.ID]; ok {
		return list
	}
	var list []float64
	if v := m.Value(d); v != nil {
		list = leavesOf(d, v)
	}
	u.nominal[d.ID] = list
	return list
}

// effects is how far each leaf moves for one standard uncertainty.
func effects(nominal, up, down []float64, part float64) []float64 {
	out := make([]float64, len(nominal))
	for i, m := range nominal {
		a, b := at(up, i), at(down, i)
		switch {
		case !math.IsNaN(a) && !math.IsNaN(b):
			out[i] = (a - b) / (2 * part)
		case !math.IsNaN(a):
			out[i] = (a - m) / part
		case !math.IsNaN(b):
			out[i] = (m - b) / part
		default:
			out[i] = math.NaN()
		}
	}
	return out
}
