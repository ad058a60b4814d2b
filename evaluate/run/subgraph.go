package run

import (
	"slices"

	"inkwing/evaluate/program"
)

// A Subgraph is the part of a program between some inputs and some outputs, to be
// evaluated again with other inputs on values of its own: the machine that it was
// cut from stays as it is. Subgraphs of one machine may run side by side.
type Subgraph struct {
	m      *Machine
	inputs []int
	order  []int
	began  int // the steps of the machine that it was cut from
	faults map[int]*Fault
}

// Subgraph cuts out what the outputs need of the inputs. Whatever does not depend
// on an input keeps its value and is not evaluated again.
func (m *Machine) Subgraph(inputs []*program.Def, outputs []int) *Subgraph {
	s := &Subgraph{m: m.fork(), began: m.steps, faults: map[int]*Fault{}}
	for _, d := range inputs {
		s.inputs = append(s.inputs, d.ID)
	}
	s.order = m.between(s.inputs, outputs)
	return s
}

// between are the definitions between inputs and outputs, in order: a function
// is part of its calls.
func (m *Machine) between(inputs, outputs []int) []int {
	return slices.DeleteFunc(m.program.Graph.Between(inputs, outputs), func(id int) bool {
		return program.Is[*program.Function](m.program.Defs[id])
	})
}

// Around is the subgraph that moves uncertain inputs about their nominals. Studies
// in it start from their answers there; a sweep of more than so many rows keeps
// its answer.
func (m *Machine) Around(inputs []*program.Def, outputs []int, rows int) *Subgraph {
	s := m.Subgraph(inputs, outputs)
	s.m.nominal, s.m.moving, s.m.rows = m, s.inputs, rows
	return s
}

// Moves reports whether an input that is being moved about its nominal bears on
// what the nodes name.
func (m *Machine) Moves(nodes ...program.Node) bool {
	var named []int
	for _, n := range nodes {
		named = append(named, program.Refs(n)...)
	}
	return slices.ContainsFunc(named, func(id int) bool { return slices.Contains(m.moving, id) }) ||
		len(m.program.Graph.Between(m.moving, named)) > 0
}

// Rows is how long a sweep may be that is evaluated again about the nominal.
func (m *Machine) Rows() int { return m.rows }

// AtNominal is what a study came to with every uncertain input at its nominal,
// while those are being moved; nil otherwise.
func (m *Machine) AtNominal(n program.Node) any {
	if m.nominal == nil || m.now == nil || m.now.Node() != n {
		return nil
	}
	return m.nominal.values.at(m.now.ID)
}

// fork is a machine with the same values, and its own from here on. Cautions hold
// at the nominal point only: it raises none, or a million draws would pile them
// up.
func (m *Machine) fork() *Machine {
	f := newMachine(m.ctx, m.program, m.study)
	f.values = m.values.fork()
	f.now, f.steps, f.most, f.quiet = m.now, m.steps, m.most, 1
	f.nominal, f.moving, f.rows, f.memo = m.nominal, m.moving, m.rows, m.memo
	return f
}

// For is the part of the subgraph that some of its definitions need. It has the same
// values, so that only the one or the other is in use, and the work of a subgraph just cut.
func (s *Subgraph) For(ids []int) *Subgraph {
	needed := make(map[int]bool, len(s.order))
	for _, id := range ids {
		needed[id] = true
	}
	part := &Subgraph{m: s.m, inputs: s.inputs, began: s.began, faults: map[int]*Fault{}}
	for _, id := range slices.Backward(s.order) {
		if needed[id] {
			part.order = append(part.order, id)
			for _, of := range s.m.program.Defs[id].Dependencies {
				needed[of] = true
			}
		}
	}
	slices.Reverse(part.order)
	s.m.steps = s.began
	return part
}

// Evaluate puts the inputs' values in and evaluates the subgraph, as far as it
// can be.
func (s *Subgraph) Evaluate(values []any) {
	clear(s.faults)
	s.m.cells = 0 // nothing is kept of those before
	for i, id := range s.inputs {
		s.m.values.put(id, values[i])
	}
	for _, id := range s.order {
		s.define(s.m.program.Defs[id])
	}
}

func (s *Subgraph) define(d *program.Def) {
	s.m.values.put(d.ID, nil)
	if !d.OK() || s.m.missing(d) != "" {
		return
	}
	s.m.now = d
	v, f := s.m.evaluate(d)
	if f != nil {
		s.faults[d.ID] = f
		return
	}
	s.m.values.put(d.ID, v)
}

// why is the fault that keeps a definition from its value, its own or that of
// what it needs; nil if it has one.
func (s *Subgraph) why(d *program.Def) *Fault {
	if s.m.values.at(d.ID) != nil {
		return nil
	}
	if f := s.faults[d.ID]; f != nil {
		return f
	}
	for _, id := range d.Dependencies {
		if s.m.values.at(id) == nil {
			return s.why(s.m.program.Defs[id])
		}
	}
	return Fail(d.Place, "`"+d.Name+"` is not worked", "mend its line first")
}

// Value is what a definition came to, nil if it could not be evaluated.
func (s *Subgraph) Value(d *program.Def) any { return s.m.values.at(d.ID) }

// Node evaluates an expression with the subgraph's values. The fault is that of
// what it names where that could not be evaluated.
func (s *Subgraph) Node(n program.Node) (any, *Fault) {
	for _, id := range program.Refs(n) {
		if f := s.why(s.m.program.Defs[id]); f != nil {
			return nil, f
		}
	}
	return s.m.value(n)
}

// Defs are the definitions that the subgraph evaluates again, in their order.
func (s *Subgraph) Defs() []*program.Def {
	list := make([]*program.Def, len(s.order))
	for i, id := range s.order {
		list[i] = s.m.program.Defs[id]
	}
	return list
}

// Steps is the work done so far, to be charged to the machine that asked.
func (s *Subgraph) Steps() int { return s.m.steps }

// Afresh forgets the work done so far: for draws, of which each has the whole
// bound to itself.
func (s *Subgraph) Afresh() { s.m.steps = 0 }

// Unremembered works every call of the library itself: for draws, which never come
// twice and would fill a memo.
func (s *Subgraph) Unremembered() { s.m.memo = nil }

// Stopped is why the run was told to stop, nil if it was not.
func (s *Subgraph) Stopped() error { return s.m.ctx.Err() }

// Afford is the fault of having worked too much, or too long.
func (m *Machine) Afford(at program.Node) *Fault {
	if m.ctx.Err() != nil {
		return tooLong(at.Place())
	}
	return m.spend(0, at)
}

// Hold counts the cells of a table that a study is about to make.
func (m *Machine) Hold(cells int, at program.Node) *Fault {
	if m.cells += cells; m.cells > program.MaxVaried {
		return Fail(at.Place(), "with this the what-ifs make more than 200,000 cells", "vary in larger steps, or ask for fewer quantities")
	}
	return nil
}

// Charge counts work that subgraphs have done.
func (m *Machine) Charge(steps int) { m.steps += steps }

// Node evaluates an expression with the machine's values.
func (m *Machine) Node(n program.Node) (any, *Fault) {
	raised := len(m.raised)
	v, f := m.value(n)
	m.raised = m.raised[:raised] // its definition has raised them
	return v, f
}
