package study

import (
	"cmp"
	"iter"
	"math"
	"slices"

	"inkwing/evaluate/numeric/interval"
	"inkwing/evaluate/program"
	"inkwing/evaluate/run"
)

// Uncertainty is how the uncertain inputs of a program bear on what it works.
type Uncertainty struct {
	Inputs []*Input
	// Faults are spreads that could not be worked, by the definition in which
	// they stand.
	Faults map[*program.Def]*run.Fault

	groups   []*group
	nominal  map[int][]float64         // leaves by definition, all inputs at their nominal
	effect   map[int]map[int][]float64 // by definition and input: how far each leaf moves for U
	bearing  map[int][]int             // the inputs of those, in order
	standard map[int][]float64         // by definition: standards
	misfit   map[int][]float64         // by definition: how far off first order the leaves are
	edges    map[int]string            // definitions that cannot be worked within the interval, and why
	lopsided map[int]bool              // definitions of which one side does not speak for the other
	rows     int                       // how long a sweep may be to have intervals
	moves    []*move                   // by input, while the effects are found
	tries    []try                     // those of all inputs at once
	// addends is how large the numbers are that a sum or difference is made of.
	addends map[int]float64
	exact   map[int]bool // definitions that no iteration stands before
	drawn   *drawn       // nil where nothing was drawn
	main    *program.Sheet
}

// A Combined is the combined uncertainty of one number (JCGM 100:2008, 5 and 6).
type Combined struct {
	U                float64 // combined standard uncertainty
	Expanded         float64 // at 95.45 %
	DegreesOfFreedom float64 // effective degrees of freedom, +Inf where every input's is
	// Drawn says that Low and High are the shortest interval that holds 95 % of
	// the draws, and Mean their mean; their median where Median says that they have none.
	// U is infinite where their distribution has no standard deviation.
	Drawn, Median   bool
	Mean, Low, High float64
	Failed          float64 // the part of the draws that cannot be worked
	Misleads        string  // why first order may mislead here; empty if it does not
}

// What part of a value a spread must be above to be more than rounding: where a
// function of the library iterates before it, and where there is plain arithmetic
// only. What is typed itself has the spread that is typed, however small.
const (
	negligible = 1e-8 // a limit of an arm is met to 1e-10, which a step to one side takes 64 times
	exactly    = 1e-13
)

// Of is the spread of one leaf of what a definition came to, as it was drawn
// where it was; the zero Combined if no uncertain input bears on it.
func (u *Uncertainty) Of(d *program.Def, leaf int) Combined {
	if !u.bears(d) {
		return Combined{}
	}
	s := u.FirstOrder(d, leaf)
	u.fromDraws(d, leaf, &s)
	return s
}

// bears reports whether an uncertain input stands before a definition.
func (u *Uncertainty) bears(d *program.Def) bool {
	return u != nil && (u.effect[d.ID] != nil || u.edges[d.ID] != "")
}

// FirstOrder is the spread by the sensitivities, whatever was drawn: what the
// parts of a budget add up to.
func (u *Uncertainty) FirstOrder(d *program.Def, leaf int) Combined {
	if !u.bears(d) {
		return Combined{}
	}
	parts := u.parts(d, leaf)
	s := Combined{}
	us, dof := make([]float64, len(parts)), make([]float64, len(parts))
	for i, p := range parts {
		us[i], dof[i] = p.U, p.DegreesOfFreedom
	}
	s.U = interval.Sum(us)
	s.DegreesOfFreedom = interval.DegreesOfFreedom(us, dof)
	s.Expanded = interval.Coverage(s.DegreesOfFreedom) * s.U
	s.Misleads = u.misleads(d, leaf, s, parts)
	if s.U <= u.rounding(d, leaf) {
		s.U, s.Expanded = 0, 0
	}
	return s
}

// Cell is the expanded uncertainty of a cell of a data table, 0 for none.
func (u *Uncertainty) Cell(rows *program.Rows, row, column int) float64 {
	if u == nil {
		return 0
	}
	for _, cell := range rows.Uncertain {
		if cell.Row != row || cell.Column != column {
			continue
		}
		for _, in := range u.Inputs {
			if in.Def == cell.Value.Deviation {
				return interval.Coverage(in.DegreesOfFreedom) * in.U
			}
		}
	}
	return 0
}

// Rows is how long a sweep may be to have intervals, and whether an uncertain
// input bears on this one at all.
func (u *Uncertainty) Rows(d *program.Def) (longest int, bears bool) {
	if u == nil {
		return 0, false
	}
	return u.rows, u.effect[d.ID] != nil
}

// lost is the part of what was added up or taken away below which a spread is
// what arithmetic left over: √(R² + X²) − Z of one triangle is nothing.
const lost = 1e-12

// rounding is the spread of a leaf up to which it is none.
func (u *Uncertainty) rounding(d *program.Def, leaf int) float64 {
	switch {
	case deviationOf(d) != nil:
		return 0
	case u.exact[d.ID]:
		return math.Max(exactly*u.size(d, leaf), lost*u.addends[d.ID])
	}
	return math.Max(negligible*u.size(d, leaf), lost*u.addends[d.ID])
}

