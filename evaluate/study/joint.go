package study

import (
	"math"

	"inkwing/evaluate/numeric"
	"inkwing/evaluate/program"
	"inkwing/evaluate/run"
)

// corners is how many pairs of workings try all inputs at once, and how many of them
// before it is known where more are worth their while.
const corners, firstCorners = 4, 2

// joint moves all inputs at once to the edges of their intervals, in a few
// patterns of signs, each with its mirror image. The mean of such a pair stands
// off the nominal by what bends, has a kink, or acts together; half its
// difference stands off the sum of the effects by the rest. What goes straight by
// far in the first patterns is not worked in the others, and what does not on either side of
// the nominal is worked there.
func (u *Uncertainty) joint(m *run.Machine, wanted []int) {
	if len(u.Inputs) == 0 {
		return
	}
	patterns := min(corners, 1<<min(len(u.Inputs)-1, 10))
	works := u.tried(m, wanted, 0, min(firstCorners, patterns))
	u.bothSides(m)
	if unclear := u.unclear(works); patterns > firstCorners && len(unclear) > 0 {
		u.tried(m, unclear, firstCorners, patterns)
		u.bothSides(m)
	}
	u.findEdges(m, wanted)
}

// A try is a pair of workings with all inputs moved at once.
type try struct {
	*move
	deviations []float64
}

// tried works some of the patterns and judges what comes of them.
func (u *Uncertainty) tried(m *run.Machine, wanted []int, from, to int) []*program.Def {
	tries := make([]try, to-from)
	numeric.Parallel(cores(), to-from, func(_, k int) {
		by := u.corner(from + k)
		tries[k] = try{bothWays(m.Around(defs(u.Inputs), wanted, u.rows), by), by}
	})
	for _, t := range tries {
		for i, d := range t.works {
			u.judge(m, d, t, i)
		}
	}
	u.tries = append(u.tries, tries...)
	return tries[0].works
}

// bothSides works on both sides what one side does not speak for, and judges that anew.
func (u *Uncertainty) bothSides(m *run.Machine) {
	if len(u.lopsided) == 0 {
		return
	}
	numeric.Parallel(cores(), len(u.moves), func(_, i int) {
		var ids []int
		for k, d := range u.moves[i].works {
			if u.lopsided[d.ID] && u.moves[i].down[k] == nil {
				ids = append(ids, d.ID)
			}
		}
		if len(ids) > 0 {
			u.moves[i].work(m.Around(defs(u.Inputs[i:i+1]), ids, u.rows), u.Inputs[i], ids, -sidedPart)
		}
	})
	for i, mv := range u.moves {
		for k, d := range mv.works {
			if u.lopsided[d.ID] && u.effect[d.ID] != nil {
				u.settle(i, k)
			}
		}
	}
	for id := range u.lopsided {
		clear(u.misfit[id])
	}
	for _, t := range u.tries {
		for i, d := range t.works {
			if u.lopsided[d.ID] {
				u.judge(m, d, t, i)
			}
		}
	}
}

// unclear are the definitions of which the first patterns do not say by far that they go
// straight: none of their numbers is off by a tenth of its interval.
func (u *Uncertainty) unclear(works []*program.Def) (list []int) {
	const clear = 0.4
	for _, d := range works {
		straight := u.edges[d.ID] == ""
		standards := u.standards(d)
		for leaf, misfit := range u.misfit[d.ID] {
			straight = straight && !(misfit > clear*bent*typed*standards[leaf] && misfit > u.rounding(d, leaf))
		}
		if !straight {
			list = append(list, d.ID)
		}
	}
	return list
}

func defs(list []*Input) []*program.Def {
	out := make([]*program.Def, len(list))
	for i, in := range list {
		out[i] = in.Def
	}
	return out
}

// corner is how far each input is moved in the k-th pattern. Correlated inputs
// move together as far as they are.
func (u *Uncertainty) corner(k int) []float64 {
	var out []float64
	for n, g := range u.groups {
		lead := k % len(g.inputs)
		for i, in := range g.inputs {
			out = append(out, sign(n, k)*g.correlation.At(lead, i)*in.edge())
		}
	}
	return out
}

// sign is a row of a two-level design: pattern 0 moves all inputs up, the others
// halve them in different ways.
func sign(input, pattern int) float64 {
	bits := []int{0, 1, 2, 3}[pattern%4]
	x := input + 1
	parity := 0
	if bits&1 != 0 {
		parity += x
	}
	if bits&2 != 0 {
		parity += x >> 1
	}
	if parity%2 != 0 {
		return -1
	}
	return 1
}

