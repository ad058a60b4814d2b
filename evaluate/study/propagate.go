package study

import (
	"math"
	"runtime"
	"slices"

	"inkwing/evaluate/numeric"
	"inkwing/evaluate/program"
	"inkwing/evaluate/run"
)

// The step of the central differences, as a part of U. Small enough that a
// sensitivity is one to the digits that JCGM 100 prints, large enough that the
// tolerance of a simulation does not show.
const stepPart = 1.0 / 16

// sweepRows bounds the rows of a sweep times the uncertain inputs of the sheet:
// each row is worked twice for each input to have an interval.
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
// (JCGM 100:2008, 5.1 and 5.2). The sensitivities are central differences over
// the part of the graph between an input and what depends on it, one-sided at
// the edge of a range; simulations of the library are in such a part like any
// other. A few workings with all inputs moved at once, each to the edge of its
// interval, tell where first order misleads. It returns nil if nothing is
// uncertain.
func Propagate(m *run.Machine, p *program.Program, wanted []int) *Uncertainty {
	groups, faults := inputs(m, p)
	if len(groups) == 0 && len(faults) == 0 {
		return nil
	}
	u := &Uncertainty{
		Faults: faults, groups: groups, main: p.Main,
		nominal: map[int][]float64{}, effect: map[int]map[int][]float64{}, bearing: map[int][]int{},
		misfit: map[int][]float64{}, edges: map[int]string{}, addends: map[int]float64{}, exact: map[int]bool{},
	}
	for _, g := range groups {
		g.first = len(u.Inputs)
		u.Inputs = append(u.Inputs, g.inputs...)
	}
	for _, in := range u.Inputs {
		in.Name = nameFrom(p.Main, in)
	}
	u.rows = sweepRows / max(1, len(u.Inputs))
	moves := make([]*move, len(u.Inputs))
	numeric.Parallel(cores(), len(moves), func(_, i int) { moves[i] = u.moveOne(m, u.Inputs[i], wanted) })
	for i, mv := range moves {
		u.take(m, i, mv)
	}
	u.joint(m, wanted)
	return u
}

// cores is how many goroutines are worth their while.
func cores() int { return runtime.GOMAXPROCS(0) }

// A move is what the definitions of a subgraph came to with inputs moved up and
// down; nil leaves where they could not be worked.
type move struct {
	works    []*program.Def
	up, down [][]float64
	steps    int
}

func (u *Uncertainty) moveOne(m *run.Machine, in *Input, wanted []int) *move {
	s := m.Around([]*program.Def{in.Def}, wanted, u.rows)
	h := in.step * stepPart
	return bothWays(s, []float64{h})
}

func bothWays(s *run.Subgraph, by []float64) *move {
	mv := &move{works: s.Defs()}
	mv.up = worked(s, mv.works, by, 1)
	mv.down = worked(s, mv.works, by, -1)
	mv.steps = s.Steps()
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
		if v := s.Value(d); v != nil {
			out[i] = leavesOf(d, v)
		}
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
		u.effect[d.ID][input] = effects(nominal, mv.up[k], mv.down[k])
		if in := u.Inputs[input]; deviationOf(d) == in.Def && len(nominal) == 1 {
			u.effect[d.ID][input] = []float64{in.U} // to the last digit
		}
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
func effects(nominal, up, down []float64) []float64 {
	out := make([]float64, len(nominal))
	for i, m := range nominal {
		a, b := at(up, i), at(down, i)
		switch {
		case !math.IsNaN(a) && !math.IsNaN(b):
			out[i] = (a - b) / (2 * stepPart)
		case !math.IsNaN(a):
			out[i] = (a - m) / stepPart
		case !math.IsNaN(b):
			out[i] = (m - b) / stepPart
		default:
			out[i] = math.NaN()
		}
	}
	return out
}
