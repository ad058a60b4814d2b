package study

import (
	"fmt"
	"hash/fnv"
	"math"
	"path"
	"strings"

	"inkwing/evaluate/numeric/interval"
	"inkwing/evaluate/program"
	"inkwing/evaluate/run"

	"gonum.org/v1/gonum/mat"
)

// seed of every run's draws: the same sheet comes to the same numbers.
const seed = 101

// drawn is what whole distributions came to.
type drawn struct {
	draws    int
	settled  bool
	sketches map[int]map[int]*interval.Sketch // by definition and leaf
}

// An output is one leaf that is drawn.
type output struct{ def, leaf int }

// Draw propagates whole distributions through the program, up to so many draws,
// fewer if two digits of everything settle before (JCGM 101:2008, 7.9). What Of
// tells from then on comes from them.
func (u *Uncertainty) Draw(m *run.Machine, wanted []int, draws int) error {
	if u == nil || len(u.Inputs) == 0 {
		return nil
	}
	sources, err := u.sources()
	if err != nil {
		return err
	}
	list := u.columns(m.Around(defs(u.Inputs), wanted, 0).Defs())
	outputs := outputsOf(list)
	if len(outputs) == 0 {
		return nil
	}
	if err := u.affordable(m, wanted, len(outputs), draws); err != nil {
		return err
	}
	workers := max(1, min(cores(), maxColumns/(len(u.Inputs)+len(outputs))))
	plan := interval.Plan{Sources: sources, Streams: u.streams(), Outputs: len(outputs), Tails: u.tails(outputs), Draws: draws, Seed: seed, Workers: workers}
	result, err := interval.Simulate(plan, u.model(m, wanted, list, plan.Workers))
	if err != nil {
		return err
	}
	u.keep(result, outputs)
	return nil
}

func (u *Uncertainty) keep(result *interval.Result, outputs []output) {
	u.drawn = &drawn{draws: result.Draws, settled: result.AllSettled(), sketches: map[int]map[int]*interval.Sketch{}}
	for i, o := range outputs {
		if u.drawn.sketches[o.def] == nil {
			u.drawn.sketches[o.def] = map[int]*interval.Sketch{}
		}
		u.drawn.sketches[o.def][o.leaf] = result.Outputs[i]
	}
}

// Draws is how many were made, and whether two digits of everything settled.
func (u *Uncertainty) Draws() (n int, settled bool) {
	if u == nil || u.drawn == nil {
		return 0, false
	}
	return u.drawn.draws, u.drawn.settled
}

// tails are those of outputs, by the fewest degrees of freedom of an input that bears on
// each.
func (u *Uncertainty) tails(outputs []output) []interval.Tails {
	list := make([]interval.Tails, len(outputs))
	for i, o := range outputs {
		fewest := math.Inf(1)
		for _, input := range u.bearing[o.def] {
			fewest = min(fewest, u.Inputs[input].group.degreesOfFreedom)
		}
		list[i] = interval.TailsOf(fewest)
	}
	return list
}

// sources are the distributions of the deviations.
func (u *Uncertainty) sources() ([]interval.Source, error) {
	var list []interval.Source
	for _, g := range u.groups {
		in := g.inputs[0]
		switch {
		case len(g.inputs) > 1:
			joint, err := interval.Joint(make([]float64, len(g.inputs)), g.steps(), g.degreesOfFreedom)
			if err != nil {
				return nil, err
			}
			list = append(list, joint)
		case in.Triangular:
			list = append(list, interval.Triangular(-in.edge(), in.edge()))
		case in.Rectangular:
			list = append(list, interval.Rectangular(-in.edge(), in.edge()))
		default:
			list = append(list, interval.Student(0, in.step, g.degreesOfFreedom))
		}
	}
	return list, nil
}

// streams are the numbers of the groups' random streams, by the names of their first
// inputs: what is drawn for an input depends neither on the others nor on where its
// line or its page stands. Two of one name, as two readings in one line, are told apart
// by their order.
func (u *Uncertainty) streams() []uint64 {
	seen := map[string]int{}
	list := make([]uint64, len(u.groups))
	for i, g := range u.groups {
		s := sourceOf(g.inputs[0].Def)
		page := ""
		if s.Owner.Sheet != u.main {
			page = path.Base(s.Owner.Sheet.Name)
		}
		owner, _, _ := strings.Cut(s.Owner.Name, "(") // it may be a part of its line
		name := strings.Join([]string{page, owner, s.Name}, "\x00")
		seen[name]++
		h := fnv.New64a()
		fmt.Fprint(h, name, "\x00", seen[name])
		list[i] = h.Sum64()
	}
	return list
}