// deviationOf is by what a definition that is typed with a spread lies off; nil for
// any other, and for a column.
func deviationOf(d *program.Def) *program.Def {
	x, ok := d.Node().(*program.Uncertain)
	if _, single := d.Type.(program.Quantity); !ok || !single {
		return nil
	}
	return x.Deviation
}

// isArithmetic reports whether an expression is worked without iterating, and without
// a function of many readings, in which large numbers may cancel unseen.
func isArithmetic(n program.Node) bool {
	switch x := n.(type) {
	case *program.Call:
		if x.Func.Topic != "plain" || slices.ContainsFunc(x.Args, isSeveral) {
			return false
		}
	case *program.Vary, *program.Solve, *program.Optimise:
		return false
	}
	return !slices.ContainsFunc(program.Children(n), func(n program.Node) bool { return !isArithmetic(n) })
}

// addends is the size of the largest number that a definition adds up or takes
// away.
func addends(m *run.Machine, n program.Node) float64 {
	op, ok := n.(*program.Op)
	if !ok || !slices.Contains([]string{"+", "-", "neg", "same"}, op.Name) {
		x, f := m.Node(n)
		if v, isNumber := x.(float64); f == nil && isNumber {
			return math.Abs(v)
		}
		return 0
	}
	size := 0.0
	for _, arg := range op.Args {
		size = math.Max(size, addends(m, arg))
	}
	return size
}

// size is what a spread is held against to be more than rounding: the leaf
// itself, or the largest of those that are compared.
func (u *Uncertainty) size(d *program.Def, leaf int) float64 {
	size := math.Abs(at(u.nominal[d.ID], leaf))
	if program.Is[*program.Limit](d) || program.Is[*program.Measurement](d) {
		for _, x := range u.nominal[d.ID] {
			size = math.Max(size, math.Abs(x))
		}
	}
	return size
}

func at(list []float64, i int) float64 {
	if i >= len(list) {
		return math.NaN()
	}
	return list[i]
}

// A Part is what one input, or one group of correlated ones, adds.
type Part struct {
	Effects          []Effect // one an input
	U                float64  // of them together
	DegreesOfFreedom float64
}

// An Effect is what an input adds by itself: its sensitivity times its standard
// uncertainty, signed.
type Effect struct {
	Input *Input
	U     float64
}

// before says which of two inputs stands first.
func (e Effect) before(other Effect) int { return cmp.Compare(e.Input.Def.ID, other.Input.Def.ID) }

// Parts are what each input adds to the uncertainty of a leaf, the largest
// first, else in the order of the sheets.
func (u *Uncertainty) Parts(d *program.Def, leaf int) []Part {
	if u == nil {
		return nil
	}
	parts := u.parts(d, leaf)
	for _, p := range parts {
		slices.SortFunc(p.Effects, Effect.before)
	}
	slices.SortStableFunc(parts, func(a, b Part) int {
		return cmp.Or(cmp.Compare(b.U, a.U), a.Effects[0].before(b.Effects[0]))
	})
	return parts
}

func (u *Uncertainty) parts(d *program.Def, leaf int) []Part {
	bears, n := u.effect[d.ID], len(u.bearing[d.ID])
	list, effects := make([]Part, 0, n), make([]Effect, 0, n)
	var moved []float64
	for g := range u.groupsOf(d) {
		moved = g.moved(u.effect[d.ID], leaf, moved)
		from := len(effects)
		for i, in := range g.inputs {
			if _, ok := bears[g.first+i]; ok {
				effects = append(effects, Effect{in, moved[i]})
			}
		}
		list = append(list, Part{effects[from:len(effects):len(effects)], interval.Combined(moved, g.correlation), g.degreesOfFreedom})
	}
	return list
}

// groupsOf gives each group of inputs that bears on a definition.
func (u *Uncertainty) groupsOf(d *program.Def) iter.Seq[*group] {
	return func(see func(*group) bool) {
		var last *group
		for _, i := range u.bearing[d.ID] {
			if g := u.Inputs[i].group; g != last {
				if last = g; !see(g) {
					return
				}
			}
		}
	}
}

// moved is how far each input of a group moves a leaf, in the room given.
func (g *group) moved(effects map[int][]float64, leaf int, room []float64) []float64 {
	room = room[:0]
	for i := range g.inputs {
		room = append(room, zeroed(at(effects[g.first+i], leaf)))
	}
	return room
}

// standards are the U of FirstOrder alone, by leaf, until an effect is another.
func (u *Uncertainty) standards(d *program.Def) []float64 {
	if list := u.standard[d.ID]; list != nil {
		return list
	}
	sums := make([]float64, len(u.nominal[d.ID]))
	var moved []float64
	for g := range u.groupsOf(d) {
		for leaf := range sums {
			moved = g.moved(u.effect[d.ID], leaf, moved)
			sums[leaf] = math.Hypot(sums[leaf], interval.Combined(moved, g.correlation))
		}
	}
	for leaf := range sums {
		if sums[leaf] <= u.rounding(d, leaf) {
			sums[leaf] = 0
		}
	}
	u.standard[d.ID] = sums
	return sums
}

// isSeveral reports whether an argument is given and is no single number.
func isSeveral(n program.Node) bool {
	if n == nil {
		return false
	}
	_, single := n.Type().(program.Quantity)
	return !single
}