// edge is where the interval of an input ends, as a deviation.
func (in *Input) edge() float64 {
	switch {
	case in.Rectangular:
		return in.step * sqrt3
	case in.Triangular:
		return in.step * sqrt6
	}
	return in.step * typed
}

// Where the halves of a pair of corners differ by more than this part of the expanded
// uncertainty from what one side says, that is no sensitivity: the other is worked too.
// What only bends, by its square, does so alike on both sides; a kink at the nominal does not.
const onesided = 1.0 / 64

// judge holds one pair of corners against first order.
func (u *Uncertainty) judge(m *run.Machine, d *program.Def, t try, k int) {
	nominal, up, down := u.at(m, d), t.up[k], t.down[k]
	if len(nominal) == 0 {
		return // a truth or a text
	}
	if up == nil || down == nil {
		u.edges[d.ID] = "?" // named by findEdges
		u.lopsided[d.ID] = true
		return
	}
	if u.misfit[d.ID] == nil {
		u.misfit[d.ID] = make([]float64, len(nominal))
	}
	linear, standards := u.linear(d, t.deviations, len(nominal)), u.standards(d)
	for leaf, y := range nominal {
		a, b := at(up, leaf), at(down, leaf)
		even := math.Abs((a+b)/2 - y)
		odd := math.Abs((a-b)/2 - linear[leaf])
		u.misfit[d.ID][leaf] = math.Max(u.misfit[d.ID][leaf], math.Max(even, odd))
		if whole := typed * standards[leaf]; (odd > onesided*whole || even > bent*whole) && max(odd, even) > u.rounding(d, leaf) {
			u.lopsided[d.ID] = true
		}
	}
}

// linear is how far all inputs together move the leaves of a definition by first order.
func (u *Uncertainty) linear(d *program.Def, deviations []float64, leaves int) []float64 {
	sums, effects := make([]float64, leaves), u.effect[d.ID]
	for _, i := range u.bearing[d.ID] {
		if u.Inputs[i].step <= 0 {
			continue
		}
		moved := effects[i]
		for leaf := range sums {
			sums[leaf] += zeroed(at(moved, leaf)) * deviations[i] / u.Inputs[i].step
		}
	}
	return sums
}

// findEdges names the input whose interval leads beyond what a definition can be
// worked with.
func (u *Uncertainty) findEdges(m *run.Machine, wanted []int) {
	if len(u.edges) == 0 {
		return
	}
	found := make([]*move, len(u.Inputs))
	numeric.Parallel(cores(), len(found), func(_, i int) {
		in := u.Inputs[i]
		found[i] = bothWays(m.Around([]*program.Def{in.Def}, wanted, u.rows), []float64{in.edge()})
	})
	for i, mv := range found {
		for k, d := range mv.works {
			if mv.up[k] != nil && mv.down[k] != nil || len(u.at(m, d)) == 0 {
				continue
			}
			if name := u.edges[d.ID]; name == "?" || name == "" {
				u.edges[d.ID] = u.Inputs[i].Name
			}
		}
	}
}

// bent is how far off first order may be, as a part of the expanded uncertainty,
// before it is said. At the edge of the interval a quarter is a twentieth of U on
// the mean.
const bent = 0.25

// misleads says why first order may mislead, empty if it does not.
func (u *Uncertainty) misleads(d *program.Def, leaf int, s Combined, parts []Part) string {
	if edge := u.edgeOf(d); edge != "" {
		return edge
	}
	misfit := zeroed(at(u.misfit[d.ID], leaf))
	if misfit > bent*typed*s.U && misfit > u.rounding(d, leaf) {
		return "its inputs act out of proportion"
	}
	for _, p := range parts {
		in := p.Effects[0].Input
		if len(p.Effects) == 1 && in.Rectangular && s.U > 0 && p.U*p.U > mostly*s.U*s.U {
			return "most of it is the hard limits of `" + in.Name + "`, which no bell curve describes"
		}
	}
	return ""
}

// edgeOf says whose interval leads beyond what can be worked, empty for none.
func (u *Uncertainty) edgeOf(d *program.Def) string {
	switch edge := u.edges[d.ID]; edge {
	case "":
		return ""
	case "?":
		return "it cannot be worked over the whole interval of its inputs"
	default:
		return "it cannot be worked over the whole interval of `" + edge + "`"
	}
}

// mostly is the share of the variance from which one rectangular input decides
// the shape of the whole.
const mostly = 0.8

func zeroed(x float64) float64 {
	if math.IsNaN(x) {
		return 0
	}
	return x
}
