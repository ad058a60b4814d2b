package run

import (
	"inkwing/evaluate/program"
)

// with evaluates an expression again with some plain values replaced: only the
// part of the graph between them and what the expression names.
func (m *Machine) with(x *program.With) (any, *Fault) {
	inputs := make([]int, len(x.Replaces))
	values := make([]any, len(x.Replaces))
	for i, r := range x.Replaces {
		v, f := m.value(r.Value)
		if f != nil {
			return nil, f
		}
		inputs[i], values[i] = r.Def.ID, v
	}
	part := m.between(inputs, program.Refs(x.X))
	saved := m.replace(inputs, values, part)
	defer m.restore(inputs, part, saved)
	now := m.now
	for _, id := range part {
		d := m.program.Defs[id]
		m.values.put(id, nil)
		// What a study in it looks at by itself may be missing here.
		if !d.OK() || m.missing(d) != "" {
			continue
		}
		v, f := m.evaluate(d)
		if f != nil && !program.Is[*program.Limit](d) {
			return nil, m.inPart(x, now, d, f)
		}
		m.values.put(id, v)
	}
	return m.value(x.X)
}

// inPart tells a fault of the part at the with that asked for it.
func (m *Machine) inPart(x *program.With, now, d *program.Def, f *Fault) *Fault {
	return Fail(x.Place(), "with these values `"+d.Shown(now.Sheet)+"` cannot be worked: "+f.Summary, f.Hint)
}

func (m *Machine) replace(inputs []int, values []any, part []int) []any {
	m.quiet++
	var saved []any
	for i, id := range inputs {
		saved = append(saved, m.values.at(id))
		m.values.put(id, values[i])
	}
	for _, id := range part {
		saved = append(saved, m.values.at(id))
	}
	return saved
}

func (m *Machine) restore(inputs, part []int, saved []any) {
	m.quiet--
	for i, id := range inputs {
		m.values.put(id, saved[i])
	}
	for i, id := range part {
		m.values.put(id, saved[len(inputs)+i])
	}
}
