package study

import (
	"cmp"
	"math"
	"slices"

	"inkwing/evaluate/numeric/interval"
	"inkwing/evaluate/program"
	"inkwing/evaluate/run"
	"inkwing/units"

	"gonum.org/v1/gonum/mat"
)

// An Input is one uncertain input of a sheet. Its numbers are in coherent SI.
type Input struct {
	Name             string
	Def              *program.Def // the deviation by which it lies off its nominal
	Type             program.Quantity
	Unit             units.Unit // that it is written in; the zero unit where none is
	Nominal          float64    // NaN for a column, which has many
	U                float64    // standard uncertainty
	DegreesOfFreedom float64    // degrees of freedom, +Inf for what is typed
	Rectangular      bool       // hard limits at √3·U to either side
	Triangular       bool       // hard limits at √6·U to either side

	step  float64 // the deviation that stands for U: a part of the value where Relative
	group *group
}

// A group is inputs that share their degrees of freedom and are correlated.
type group struct {
	inputs           []*Input
	first            int // of them among all
	correlation      mat.Symmetric
	degreesOfFreedom float64
	readings         [][]float64 // of each input, for means
	table            string      // what the means are of; empty for readings of their own
}

// limits of a rectangular distribution stand √3 standard uncertainties off its
// nominal (JCGM 100:2008, 4.3.7), those of a triangular one √6 (4.3.9).
var sqrt3, sqrt6 = math.Sqrt(3), math.Sqrt(6)

// typed is how many standard uncertainties a typed ± stands for.
const typed = 2

// covers is how many standard uncertainties the spread of a source stands for.
func covers(s *program.Source) float64 {
	switch {
	case s.Triangular:
		return sqrt6
	case s.Rectangular:
		return sqrt3
	case s.Factor > 0:
		return s.Factor
	case s.Level > 0:
		return interval.CoverageAt(s.Level, s.DegreesOfFreedom)
	}
	return interval.Coverage(s.DegreesOfFreedom)
}

// deviations are the definitions by which inputs lie off their nominal, by name
// within each file: what is drawn for an input is not to depend on where its
// line stands.
func deviations(p *program.Program) []*program.Def {
	var list []*program.Def
	for _, d := range p.Defs {
		if b, ok := d.Body.(*program.Deviation); ok && b.Source != nil {
			list = append(list, d)
		}
	}
	slices.SortStableFunc(list, func(a, b *program.Def) int {
		return cmp.Or(cmp.Compare(a.Sheet.Name, b.Sheet.Name), cmp.Compare(sourceOf(a).Name, sourceOf(b).Name),
			cmp.Compare(sourceOf(a).Owner.Name, sourceOf(b).Owner.Name))
	})
	return list
}

// sourceOf is what is known of a deviation.
func sourceOf(d *program.Def) *program.Source { return d.Body.(*program.Deviation).Source }

// inputs are those of a worked program, in groups. A spread that cannot be worked
// is told as a fault of the definition in which it stands.
func inputs(m *run.Machine, p *program.Program) ([]*group, map[*program.Def]*run.Fault) {
	var groups []*group
	faults := map[*program.Def]*run.Fault{}
	carried := map[*program.UncertainCall]*group{}
	for _, d := range deviations(p) {
		owner := sourceOf(d).Owner
		if m.Value(owner) == nil {
			continue
		}
		g, f := groupOf(m, d, carried)
		if f != nil {
			faults[owner] = f
		}
		if g != nil {
			groups = append(groups, g)
		}
	}
	return together(joined(groups), p.Correlations), faults
}

// groupOf is the group that a deviation opens; nil if it belongs to one already,
// or has no spread.
func groupOf(m *run.Machine, d *program.Def, carried map[*program.UncertainCall]*group) (*group, *run.Fault) {
	if sourceOf(d).Call != nil {
		return carriedGroup(m, d, carried)
	}
	in, f := single(m, d)
	if f != nil || in.U == 0 && in.step == 0 {
		return nil, f
	}
	return alone(in), nil
}

func alone(in *Input) *group {
	in.group = &group{inputs: []*Input{in}, correlation: mat.NewSymDense(1, []float64{1}), degreesOfFreedom: in.DegreesOfFreedom}
	return in.group
}

// single is value ± spread or value within bound.
func single(m *run.Machine, d *program.Def) (*Input, *run.Fault) {
	source := sourceOf(d)
	value, f := m.Node(source.Value)
	if f != nil {
		return nil, f
	}
	spread, f := m.Node(source.Spread)
	if f != nil {
		return nil, f
	}
	half := spread.(float64)
	if !(half >= 0) || math.IsInf(half, 1) {
		return nil, run.Fail(source.Spread.Place(), "a spread is never below zero", "write how far the value may be off to either side")
	}
	in := &Input{Name: source.Name, Unit: source.Unit, Def: d, DegreesOfFreedom: source.DegreesOfFreedom, Nominal: math.NaN(),
		Rectangular: source.Rectangular && !source.Triangular, Triangular: source.Triangular}
	elem, _ := program.Element(source.Value.Type())
	in.Type, _ = elem.(program.Quantity)
	in.step = half / covers(source)
	in.U = in.step
	x, one := value.(float64)
	switch {
	case one && source.Relative:
		in.Nominal, in.U = x, in.step*math.Abs(x)
	case one:
		in.Nominal = x
	case source.Relative: // of every reading of a column
		in.Unit = units.MustParse("%")
		in.Type = program.Quantity{Kind: in.Unit.Kind}
	}
	return in, nil
}
