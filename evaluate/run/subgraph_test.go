package run

import (
	"math"
	"strings"
	"testing"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
)

func names(list []*program.Def) string {
	var all []string
	for _, d := range list {
		all = append(all, d.Name)
	}
	return strings.Join(all, " ")
}

// TestSubgraph evaluates what lies between inputs and outputs again, and leaves
// the machine as it was.
func TestSubgraph(t *testing.T) {
	m, p := machine(t, "f(v) = v + w", "x = 1", "w = 10", "y = 2 * x", "u = w^2", "z = f(y) + u", "other = 3 * x")
	m.Run()
	def := p.Main.Names
	part := m.Subgraph([]*program.Def{def["x"]}, []int{def["z"].ID})
	if got := names(part.Defs()); got != "y z" {
		t.Errorf("evaluates %s", got)
	}
	for _, x := range []float64{5, 6} {
		part.Evaluate([]any{x})
		if got := part.Value(def["z"]); got != 2*x+110 {
			t.Errorf("x = %v: z = %v", x, got)
		}
		if got, f := part.Node(def["z"].Node()); f != nil || got != 2*x+110 {
			t.Errorf("x = %v: %v, %v", x, got, f)
		}
	}
	if m.Value(def["z"]) != 112.0 || m.Value(def["x"]) != 1.0 || part.Value(def["other"]) != 3.0 {
		t.Errorf("z = %v, x = %v, other = %v", m.Value(def["z"]), m.Value(def["x"]), part.Value(def["other"]))
	}
}

// TestSubgraphFaults says what keeps an expression from its value, from the place
// where it began, and goes on with what does not need it.
func TestSubgraphFaults(t *testing.T) {
	m, p := machine(t, "x = 1", "y = 1 / x", "z = y + 1", "w = x + 1", "out = z + w", "other = w")
	m.Run()
	def := p.Main.Names
	part := m.Subgraph([]*program.Def{def["x"]}, []int{def["out"].ID, def["other"].ID})
	part.Evaluate([]any{0.0})
	if _, f := part.Node(def["out"].Node()); f == nil || f.Summary != "this is zero, and the line divides by it" {
		t.Errorf("out: %v", f)
	}
	if part.Value(def["out"]) != nil || part.Value(def["other"]) != 1.0 {
		t.Errorf("out = %v, other = %v", part.Value(def["out"]), part.Value(def["other"]))
	}
	part.Evaluate([]any{2.0})
	if got, f := part.Node(def["out"].Node()); f != nil || got != 4.5 {
		t.Errorf("afterwards %v, %v", got, f)
	}
}

// TestDeviations moves uncertain inputs about their nominals: one value, a part of
// one, readings of a column, a bound, and a value below zero.
func TestDeviations(t *testing.T) {
	m, p := machine(t, "a = 10 ± 1", "b = 20 ± 5 %", "c = -20 ± 5 %", "ds = [1, 2]", "d = ds ± 0.1", "es = [1, -2]", "e = es ± 5 %", "f = within 4 to 6")
	m.Run()
	for _, c := range []struct {
		name string
		by   float64
		want any
	}{
		{"a", 0.5, 10.5}, {"a", -0.5, 9.5}, {"b", 0.1, 22.0}, {"c", 0.1, -18.0}, {"d", 0.5, library.List{1.5, 2.5}},
		{"e", 0.5, library.List{1.5, -3.0}}, {"f", 1, 6.0}, {"a", 0, 10.0},
	} {
		d := p.Main.Names[c.name]
		part := m.Around([]*program.Def{deviationOf(p, d)}, []int{d.ID}, 0)
		part.Evaluate([]any{c.by})
		if got := part.Value(d); !near(got, c.want) {
			t.Errorf("%s off by %v: %v, want %v", c.name, c.by, got, c.want)
		}
	}
}

func near(got, want any) bool {
	list, ok := want.(library.List)
	if !ok {
		x, isNumber := got.(float64)
		return isNumber && math.Abs(x-want.(float64)) < 1e-12
	}
	have, ok := got.(library.List)
	for i := range list {
		ok = ok && near(have[i], list[i])
	}
	return ok
}

// TestMoves tells which nodes an input bears on that is being moved, and hands
// the answer at the nominal to the study that is evaluated again.
func TestMoves(t *testing.T) {
	m, p := machine(t, "x = 1 ± 0.1", "y = 2 * x", "n = 1", "w = n + 5", "t = adjust n in 0 to 9 until w == y")
	var moves, at []any
	m.study = func(m *Machine, n program.Node) (any, *Fault) {
		s := n.(*program.Solve)
		moves, at = append(moves, m.Moves(s.Right), m.Moves(s.Left)), append(at, m.AtNominal(n))
		return 4.0, nil
	}
	m.Run()
	x, study := p.Main.Names["x"], p.Main.Names["t"]
	part := m.Around([]*program.Def{deviationOf(p, x)}, []int{study.ID}, 12)
	part.Evaluate([]any{0.1})
	if len(moves) != 4 || moves[0] != false || moves[1] != false || moves[2] != true || moves[3] != false {
		t.Errorf("moves %v", moves)
	}
	if len(at) != 2 || at[0] != nil || at[1] != 4.0 || part.m.Rows() != 12 {
		t.Errorf("at the nominal %v, rows %d", at, part.m.Rows())
	}
}

func deviationOf(p *program.Program, owner *program.Def) *program.Def {
	for _, x := range p.Defs {
		if b, ok := x.Body.(*program.Deviation); ok && b.Source.Owner == owner {
			return x
		}
	}
	return nil
}