// steps is the covariance of a group's deviations.
func (g *group) steps() mat.Symmetric {
	n := len(g.inputs)
	out := mat.NewSymDense(n, nil)
	for i, a := range g.inputs {
		for j := i; j < n; j++ {
			out.SetSym(i, j, g.correlation.At(i, j)*a.step*g.inputs[j].step)
		}
	}
	return out
}

// columns are the outputs of one definition: its leaves, side by side.
type columns struct {
	of     *program.Def
	leaves int
}

// columns are those of the definitions that are drawn.
func (u *Uncertainty) columns(works []*program.Def) []columns {
	var list []columns
	for _, d := range works {
		if n := len(u.nominal[d.ID]); n > 0 && isDrawn(d) {
			list = append(list, columns{d, n})
		}
	}
	return list
}

// outputs are the leaves that are shown as one number.
func outputsOf(list []columns) []output {
	var out []output
	for _, c := range list {
		for leaf := range c.leaves {
			out = append(out, output{c.of.ID, leaf})
		}
	}
	return out
}

// isDrawn reports whether what a definition comes to is drawn: not a list or a
// table, which are not shown as one number.
func isDrawn(d *program.Def) bool {
	if program.Is[*program.Chart](d) || program.Is[*program.Data](d) {
		return false
	}
	switch d.Type.(type) {
	case program.List, *program.Table:
		return false
	}
	return true
}

// model works a block of draws, each worker in a subgraph of its own.
func (u *Uncertainty) model(m *run.Machine, wanted []int, list []columns, workers int) interval.Model {
	drawers := make([]*drawer, workers)
	for i := range drawers {
		drawers[i] = &drawer{part: m.Around(defs(u.Inputs), wanted, 0), columns: list, values: make([]any, len(u.Inputs))}
		drawers[i].part.Unremembered()
	}
	return func(worker int, inputs, outputs [][]float64) error {
		return drawers[worker].block(inputs, outputs)
	}
}

// A drawer works draws one after another.
type drawer struct {
	part    *run.Subgraph
	columns []columns
	values  []any
	leaves  []float64
}

func (w *drawer) block(inputs, outputs [][]float64) error {
	for k := range inputs[0] {
		for i := range inputs {
			w.values[i] = inputs[i][k]
		}
		w.part.Afresh()
		w.part.Evaluate(w.values)
		if err := w.part.Stopped(); err != nil {
			return err
		}
		w.read(outputs, k)
	}
	return nil
}

// read puts draw k of every output in its column.
func (w *drawer) read(outputs [][]float64, k int) {
	at := 0
	for _, c := range w.columns {
		w.leaves = w.leaves[:0]
		if v := w.part.Value(c.of); v != nil {
			w.leaves = appendLeavesOf(w.leaves, c.of, v)
		}
		for i := range c.leaves {
			outputs[at+i][k] = math.NaN()
			if len(w.leaves) == c.leaves {
				outputs[at+i][k] = w.leaves[i]
			}
		}
		at += c.leaves
	}
}

// fromDraws is the spread of a leaf as it was drawn.
func (u *Uncertainty) fromDraws(d *program.Def, leaf int, s *Combined) {
	if u.drawn == nil || u.drawn.sketches[d.ID][leaf] == nil {
		return
	}
	sketch := u.drawn.sketches[d.ID][leaf]
	s.Misleads = ""
	if failed := sketch.Failed(); failed > 0 {
		s.Failed = float64(failed) / float64(failed+sketch.Count())
	}
	width := sketch.Uncertainty()
	if !(width > u.rounding(d, leaf)) {
		return
	}
	s.Drawn, s.U, s.Mean, s.Median = true, width, sketch.Estimate(), sketch.Tails() == interval.NoMean
	s.DegreesOfFreedom = math.Inf(1)
	s.Low, s.High = sketch.Shortest(interval.Level)
	s.Expanded = (s.High - s.Low) / 2
}
