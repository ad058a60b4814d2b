package program

import (
	"slices"
	"strings"

	"inkwing/evaluate/library"
)

// A Bypass is an argument of a call that takes another's bearing away: a constant that
// was measured, where turns are given too. What it takes away is worked from a plain
// value that somebody changes.
type Bypass struct {
	Owner *Def   // whose call it is; nil for one in the outputs themselves
	Given string // the argument that stands in the way
	Taken string // the one without its bearing: "coil.turns"
	Left  string // what that bears on still: "resistance and inductance"; empty for nothing
}

// Bypasses are the calls between a plain value and some outputs that it cannot reach as
// whoever changes it would think. Touched are the definitions, by number, that depend on
// the value, or more of them: all others are passed over.
func Bypasses(from *Def, outputs []Node, touched map[int]bool) (list []Bypass) {
	w := &wayfinder{from: from, touched: touched, bears: map[*Def]bool{}, seen: map[*Def]bool{}}
	for _, n := range outputs {
		w.visit(n, nil)
	}
	return w.found
}

// A wayfinder goes from outputs down to a plain value.
type wayfinder struct {
	from    *Def
	touched map[int]bool
	bears   map[*Def]bool
	seen    map[*Def]bool
	found   []Bypass
}

// visit looks at each call of a node and of what it is worked from, once.
func (w *wayfinder) visit(n Node, owner *Def) {
	if n == nil {
		return
	}
	switch x := n.(type) {
	case *Ref:
		for _, d := range append([]*Def{x.Def}, x.Cells...) {
			if !w.seen[d] && w.touched[d.ID] {
				w.seen[d] = true
				w.visit(d.Node(), d)
			}
		}
	case *Call:
		w.call(x, owner)
	}
	for _, child := range Children(n) {
		w.visit(child, owner)
	}
}

// call looks for arguments that stand in the way, and that the value does not bear on
// itself.
func (w *wayfinder) call(c *Call, owner *Def) {
	for i, p := range c.Func.Params {
		if c.Args[i] == nil || len(p.Overrides) == 0 || w.touches(c.Args[i]) {
			continue
		}
		for _, o := range p.Overrides {
			if taken := argument(c, strings.Split(o.Path, ".")); taken != nil && w.touches(taken) {
				w.found = append(w.found, Bypass{owner, p.Name, o.Path, o.Leaves})
			}
		}
	}
}

// touches reports whether the value bears on a node.
func (w *wayfinder) touches(n Node) bool {
	switch x := n.(type) {
	case nil:
		return false
	case *Ref:
		if w.reaches(x.Def) {
			return true
		}
		for _, d := range x.Cells {
			if w.reaches(d) {
				return true
			}
		}
	}
	for _, child := range Children(n) {
		if w.touches(child) {
			return true
		}
	}
	return false
}

func (w *wayfinder) reaches(d *Def) bool {
	if d == w.from {
		return true
	}
	known, ok := w.bears[d]
	if !ok {
		w.bears[d] = false // no cycles: each is asked once
		known = w.touched[d.ID] && d.Node() != nil && w.touches(d.Node())
		w.bears[d] = known
	}
	return known
}

// argument is what was given for a parameter, or for a field of a record that goes in:
// that of the call by which the record was made, where it has one of that name.
func argument(n Node, path []string) Node {
	if len(path) == 0 {
		return n
	}
	switch x := n.(type) {
	case *UncertainCall:
		return argument(x.X, path)
	case *Uncertain:
		return argument(x.X, path)
	case *Fit:
		return argument(x.X, path)
	case *Ref:
		if inner := x.Def.Node(); inner != nil {
			return argument(inner, path)
		}
	case *Call:
		named := func(p library.Param) bool { return p.Name == path[0] }
		if i := slices.IndexFunc(x.Func.Params, named); i >= 0 && x.Args[i] != nil {
			return argument(x.Args[i], path[1:])
		}
		return nil
	}
	return n
}
