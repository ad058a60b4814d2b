package study

import (
	"fmt"
	"math"
	"slices"

	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/program"
	"inkwing/evaluate/run"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// carriedGroup is the fields of an answer that knows its spread; nil where they
// have none.
func carriedGroup(m *run.Machine, d *program.Def, carried map[*program.UncertainCall]*group) (*group, *run.Fault) {
	source := sourceOf(d)
	carry := source.Call
	g, known := carried[carry]
	var f *run.Fault
	if !known {
		if g, f = carriedSpread(m, carry); g != nil {
			g.table = tablesOf(carry)
		}
		carried[carry] = g
	}
	if g == nil || source.Field >= len(g.inputs) {
		return nil, f
	}
	in := g.inputs[source.Field]
	in.Name, in.Unit, in.Def = source.Name, source.Unit, d
	if known {
		return nil, nil
	}
	return g, nil
}

func carriedSpread(m *run.Machine, carry *program.UncertainCall) (*group, *run.Fault) {
	spread, err := m.Estimate(carry)
	if err != nil {
		return nil, run.Fail(carry.Place(), err.Error(), "")
	}
	if spread.Covariance == nil {
		return nil, nil
	}
	value, f := m.Node(carry)
	if f != nil {
		return nil, f
	}
	return fromSpread(spread, carry, value), nil
}

func fromSpread(s model.Estimate, carry *program.UncertainCall, value any) *group {
	g := &group{degreesOfFreedom: s.DegreesOfFreedom, correlation: correlation(s.Covariance)}
	if s.Readings != nil {
		g.readings = [][]float64{s.Readings}
	}
	for i, at := range carry.Fields {
		in := &Input{DegreesOfFreedom: s.DegreesOfFreedom, U: math.Sqrt(s.Covariance[i][i]), group: g}
		in.step = in.U
		in.Nominal, in.Type = fieldOf(carry, value, at)
		g.inputs = append(g.inputs, in)
	}
	return g
}

func fieldOf(carry *program.UncertainCall, value any, at int) (float64, program.Quantity) {
	t := carry.Type()
	if record, ok := t.(*program.Record); ok && at >= 0 {
		t, value = record.Fields[at].Type, value.(library.Record)[at]
	}
	q, _ := t.(program.Quantity)
	x, ok := value.(float64)
	if !ok {
		x = math.NaN()
	}
	return x, q
}

func correlation(covariance [][]float64) mat.Symmetric {
	n := len(covariance)
	out := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			if scale := math.Sqrt(covariance[i][i] * covariance[j][j]); scale > 0 {
				out.SetSym(i, j, covariance[i][j]/scale)
			}
		}
	}
	return out
}

// tablesOf names the tables and lists that the readings of a mean come from, by
// their numbers: means of columns of one table were observed together. It is
// empty for readings that stand in the call itself, which are nobody else's.
func tablesOf(carry *program.UncertainCall) string {
	seen := map[*program.Def]bool{}
	var tables []int
	var follow func(n program.Node)
	follow = func(n program.Node) {
		if ref, ok := n.(*program.Ref); ok && !seen[ref.Def] {
			seen[ref.Def] = true
			before := len(tables)
			if n := ref.Def.Node(); n != nil {
				follow(n)
			}
			_, list := ref.Def.Type.(program.List)
			if program.Is[*program.Data](ref.Def) || list && len(tables) == before {
				tables = append(tables, ref.Def.ID)
			}
		}
		for _, child := range program.Children(n) {
			follow(child)
		}
	}
	follow(carry)
	if len(tables) == 0 {
		return ""
	}
	slices.Sort(tables)
	return fmt.Sprint(tables)
}

// joined puts the means of one table's columns into one group: their readings
// were taken together, so that they are correlated (JCGM 100:2008, 5.2.3).
func joined(groups []*group) []*group {
	first := map[string]*group{}
	var out []*group
	for _, g := range groups {
		if g.readings == nil || g.table == "" {
			out = append(out, g)
			continue
		}
		key := fmt.Sprint(g.table, len(g.readings[0]))
		if into := first[key]; into != nil {
			into.join(g)
			continue
		}
		first[key] = g
		out = append(out, g)
	}
	return out
}

// together puts typed values into groups by what is said of their correlations (JCGM
// 100:2008, 5.2). One of which the line could not be worked is left out.
func together(groups []*group, list []program.Correlation) []*group {
	of := map[*program.Def]*group{}
	for _, g := range groups {
		if len(g.inputs) == 1 {
			of[g.inputs[0].Def] = g
		}
	}
	gone := map[*group]bool{}
	for _, defs := range program.Correlated(list) {
		defs = slices.DeleteFunc(defs, func(d *program.Def) bool { return of[d] == nil })
		if len(defs) < 2 {
			continue
		}
		into := of[defs[0]]
		for _, d := range defs[1:] {
			in := of[d].inputs[0]
			gone[of[d]] = true
			in.group = into
			into.inputs = append(into.inputs, in)
		}
		into.correlation = program.Matrix(defs, list)
	}
	return slices.DeleteFunc(groups, func(g *group) bool { return gone[g] })
}

func (g *group) join(other *group) {
	for i, in := range other.inputs {
		in.group = g
		g.inputs = append(g.inputs, in)
		g.readings = append(g.readings, other.readings[i])
	}
	g.correlation = correlation(products(g.readings))
}

func products(readings [][]float64) [][]float64 {
	out := make([][]float64, len(readings))
	for i, a := range readings {
		for _, b := range readings {
			out[i] = append(out[i], floats.Dot(a, b))
		}
	}
	return out
}
