package run

import (
	"maps"
	"slices"

	"inkwing/evaluate/program"
)

// A Slice is the part of a program between some inputs and some outputs, to be
// worked again with other inputs on values of its own: the machine that it was
// cut from stays as it is. Slices of one machine may run side by side.
type Slice struct {
	m      *Machine
	inputs []int
	order  []int
	fault  *Fault
	faults map[int]*Fault
}

// Slice cuts out what the outputs need of the inputs. Whatever does not depend
// on an input keeps its value and is not worked again.
func (m *Machine) Slice(inputs []*program.Def, outputs []int) *Slice {
	s := &Slice{m: m.fork(), faults: map[int]*Fault{}}
	for _, d := range inputs {
		s.inputs = append(s.inputs, d.ID)
	}
	s.order = m.between(s.inputs, outputs)
	return s
}

// between are the definitions between inputs and outputs, in order: a function
// is part of its calls.
func (m *Machine) between(inputs, outputs []int) []int {
	return slices.DeleteFunc(m.program.Graph.Slice(inputs, outputs), func(id int) bool {
		return program.Is[*program.Function](m.program.Defs[id])
	})
}

// Around is the slice that moves uncertain inputs about their middles. Studies
// in it start from their answers at the middle; a sweep of more than so many
// rows keeps its answer.
func (m *Machine) Around(inputs []*program.Def, outputs []int, rows int) *Slice {
	s := m.Slice(inputs, outputs)
	s.m.middle, s.m.moving, s.m.rows = m, s.inputs, rows
	return s
}

// Moves reports whether an input that is being moved about its middle bears on what
// the nodes name.
func (m *Machine) Moves(nodes ...program.Node) bool {
	var named []int
	for _, n := range nodes {
		named = append(named, program.Refs(n)...)
	}
	return slices.ContainsFunc(named, func(id int) bool { return slices.Contains(m.moving, id) }) ||
		len(m.program.Graph.Slice(m.moving, named)) > 0
}

// Rows is how long a sweep may be that is worked again about the middle.
func (m *Machine) Rows() int { return m.rows }

// Middle is what a study came to with every uncertain input at its middle,
// while those are being moved; nil otherwise.
func (m *Machine) Middle(n program.Node) any {
	if m.middle == nil || m.now == nil || m.now.Node() != n {
		return nil
	}
	return m.middle.values[m.now.ID]
}

// fork is a machine with the same values, and its own from here on. Cautions
// hold at the nominal point only, so it raises none.
func (m *Machine) fork() *Machine {
	f := New(m.ctx, m.program, m.study)
	copy(f.values, m.values)
	maps.Copy(f.params, m.params)
	f.now, f.steps, f.most, f.quiet = m.now, m.steps, m.most, 1
	f.middle, f.moving, f.rows = m.middle, m.moving, m.rows
	return f
}

// Work puts the inputs' values in and works the slice. The fault is the first;
// what does not depend on it is worked all the same.
func (s *Slice) Work(values []any) *Fault {
	s.fault = nil
	clear(s.faults)
	for i, id := range s.inputs {
		s.m.values[id] = values[i]
	}
	for _, id := range s.order {
		s.define(s.m.program.Defs[id])
	}
	return s.fault
}

func (s *Slice) define(d *program.Def) {
	s.m.values[d.ID] = nil
	if !d.OK() || s.m.missing(d) != "" {
		return
	}
	s.m.now = d
	v, f := s.m.work(d)
	if s.fault == nil {
		s.fault = f
	}
	if f != nil {
		s.faults[d.ID] = f
		return
	}
	s.m.values[d.ID] = v
}

// why is the fault that keeps a definition from its value, its own or that of
// what it needs; nil if it has one.
func (s *Slice) why(d *program.Def) *Fault {
	if s.m.values[d.ID] != nil {
		return nil
	}
	if f := s.faults[d.ID]; f != nil {
		return f
	}
	for _, id := range d.Dependencies {
		if s.m.values[id] == nil {
			return s.why(s.m.program.Defs[id])
		}
	}
	return Fail(d.Place, "`"+d.Name+"` is not worked", "mend its line first")
}

// Value is what a definition came to, nil if it could not be worked.
func (s *Slice) Value(d *program.Def) any { return s.m.values[d.ID] }

// Node works an expression with the slice's values. The fault is that of what
// it names where that could not be worked.
func (s *Slice) Node(n program.Node) (any, *Fault) {
	for _, id := range program.Refs(n) {
		if f := s.why(s.m.program.Defs[id]); f != nil {
			return nil, f
		}
	}
	return s.m.value(n)
}

// Works are the definitions that the slice works again, in their order.
func (s *Slice) Works() []*program.Def {
	list := make([]*program.Def, len(s.order))
	for i, id := range s.order {
		list[i] = s.m.program.Defs[id]
	}
	return list
}

// Steps is the work done so far, to be charged to the machine that asked.
func (s *Slice) Steps() int { return s.m.steps }

// Afresh forgets the work done so far: for draws, of which each has the whole
// bound to itself.
func (s *Slice) Afresh() { s.m.steps = 0 }

// Stopped is why the run was told to stop, nil if it was not.
func (s *Slice) Stopped() error { return s.m.ctx.Err() }

// Afford is the fault of having worked too much, or too long.
func (m *Machine) Afford(at program.Node) *Fault {
	if m.ctx.Err() != nil {
		return Fail(at.Place(), "this took too long and was stopped", "")
	}
	return m.spend(0, at)
}

// Charge counts work that slices have done.
func (m *Machine) Charge(steps int) { m.steps += steps }

// Node works an expression with the machine's values.
func (m *Machine) Node(n program.Node) (any, *Fault) { return m.value(n) }
