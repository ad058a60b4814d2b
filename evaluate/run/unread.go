package run

import (
	"slices"

	"inkwing/evaluate/program"
)

// OnlyFor lets the calls of the subgraph leave out what takes work and nobody reads, where
// nothing of it is asked for but some expressions, and the limits among its outputs.
func (s *Subgraph) OnlyFor(nodes []program.Node) {
	r := reading{calls: map[int]*program.Call{}, fields: map[*program.Call]map[int]bool{}}
	within := s.Defs()
	for _, d := range within {
		if c, ok := d.Node().(*program.Call); ok && len(c.Func.Asked) > 0 && !c.Each {
			r.calls[d.ID], r.fields[c] = c, map[int]bool{}
		}
	}
	if len(r.calls) == 0 {
		return
	}
	for _, d := range within {
		r.body(d)
	}
	for _, n := range nodes {
		r.node(n)
	}
	s.m.leaves = r.unread()
}

// A reading is which fields of what calls came to are read, and where.
type reading struct {
	calls  map[int]*program.Call // by the definition that is nothing else
	fields map[*program.Call]map[int]bool
}

// body reads what a definition is made of; what is a call of r.calls is not read by that.
func (r *reading) body(d *program.Def) {
	if c := r.calls[d.ID]; c != nil {
		for _, n := range program.Children(c) {
			r.node(n)
		}
		return
	}
	for _, n := range d.Body.Operands() {
		if n != nil {
			r.node(n)
		}
	}
}

// node reads an expression: of a definition's record a field, or all.
func (r *reading) node(n program.Node) {
	switch x := n.(type) {
	case *program.FieldOf:
		if c := r.named(x.X); c != nil {
			r.fields[c][x.Index] = true
			return
		}
	case *program.Ref:
		if c := r.named(x); c != nil {
			for _, a := range c.Func.Asked {
				for _, i := range a.Fields {
					r.fields[c][i] = true
				}
			}
		}
	}
	for _, child := range program.Children(n) {
		r.node(child)
	}
}

// named is the call of r.calls that a name stands for; nil for none.
func (r *reading) named(n program.Node) *program.Call {
	if x, ok := n.(*program.Ref); ok {
		return r.calls[x.Def.ID]
	}
	return nil
}

// unread are the names of what each call may leave out.
func (r *reading) unread() map[*program.Call][]string {
	list := map[*program.Call][]string{}
	for c, read := range r.fields {
		for _, a := range c.Func.Asked {
			if !slices.ContainsFunc(a.Fields, func(i int) bool { return read[i] }) {
				list[c] = append(list[c], a.Name)
			}
		}
	}
	return list
}
